"""The sheet "Lines": one row a priced line, its drivers as inputs and its price as live formulas."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from quoting.books.costing.columns import (
    COLUMNS,
    DRIVER_NAMES,
    FIRST_ROW,
    GROUP_ROW,
    HEAD_ROW,
    INDEX,
    SUMMED,
    TOTAL_ROW,
    UNIT_ROW,
    LineTable,
)
from quoting.books.costing.costing_sheet import PROTECTION, costing_sheet
from quoting.books.costing.settings import SettingCells
from quoting.books.look import NUMERIC, Book, BookColumn, BookSheet, ordered_words, short_names
from quoting.core import State, column_letters
from quoting.estimating import Estimate, LineResult, line_rules
from quoting.pricing import LINE_FORMULAS, CostDrivers, LinePrice, evaluate, line_inputs
from quoting.shop import Shop

UNDER_FLOOR, FLOOR_KEPT, LEFT_OUT = "UNDER FLOOR", "kept", "left out"
_SCALE = 70


def lines_sheet(book: Book, estimate: Estimate, settings: SettingCells) -> LineTable:
    """Write the sheet and return where each line stands."""
    says = (
        "One row a priced line, in four pages across: what it takes, what it costs, how the price is built, "
        "what it is sold for. "
        "Boxed cells are yours to change; minutes and money are for the whole quantity."
    )
    plain = [BookColumn(column.heading, column.width) for column in COLUMNS]
    sheet = costing_sheet(book, estimate, "Lines", plain, says=says, fit=False, says_from=2)
    _headings(sheet, estimate.shop.rates.currency)
    short = short_names(result.line.customer for result in estimate.lines)
    rows: dict[str, int] = {}
    values: dict[str, dict[str, Any]] = {}
    ranges: list[tuple[int, int] | None] = []
    row = FIRST_ROW
    for order in estimate.orders:
        first = row
        for result in order.lines:
            if result.state is State.PRICED and result.drivers and result.price:
                rows[result.line.id] = row
                values[result.line.id] = line_values(result, estimate.shop)
                _line(
                    sheet,
                    row,
                    result,
                    values[result.line.id],
                    estimate.shop.inch,
                    short[result.line.customer],
                    settings,
                )
                row += 1
        ranges.append((first, row - 1) if row > first else None)
    table = LineTable(rows, tuple(ranges), max(FIRST_ROW, row - 1), values)
    _totals(sheet, table)
    _page(sheet, table.last_row)
    return table


def line_values(result: LineResult, shop: Shop) -> dict[str, Any]:
    """Return every value of a priced line by column name, exactly as the formulas give it."""
    drivers, price = _priced(result)
    values = evaluate(line_inputs(drivers, shop.rates, line_rules(result, shop), shop.cutting), LINE_FORMULAS)
    by_hand = price.unit != values["unit"]
    sold = price.unit if by_hand else values["unit"]
    extended = sold * price.quantity
    profit = extended - values["cost"]
    return values | {
        "by_hand": sold if by_hand else None,
        "sold": sold,
        "extended": extended,
        "profit": profit,
        "margin_of_price": profit / extended if extended else Decimal(0),
        "markup_on_cost": profit / values["cost"] if values["cost"] else Decimal(0),
        "under_floor": UNDER_FLOOR if sold < values["floor_unit"] else FLOOR_KEPT,
        "counts": 1,
    }


def _priced(result: LineResult) -> tuple[CostDrivers, LinePrice]:
    if result.drivers is None or result.price is None:
        raise ValueError(f"line {result.line.id} is not priced")
    return result.drivers, result.price


def _headings(sheet: BookSheet, currency: str) -> None:
    block = ""
    for index, column in enumerate(COLUMNS):
        if column.block != block:
            block = column.block
            sheet.text(GROUP_ROW, index, block, "group line")
        sheet.head(HEAD_ROW, index, column.heading, column.style)
        unit = column.unit.replace("money", currency)
        sheet.text(UNIT_ROW, index, unit, "quiet right" if column.style in NUMERIC else "quiet")


def _line(
    sheet: BookSheet,
    row: int,
    result: LineResult,
    values: Mapping[str, Any],
    inch: bool,
    customer: str,
    settings: SettingCells,
) -> None:
    line, route = result.line, result.route
    ends = route.ends if route else None
    sheet.text(row, INDEX["customer"], customer, "line rule")
    sheet.text(row, INDEX["number"], line.number, "line rule")
    part = f"{line.part_no}: " if line.part_no else ""
    sheet.text(row, INDEX["what"], part + ordered_words(line, inch=inch, ends=ends), "quiet rule")
    sheet.text(row, INDEX["roll"], route.roll if route else "", "text rule")
    _drivers(sheet, row, values, settings, route.roll if route else "")
    _decided(sheet, row, result, values, settings)
    _formulas(sheet, row, values, _cells(row, line.id, settings))


def _drivers(
    sheet: BookSheet, row: int, values: Mapping[str, Any], settings: SettingCells, roll: str
) -> None:
    for name in DRIVER_NAMES:
        # The quantity is the customer's: minutes and plates are worked out for it.
        style = f"{COLUMNS[INDEX[name]].style} {'rule' if name == 'quantity' else 'input'}"
        if name == "roll_rate" and roll in settings.rolls:
            sheet.formula(row, INDEX[name], f"={settings.rolls[roll]}", values[name], style)
        else:
            sheet.number(row, INDEX[name], values[name], style)


def _decided(
    sheet: BookSheet, row: int, result: LineResult, values: Mapping[str, Any], settings: SettingCells
) -> None:
    """Write what a person may decide on the line: margin, price by hand, why, and whether to keep it."""
    override = result.override
    if override and override.margin is not None:
        sheet.number(row, INDEX["margin"], override.margin, "percent input")
    else:
        name = settings.names["margin"]
        sheet.formula(row, INDEX["margin"], f"={name}", values["margin"], "percent input")
    sheet.text(row, INDEX["why_by_hand"], override.reason if override else "", "text inset input")
    sheet.fill(row, (INDEX["drop"],), "centre input")
    sheet.text(row, INDEX["id"], result.line.id, "quiet inset rule")
    drop = f"{column_letters(INDEX['drop'])}{row + 1}"
    sheet.formula(row, INDEX["counts"], f'=IF({drop}="",1,0)', values["counts"], "whole rule")
    if values["by_hand"] is None:
        sheet.fill(row, (INDEX["by_hand"],), "money input")
    else:
        sheet.number(row, INDEX["by_hand"], values["by_hand"], "money input")


def _cells(row: int, line_id: str, settings: SettingCells) -> dict[str, str]:
    cells = dict(settings.names)
    cells |= {name: f"{column_letters(index)}{row + 1}" for name, index in INDEX.items()}
    change = settings.plate_change.get(line_id)
    if change:
        for name in ("plate_cost", "drop_credit"):
            cells[name] = f"{cells[name]}*(1+{change})"
    return cells


def _formulas(sheet: BookSheet, row: int, values: Mapping[str, Any], cells: dict[str, str]) -> None:
    for formula in LINE_FORMULAS:
        text = formula.excel(cells)
        if formula.name == "under_floor":
            floor = f'IF({text[1:]},"{UNDER_FLOOR}","{FLOOR_KEPT}")'
            text = f'=IF({cells["counts"]}=0,"{LEFT_OUT}",{floor})'
        style = COLUMNS[INDEX[formula.name]].style
        sheet.formula(row, INDEX[formula.name], text, values[formula.name], f"{style} rule")
        if formula.name == "unit":
            by_hand = cells["by_hand"]
            chosen = f'=IF({by_hand}="",{cells["unit"]},{by_hand})'
            sheet.formula(row, INDEX["sold"], chosen, values["sold"], "money bold rule")
            cells["unit"] = cells["sold"]
    shares = {"margin_of_price": "extended", "markup_on_cost": "cost"}
    for name, whole in shares.items():
        text = f"=IF({cells[whole]}=0,0,{cells['profit']}/{cells[whole]})"
        sheet.formula(row, INDEX[name], text, values[name], "percent rule")


def _totals(sheet: BookSheet, table: LineTable) -> None:
    row = TOTAL_ROW
    sheet.text(row, 0, "All priced lines", "bold line")
    sheet.fill(row, range(1, len(COLUMNS)), "bold")
    if not table.rows:
        return
    for name in SUMMED:
        letter = column_letters(INDEX[name])
        counts, first, last = column_letters(INDEX["counts"]), FIRST_ROW + 1, table.last_row + 1
        text = f"=SUMPRODUCT({counts}{first}:{counts}{last},{letter}{first}:{letter}{last})"
        style = COLUMNS[INDEX[name]].style
        total = sum(values[name] for values in table.values.values())
        sheet.formula(row, INDEX[name], text, total, f"{style} bold")


def _page(sheet: BookSheet, last_row: int) -> None:
    raw = sheet.raw
    raw.freeze_panes(FIRST_ROW, 2)
    raw.repeat_rows(GROUP_ROW, UNIT_ROW)
    raw.repeat_columns(0, 1)
    raw.set_print_scale(_SCALE)
    blocks = [index for index in range(3, len(COLUMNS)) if COLUMNS[index].block != COLUMNS[index - 1].block]
    raw.set_v_pagebreaks(blocks)
    raw.print_area(0, 0, last_row, len(COLUMNS) - 1)
    for formula in LINE_FORMULAS:
        if formula.name in INDEX:
            raw.data_validation(
                HEAD_ROW,
                INDEX[formula.name],
                HEAD_ROW,
                INDEX[formula.name],
                {"validate": "any", "input_title": formula.label[:32], "input_message": formula.reason},
            )
    raw.protect("", PROTECTION)
