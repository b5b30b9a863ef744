"""Rows that somebody put into a costing book: with an amount in it a row is refused, never passed over."""

from __future__ import annotations

from collections.abc import Set

from quoting.books.costing import ALL_ORDERS, ORDERS_HEAD_ROW
from quoting.books.costing_returned.cells import ReturnedBook, decimal_of
from quoting.core import InputError

_ACROSS = 20
"""Columns that are looked at on a sheet with fewer."""


def refuse_amounts(book: ReturnedBook, sheet: str, row: int, columns: int) -> None:
    """Raise InputError for a row that is no line and holds a typed amount, at the cell of the amount."""
    for column in range(columns):
        if book.formula(sheet, row, column):
            continue
        amount = decimal_of(book.shown(sheet, row, column))
        if amount:
            raise InputError(
                "is an amount in a row that is no line of this run; it would be left out of every price",
                place=book.place(sheet, row, column),
                read=f"{amount:,}",
                would_do="put new work on the order sheet and run again, or the money into a line",
            )


def refuse_new_settings(book: ReturnedBook, sheet: str) -> None:
    """Raise InputError for an amount typed beside the settings, in a cell that no price looks at."""
    for row in set(range(book.rows(sheet))) - book.named_rows(sheet):
        refuse_amounts(book, sheet, row, _ACROSS)


def refuse_new_orders(book: ReturnedBook, sheet: str, customers: Set[str]) -> None:
    """Raise InputError for a row with an amount among the orders that is none of them."""
    for row in range(ORDERS_HEAD_ROW + 1, book.rows(sheet)):
        name = book.text(sheet, row, 0)
        if name not in customers and name != ALL_ORDERS:
            refuse_amounts(book, sheet, row, _ACROSS)
