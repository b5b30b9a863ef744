"""Customers' sheets held back to measure the order-sheet reader with at the end: see README.md here."""

from __future__ import annotations

from importlib import import_module

from tests.data.sheet_model import Sheet

PAGES = ("inches", "metric", "languages", "letters", "pages_of_books", "plain", "shop_talk")


def sheets() -> tuple[Sheet, ...]:
    """Return all sheets."""
    return tuple(one for page in PAGES for one in import_module(f"{__name__}.{page}").SHEETS)
