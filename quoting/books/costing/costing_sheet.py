"""What the sheets of the costing book share: their foot, their title and how a line is named."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.books.look import Book, BookColumn, BookSheet, day_words
from quoting.estimating import Estimate

_PAGE_WIDTH = 150.0
PROTECTION = {"format_columns": True, "format_rows": True, "autofilter": True, "sort": True}


def costing_sheet(
    book: Book,
    estimate: Estimate,
    name: str,
    columns: Sequence[BookColumn],
    *,
    says: str,
    fit: bool = True,
    says_from: int = 0,
) -> BookSheet:
    """Add a sheet with its title and the one sentence that says what it is for.

    `says_from` is the first column that is not repeated on every page across.
    """
    footer = f"{estimate.shop.name} · internal · {day_words(estimate.today)}"
    sheet = book.sheet(name, [column.width for column in columns], footer=footer, fit=fit)
    sheet.text(0, 0, name, "title line")
    sheet.wide(1, says_from, _across([column.width for column in columns]), says, "quiet")
    return sheet


def _across(widths: Sequence[float]) -> int:
    """Return the last column of a text that spans about one page."""
    whole = 0.0
    for index, width in enumerate(widths):
        whole += width
        if whole > _PAGE_WIDTH:
            return max(1, index - 1)
    return len(widths) - 1
