"""The cutting book: what to buy, what to cut in shop order, what goes back to the rack."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from quoting.books.cutting.buy import buy_sheet
from quoting.books.cutting.cut_list import cut_list_sheet
from quoting.books.cutting.cut_sheets import CutSheet
from quoting.books.cutting.remnant_list import remnants_sheet
from quoting.books.cutting.remnants import Remnant
from quoting.books.look import new_book
from quoting.estimating import Estimate


def write_cutting(
    estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant], path: Path
) -> None:
    """Write the cutting book to `path` (.xlsx): the sheets Buy, Cut list and Remnants."""
    with new_book(
        path,
        paper=estimate.shop.paper,
        created=estimate.today,
        title="Cutting",
        author=estimate.shop.name,
    ) as book:
        buy_sheet(book, estimate, sheets)
        cut_list_sheet(book, estimate, sheets, kept)
        remnants_sheet(book, estimate, sheets, kept)
