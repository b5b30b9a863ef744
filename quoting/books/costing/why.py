"""The sheet "Why": ten lines a job that say why it is this price, to be read out on the phone."""

from __future__ import annotations

from quoting.books.costing.costing_sheet import costing_sheet
from quoting.books.look import Book, BookColumn, BookSheet, Pages, line_names
from quoting.estimating import Estimate
from quoting.record import PricedLineRecord, what_if_lines, why_lines
from quoting.recording import describe

COLUMNS = (BookColumn("", 5), BookColumn("", 150))
_SCALE = 80
_PAGE_POINTS = 636.0
"""Rows that one landscape page holds at this scale, on the shorter of Letter and A4."""


def why_sheet(book: Book, estimate: Estimate) -> None:
    """Write the sheet; what would change a price stands below its ten lines, where it was worked out."""
    says = "Ten lines a job, to be read out on the phone. As computed: they do not follow changed cells."
    sheet = costing_sheet(book, estimate, "Why", COLUMNS, says=says, fit=False)
    sheet.raw.set_print_scale(_SCALE)
    pages = Pages(sheet, _PAGE_POINTS)
    record = describe(estimate)
    names = line_names(estimate)
    row = 3
    for line in record.lines:
        if isinstance(line, PricedLineRecord):
            first, row = (
                row,
                _job(sheet, row, names[line.id], why_lines(record, line), what_if_lines(line)),
            )
            pages.keep(first, row - 1)
            row += 1
    pages.finish(row, 1)


def _job(sheet: BookSheet, row: int, name: str, why: tuple[str, ...], changes: tuple[str, ...]) -> int:
    sheet.wide(row, 0, 1, name, "section")
    for number, text in enumerate(why, 1):
        row += 1
        sheet.text(row, 0, str(number), "right")
        sheet.text(row, 1, text, "bold inset" if number == 1 else "text inset")
    if changes:
        row += 1
        sheet.text(row, 1, "What would change it", "bold inset")
    for text in changes:
        row += 1
        sheet.text(row, 1, text, "text inset")
    return row + 1
