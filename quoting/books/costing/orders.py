"""The sheet "Orders": one row a customer, with top-up, tax, and what is left of it."""

from __future__ import annotations

from collections import Counter
from decimal import Decimal
from typing import Any

from quoting.books.costing.columns import LineTable
from quoting.books.costing.costing_sheet import PROTECTION, costing_sheet
from quoting.books.look import Book, BookColumn, BookSheet
from quoting.core import State
from quoting.estimating import Estimate, OrderEstimate
from quoting.pricing import ORDER_FORMULAS, evaluate

COLUMNS = (
    BookColumn("Customer", 26),
    BookColumn("File", 28),
    BookColumn("Lines priced", 8, "whole"),
    BookColumn("Waiting", 9, "whole"),
    BookColumn("Not quoted", 8, "whole"),
    BookColumn("Lines", 13, "money"),
    BookColumn("Top-up to the least order", 12, "money"),
    BookColumn("Before tax", 13, "money"),
    BookColumn("Tax", 11, "money"),
    BookColumn("Total", 13, "money"),
    BookColumn("Cost", 13, "money"),
    BookColumn("Profit before tax", 13, "money"),
    BookColumn("Margin", 9, "percent"),
    BookColumn("Markup", 9, "percent"),
    BookColumn("Before tax if it is the only one won", 13, "money"),
)
ORDERS_HEAD_ROW = _HEAD = 3
ALL_ORDERS = "All orders"
_CELLS = {"lines": "F", "order_top_up": "G", "before_tax": "H", "tax": "I", "total": "J"}
_SUMMED = "CDEFGHIJKL"


def orders_sheet(book: Book, estimate: Estimate, table: LineTable) -> None:
    """Write the sheet; every amount follows the sheets Lines and Settings."""
    currency = estimate.shop.rates.currency
    says = (
        f"What each customer is asked for and what is left of it, {currency}. "
        "Margin is a share of the price, markup of the cost. An order that shares plates with others also "
        "has its price without them, as computed: quote it by itself to offer that."
    )
    sheet = costing_sheet(book, estimate, "Orders", COLUMNS, says=says)
    sheet.heads(_HEAD, COLUMNS)
    row = _HEAD + 1
    totals: Counter[str] = Counter()
    for order, rows in zip(estimate.orders, table.orders, strict=True):
        values = _order(sheet, row, order, rows, table, estimate)
        totals.update(values)
        row += 1
    _total(sheet, row, totals)
    sheet.raw.repeat_rows(_HEAD)
    sheet.raw.protect("", PROTECTION)


def order_values(order: OrderEstimate, table: LineTable, estimate: Estimate) -> dict[str, Any]:
    """Return one order's amounts by name, as the formulas give them."""
    own = [table.values[result.line.id] for result in order.lines if result.line.id in table.values]
    rules = estimate.shop.pricing
    lines = sum((values["extended"] for values in own), Decimal(0))
    inputs = {"lines": lines, "order_minimum": rules.order_minimum, "tax_share": rules.tax_share}
    values = evaluate(inputs, ORDER_FORMULAS)
    cost = sum((values["cost"] for values in own), Decimal(0))
    return values | {"cost": cost, "profit": values["before_tax"] - cost, "priced": len(own)}


def _order(
    sheet: BookSheet,
    row: int,
    order: OrderEstimate,
    rows: tuple[int, int] | None,
    table: LineTable,
    estimate: Estimate,
) -> dict[str, Any]:
    values = order_values(order, table, estimate)
    states = Counter(line.state for line in order.rows)
    counts = {"C": values["priced"], "D": states[State.QUESTION], "E": states[State.NO_QUOTE]}
    sheet.text(row, 0, order.order.customer)
    sheet.text(row, 1, order.order.file, "quiet")
    for letter, count in counts.items():
        sheet.number(row, _index(letter), count, "whole")
    cells = {name: f"{letter}{row + 1}" for name, letter in _CELLS.items()}
    cells |= {"order_minimum": "order_minimum", "tax_share": "tax_share"}
    _sum_or_nothing(sheet, row, "F", table, rows, "extended", values["lines"])
    for formula in ORDER_FORMULAS:
        sheet.formula(row, _index(_CELLS[formula.name]), formula.excel(cells), values[formula.name])
    _sum_or_nothing(sheet, row, "K", table, rows, "cost", values["cost"])
    _left(sheet, row, values["profit"], values["before_tax"], values["cost"], "")
    if order.alone is not None:
        sheet.number(row, len(COLUMNS) - 1, order.alone, "money")
    return {
        **counts,
        **{letter: values[name] for name, letter in _CELLS.items()},
        "K": values["cost"],
        "L": values["profit"],
    }


def _sum_or_nothing(
    sheet: BookSheet,
    row: int,
    letter: str,
    table: LineTable,
    rows: tuple[int, int] | None,
    name: str,
    value: Decimal,
) -> None:
    if rows is None:
        sheet.number(row, _index(letter), 0, "money")
    else:
        sheet.formula(row, _index(letter), f"={table.total(name, rows)}", value)


def _left(sheet: BookSheet, row: int, profit: Decimal, price: Decimal, cost: Decimal, style: str) -> None:
    at = row + 1
    if not style:
        sheet.formula(row, _index("L"), f"=H{at}-K{at}", profit)
    margin = profit / price if price else Decimal(0)
    markup = profit / cost if cost else Decimal(0)
    sheet.formula(row, _index("M"), f"=IF(H{at}=0,0,L{at}/H{at})", margin, f"percent {style}")
    sheet.formula(row, _index("N"), f"=IF(K{at}=0,0,L{at}/K{at})", markup, f"percent {style}")


def _total(sheet: BookSheet, row: int, totals: Counter[str]) -> None:
    sheet.text(row, 0, ALL_ORDERS, "total line")
    sheet.fill(row, (1,), "total")
    for letter in _SUMMED:
        style = COLUMNS[_index(letter)].style
        text = f"=SUM({letter}{_HEAD + 2}:{letter}{row})"
        sheet.formula(row, _index(letter), text, totals[letter], f"{style} total")
    _left(sheet, row, Decimal(totals["L"]), Decimal(totals["H"]), Decimal(totals["K"]), "total")


def _index(letter: str) -> int:
    return ord(letter) - ord("A")
