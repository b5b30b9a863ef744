"""The costing book as a workbook: one sheet, one question it answers."""

from __future__ import annotations

from pathlib import Path

from quoting.books.costing.contours import contours_sheet
from quoting.books.costing.how import how_sheet
from quoting.books.costing.lines import lines_sheet
from quoting.books.costing.minutes import minutes_sheet
from quoting.books.costing.nests import nests_sheet
from quoting.books.costing.orders import orders_sheet
from quoting.books.costing.rows import rows_sheet
from quoting.books.costing.run_owner import owner_sheet
from quoting.books.costing.settings import settings_sheet
from quoting.books.costing.what_changed import changes_sheet
from quoting.books.costing.why import why_sheet
from quoting.books.look import new_book
from quoting.estimating import Estimate


def write_costing(estimate: Estimate, path: Path) -> None:
    """Write the estimator's and owner's book to `path` (.xlsx).

    Every price on "Lines" is a formula over its own drivers and the named cells of "Settings"; each formula
    carries its value, so a preview shows it without recalculating. For the shop's eyes only.
    """
    with new_book(
        path,
        paper=estimate.shop.paper,
        created=estimate.today,
        title="Costing",
        author=estimate.shop.name,
    ) as book:
        settings = settings_sheet(book, estimate)
        table = lines_sheet(book, estimate, settings)
        orders_sheet(book, estimate, table)
        owner_sheet(book, estimate, table)
        changes_sheet(book, estimate)
        why_sheet(book, estimate)
        how_sheet(book, estimate)
        contours_sheet(book, estimate)
        minutes_sheet(book, estimate)
        nests_sheet(book, estimate)
        rows_sheet(book, estimate)
