"""What the sheets of the costing book share: their foot, their title and how a line is named."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.books.short import short_names
from quoting.books.style import Book, Column, Sheet
from quoting.books.words import day_words
from quoting.outlines import Outline
from quoting.result import Estimate, LineResult

_PAGE_WIDTH = 150.0
PROTECTION = {"format_columns": True, "format_rows": True, "autofilter": True, "sort": True}


def costing_sheet(
    book: Book,
    estimate: Estimate,
    name: str,
    columns: Sequence[Column],
    *,
    says: str,
    fit: bool = True,
    says_from: int = 0,
) -> Sheet:
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


def line_names(estimate: Estimate) -> dict[str, str]:
    """Return what each line is called where there is little room, by line id: `Sample 12`."""
    short = short_names(order.order.customer for order in estimate.orders)
    return {
        result.line.id: f"{short.get(result.line.customer, result.line.customer)} {result.line.number}"
        for result in estimate.lines
    }


def blank_owners(estimate: Estimate) -> dict[str, tuple[LineResult, Outline]]:
    """Return whose blank each nested piece is, and its outline, by piece id."""
    return {
        blank.id: (result, blank.outline)
        for result in estimate.lines
        if result.route
        for blank in result.route.plan.blanks
    }
