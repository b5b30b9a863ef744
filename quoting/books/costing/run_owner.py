"""The sheet "Owner": what the run earns, by customer, roll and line, and where it is thin."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal

from quoting.books.costing.columns import FIRST_ROW, INDEX, SHEET, LineTable
from quoting.books.costing.costing_sheet import PROTECTION, costing_sheet
from quoting.books.costing.lines import UNDER_FLOOR
from quoting.books.costing.orders import order_values
from quoting.books.look import Book, BookColumn, BookSheet, Pages, line_names
from quoting.core import column_letters, format_stock
from quoting.estimating import Estimate, LineResult

COLUMNS = (
    BookColumn("", 34),
    BookColumn("Sold", 13, "money"),
    BookColumn("Cost", 13, "money"),
    BookColumn("Profit", 13, "money"),
    BookColumn("Margin", 9, "percent"),
    BookColumn("Markup", 9, "percent"),
    BookColumn("Roll hours with set-up", 11, "number"),
    BookColumn("Profit a roll hour", 13, "money"),
    BookColumn("Set-up share of the hours", 13, "percent"),
    BookColumn("Remarks", 34),
)
_SHOWN, _SHOWN_RISKS = 15, 6
_CHART_ROWS = 17
_SCALE = 74
_PAGE_POINTS = 680.0
"""Rows that one landscape page holds at this scale, on the shorter of Letter and A4."""


class _Figures:
    """One row of figures over some lines: formulas over the sheet Lines, with their values."""

    def __init__(self, sold: Decimal, cost: Decimal, setup: float, rolling: float) -> None:
        self.sold, self.cost = sold, cost
        self.profit = sold - cost
        self.setup, self.minutes = setup, setup + rolling

    @classmethod
    def of(cls, table: LineTable, lines: Iterable[str]) -> _Figures:
        """Add up the lines of these ids."""
        values = [table.values[line] for line in lines]
        return cls(
            sum((value["extended"] for value in values), Decimal(0)),
            sum((value["cost"] for value in values), Decimal(0)),
            float(sum(value["setup_minutes"] for value in values)),
            float(sum(value["rolling_minutes"] for value in values)),
        )

    @property
    def an_hour(self) -> float:
        return float(self.profit) / (self.minutes / 60) if self.minutes else 0.0


def owner_sheet(book: Book, estimate: Estimate, table: LineTable) -> None:
    """Write the sheet; amounts follow Lines and Orders, the order of the rows is that of the run."""
    says = (
        f"What this run earns, {estimate.shop.rates.currency}. The roll is what there is least of, so profit "
        "a roll hour says which work to want. Sold is before tax; a top-up to the least order counts with "
        "the customer."
    )
    sheet = costing_sheet(book, estimate, "Owner", COLUMNS, says=says, fit=False)
    sheet.raw.set_print_scale(_SCALE)
    pages = Pages(sheet, _PAGE_POINTS)
    row = _customers(sheet, 3, estimate, table)
    row = _rolls(sheet, row + 1, estimate, table)
    weakest = _weakest(estimate, table)
    row = _risks(sheet, row + 1, estimate, table)
    row = _floor(sheet, row + 1, estimate, table)
    first = row + 1
    row = _lines(sheet, first, weakest, table, line_names(estimate))
    if weakest:
        _chart(book, sheet, first + 1, row - 1)
        row = max(row, first + _CHART_ROWS)
    pages.keep(first, row)
    first = row + 1
    row = _plates(sheet, first, estimate)
    pages.keep(first, row)
    pages.finish(row, len(COLUMNS) - 1)
    sheet.raw.protect("", PROTECTION)


def _heads(sheet: BookSheet, row: int, what: str, remarks: str = "") -> None:
    sheet.heads(row, (BookColumn(what, 0), *COLUMNS[1:-1], BookColumn(remarks, 0)))


def _customers(sheet: BookSheet, row: int, estimate: Estimate, table: LineTable) -> int:
    _heads(sheet, row, "Customer")
    first = row + 1
    sold, cost = Decimal(0), Decimal(0)
    for index, (order, rows) in enumerate(zip(estimate.orders, table.orders, strict=True)):
        row += 1
        values = order_values(order, table, estimate)
        own = [result.line.id for result in order.lines if result.line.id in table.rows]
        figures = _Figures.of(table, own)
        figures = _Figures(
            values["before_tax"], values["cost"], figures.setup, figures.minutes - figures.setup
        )
        at = index + 5
        minutes = (_sum(table, "setup_minutes", rows), _sum(table, "rolling_minutes", rows))
        sheet.text(row, 0, order.order.customer)
        _figures(sheet, row, f"=Orders!H{at}", f"=Orders!K{at}", minutes, figures, "")
        sold, cost = sold + figures.sold, cost + figures.cost
    every = _Figures.of(table, table.rows)
    total = _Figures(sold, cost, every.setup, every.minutes - every.setup)
    row += 1
    sheet.text(row, 0, "All", "total line")
    rows = (FIRST_ROW, table.last_row) if table.rows else None
    minutes = (_sum(table, "setup_minutes", rows), _sum(table, "rolling_minutes", rows))
    sums = [f"=SUM({letter}{first + 1}:{letter}{row})" for letter in "BC"]
    _figures(sheet, row, sums[0], sums[1], minutes, total, " total")
    sheet.fill(row, (len(COLUMNS) - 1,), "total")
    return row + 1


def _rolls(sheet: BookSheet, row: int, estimate: Estimate, table: LineTable) -> int:
    _heads(sheet, row, "Roll")
    for roll in estimate.shop.rolls:
        own = [
            line.line.id for line in _priced(estimate, table) if line.route and line.route.roll == roll.name
        ]
        if not own:
            continue
        row += 1
        sheet.text(row, 0, roll.name)
        parts = {
            name: f"SUMPRODUCT(({table.column('roll')}=$A{row + 1})*{table.column('counts')},"
            f"{table.column(name)})"
            for name in ("extended", "cost", "setup_minutes", "rolling_minutes")
        }
        minutes = (parts["setup_minutes"], parts["rolling_minutes"])
        _figures(
            sheet, row, f"={parts['extended']}", f"={parts['cost']}", minutes, _Figures.of(table, own), ""
        )
    return row + 1


def _floor(sheet: BookSheet, row: int, estimate: Estimate, table: LineTable) -> int:
    under = [
        result
        for result in _priced(estimate, table)
        if table.values[result.line.id]["under_floor"] == UNDER_FLOOR
    ]
    sheet.wide(row, 0, len(COLUMNS) - 1, "Lines under the floor", "section")
    count = f'COUNTIF({table.column("under_floor")},"{UNDER_FLOOR}")'
    how_many = f'IF({count}=0,"No line is",IF({count}=1,"1 line is",{count}&" lines are"))'
    text = f'={how_many}&" sold under the floor of "&TEXT(floor_margin,"0.0%")'
    floor = f"{estimate.shop.pricing.floor_margin:.1%}"
    several = "1 line is" if len(under) == 1 else f"{len(under)} lines are"
    shown = f"{several if under else 'No line is'} sold under the floor of {floor}"
    sheet.formula(row + 1, 0, text, shown, "bold line")
    row += 2
    for result in under:
        values = table.values[result.line.id]
        words = (
            f"{result.line.customer} line {result.line.number}: sold at {values['sold']:,.2f} each, "
            f"floor {values['floor_unit']:,.2f}. " + _allowed(result)
        )
        sheet.wide(row, 0, len(COLUMNS) - 1, words, "text")
        row += 1
    return row


def _allowed(result: LineResult) -> str:
    override = result.override
    if override is None or not override.reason:
        return "No reason is written."
    return f"Why: {override.reason}" + (f"; allowed by {override.by}" if override.by else "")


def _risks(sheet: BookSheet, row: int, estimate: Estimate, table: LineTable) -> int:
    """Write the lines most likely to cost more than they are sold for, where the risk was drawn."""
    risky = [
        result for result in _priced(estimate, table) if result.risk and result.risk.cost.loss_chance > 0
    ]
    if not risky:
        return row - 1
    risky.sort(key=lambda result: -result.risk.cost.loss_chance if result.risk else 0.0)
    heads = ("Likeliest to lose money", "Sold", "Cost, middle", "Cost, 1 in 10 above", "Chance")
    for column, text in enumerate(heads):
        sheet.head(row, column, text, "money" if column else "")
    sheet.wide(row, len(heads), len(COLUMNS) - 1, "Why", "head inset")
    names = line_names(estimate)
    for result in risky[:_SHOWN_RISKS]:
        assert result.risk is not None
        row += 1
        cost = result.risk.cost
        sheet.text(row, 0, names[result.line.id])
        sheet.formula(
            row, 1, f"={table.cell('extended', result.line.id)}", table.values[result.line.id]["extended"]
        )
        sheet.number(row, 2, cost.p50, "money")
        sheet.number(row, 3, cost.p90, "money")
        sheet.number(row, 4, cost.loss_chance, "percent")
        sheet.wide(row, len(heads), len(COLUMNS) - 1, "; ".join(result.risk.reasons), "quiet inset")
    return row + 1


def _lines(
    sheet: BookSheet, row: int, weakest: Sequence[LineResult], table: LineTable, names: Mapping[str, str]
) -> int:
    _heads(sheet, row, f"Lines, weakest first ({len(weakest)} of {len(table.rows)})")
    for result in weakest:
        row += 1
        at = table.rows[result.line.id] + 1
        cells = {
            name: f"{SHEET}!{column_letters(INDEX[name])}{at}"
            for name in ("extended", "cost", "setup_minutes", "rolling_minutes")
        }
        sheet.text(row, 0, names[result.line.id])
        minutes = (cells["setup_minutes"], cells["rolling_minutes"])
        figures = _Figures.of(table, (result.line.id,))
        _figures(sheet, row, f"={cells['extended']}", f"={cells['cost']}", minutes, figures, "")
    return row + 1


def _figures(
    sheet: BookSheet,
    row: int,
    sold: str,
    cost: str,
    minutes: tuple[str, str],
    figures: _Figures,
    style: str,
) -> None:
    at = row + 1
    setup, rolling = minutes
    price, spent = float(figures.sold), float(figures.cost)
    share = figures.setup / figures.minutes if figures.minutes else 0.0
    profit = float(figures.profit)
    cells = (
        (sold, figures.sold, "money"),
        (cost, figures.cost, "money"),
        (f"=B{at}-C{at}", figures.profit, "money"),
        (f"=IF(B{at}=0,0,D{at}/B{at})", profit / price if price else 0, "percent"),
        (f"=IF(C{at}=0,0,D{at}/C{at})", profit / spent if spent else 0, "percent"),
        (f"=({setup}+{rolling})/60", figures.minutes / 60, "number"),
        (f"=IF(G{at}=0,0,D{at}/G{at})", figures.an_hour, "money"),
        (f"=IF(G{at}=0,0,{setup}/60/G{at})", share, "percent"),
    )
    for column, (formula, value, kind) in enumerate(cells, 1):
        sheet.formula(row, column, formula, value, f"{kind}{style}")


def _sum(table: LineTable, name: str, rows: tuple[int, int] | None) -> str:
    return table.total(name, rows) if rows else "0"


def _priced(estimate: Estimate, table: LineTable) -> list[LineResult]:
    return [result for result in estimate.lines if result.line.id in table.rows]


def _weakest(estimate: Estimate, table: LineTable) -> list[LineResult]:
    """Return the lines that earn least in a roll hour, the least first."""

    def an_hour(result: LineResult) -> float:
        return _Figures.of(table, (result.line.id,)).an_hour

    return sorted(_priced(estimate, table), key=an_hour)[:_SHOWN]


def _chart(book: Book, sheet: BookSheet, first: int, last: int) -> None:
    chart = book.raw.add_chart({"type": "bar"})
    chart.add_series(
        {
            "name": "Profit a roll hour",
            "categories": ["Owner", first, 0, last, 0],
            "values": ["Owner", first, 7, last, 7],
            "fill": {"color": "#6F8792"},
            "border": {"color": "#1F3A4A"},
            "gap": 40,
            "data_labels": {"value": True, "num_format": "#,##0", "font": {"size": 8}},
        }
    )
    chart.set_title(
        {"name": "Profit a roll hour, weakest lines", "name_font": {"size": 10}, "overlay": False}
    )
    chart.set_legend({"none": True})
    chart.set_y_axis({"reverse": True, "num_font": {"size": 8}, "line": {"color": "#9AA5AB"}})
    chart.set_x_axis({"num_font": {"size": 8}, "major_gridlines": {"visible": False}, "num_format": "#,##0"})
    chart.set_size({"width": 245, "height": 20 * max(_CHART_ROWS, last - first + 2)})
    sheet.raw.insert_chart(
        first - 1, len(COLUMNS) - 1, chart, {"object_position": 2, "x_offset": 4, "y_offset": 3}
    )


def _plates(sheet: BookSheet, row: int, estimate: Estimate) -> int:
    heads = (
        BookColumn("Plate", 0),
        BookColumn("Plates", 0, "whole"),
        BookColumn("Plate cost", 0, "money"),
        BookColumn("Drops kept", 0, "money"),
        BookColumn("Yield", 0, "percent"),
        BookColumn("Gap", 0, "percent"),
    )
    sheet.heads(row, heads)
    for group in estimate.nests:
        row += 1
        nest = group.nest
        areas = [group.problem.plate(cut.plate).area_mm2 for cut in nest.cut_plates]
        used = sum(cut.yield_share * area for cut, area in zip(nest.cut_plates, areas, strict=True))
        thickness = format_stock(group.thickness_mm, inch=estimate.shop.inch)
        sheet.text(row, 0, f"{thickness} {group.material}")
        sheet.number(row, 1, len(areas), "whole")
        sheet.number(row, 2, nest.plate_cost, "money")
        sheet.number(row, 3, nest.drop_value, "money")
        sheet.number(row, 4, used / sum(areas) if areas else 0, "percent")
        sheet.number(row, 5, nest.gap, "percent")
    return row
