"""Customers' sheets to develop the order-sheet reader with, each with its careful reading beside it."""

from __future__ import annotations

from importlib import import_module

from tests.data.sheet_model import Sheet

PAGES = (
    "american", "british", "german", "french", "spanish", "italian", "dutch", "portuguese", "polish",
    "chinese", "czech_swedish", "mails", "layouts", "scope", "shapes", "numbers", "dates", "ordinary",
)  # fmt: skip


def sheets() -> tuple[Sheet, ...]:
    """Return all sheets."""
    return tuple(one for page in PAGES for one in import_module(f"{__name__}.{page}").SHEETS)
