"""Rows that somebody put into a costing book: with an amount in it a row is refused, never passed over."""

from __future__ import annotations

import re
from collections.abc import Set
from decimal import Decimal

from quoting.books.costing import ALL_ORDERS, ORDERS_HEAD_ROW
from quoting.books.costing_returned.cells import ReturnedBook, decimal_of
from quoting.core import InputError

_ACROSS = 20
"""Columns that are looked at on a sheet with fewer."""


_OURS = frozenset(("margin/(1-margin)",))
"""Formulas of the book itself in rows without a name."""
_MONEY = re.compile(
    r"\W*([A-Z]{3}\b|[$€£¥])?\s*[+-]?\d[\d.,'\s]*([A-Z]{3}|[$€£¥]|/?\s*(h|hr|hour|each|ea|pc))?\W*", re.I
)
"""A text that says an amount and nothing else: 500 USD, $ 1,250.00, 85/h."""


def refuse_amounts(book: ReturnedBook, sheet: str, row: int, columns: int) -> None:
    """Raise InputError for a row that is no line and holds an amount, at the cell of the amount.

    An amount may be typed, worked out by a formula, or stand in a text that says nothing else.
    """
    for column in range(columns):
        if book.formula(sheet, row, column) in _OURS:
            continue
        value = book.shown(sheet, row, column)
        amount = decimal_of(value)
        said = isinstance(value, str) and _MONEY.fullmatch(value) is not None
        if amount or said:
            raise InputError(
                "is an amount in a row that is no line of this run; it would be left out of every price",
                place=book.place(sheet, row, column),
                read=_read(value, amount),
                would_do="put new work on the order sheet and run again, or the money into a line",
            )


def _read(value: object, amount: Decimal | None) -> str:
    return str(value) if amount is None else f"{amount:,}"


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
