"""The sheet "Changes" of a revision: what is otherwise than in the result it replaces, and why."""

from __future__ import annotations

from quoting.books.costing.costing_sheet import costing_sheet
from quoting.books.look import Book, BookColumn, line_names
from quoting.estimating import Estimate

COLUMNS = (
    BookColumn("Customer and line", 30, "line"),
    BookColumn("What", 34),
    BookColumn("Before", 22, "right"),
    BookColumn("After", 22, "right"),
    BookColumn("Why", 60, "text inset"),
)
_HEAD = 3


def changes_sheet(book: Book, estimate: Estimate) -> None:
    """Write the sheet, or none for a first quote."""
    revision = estimate.revision
    if revision is None:
        return
    says = (
        f"Revision {revision.number} replaces the result {revision.replaces}. Plates stay shared as nested "
        "before, also where a line is left out; run again to nest anew."
    )
    sheet = costing_sheet(book, estimate, "Changes", COLUMNS, says=says)
    sheet.heads(_HEAD, COLUMNS)
    sheet.raw.repeat_rows(_HEAD)
    sheet.raw.freeze_panes(_HEAD + 1, 0)
    names = line_names(estimate)
    for row, change in enumerate(revision.changes, _HEAD + 1):
        where = names.get(change.line, change.line) if change.line else "all"
        sheet.text(row, 0, where, "line rule")
        sheet.text(row, 1, change.what.replace("_", " "), "text rule")
        sheet.text(row, 2, change.before, "right rule")
        sheet.text(row, 3, change.after, "right rule")
        sheet.text(row, 4, change.reason, "text inset rule")
