"""The sheet "Remnants": what goes back to the rack, and who got the plates that were taken out of it."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from quoting.books.cutting.cut_sheets import CutSheet
from quoting.books.cutting.page import HEAD, cutting_page, line_list
from quoting.books.cutting.remnants import Remnant, Taken, taken_plates
from quoting.books.look import Book, BookColumn, BookSheet, material_words, plate_words
from quoting.core import format_length
from quoting.estimating import Estimate

COLUMNS = (
    BookColumn("Mark", 15, "line"),
    BookColumn("Material", 18),
    BookColumn("Size, across x along the grain", 24),
    BookColumn("Heat number", 24),
    BookColumn("Value", 10, "money"),
    BookColumn("From plate", 20, "text inset"),
    BookColumn("No.", 6, "whole"),
    BookColumn("Lines that share its plate", 40, "text inset"),
    BookColumn("On rack", 8, "text inset"),
)
_TAKEN = (
    BookColumn("Taken from the rack", 15),
    BookColumn("Material", 18),
    BookColumn("Size, edges", 24),
    BookColumn("Heat number", 24),
    BookColumn("Price", 10, "money"),
    BookColumn("Used by", 20, "text inset"),
    BookColumn("No.", 6, "whole"),
    BookColumn("Would also have held, but get nothing of it", 40, "text inset"),
    BookColumn("", 8),
)
_VALUE, _LINES, _LAST = 4, 7, len(COLUMNS) - 1
_SAYS = (
    "Chalk the mark, the heat number and an arrow along the grain on each drop before it leaves the table: "
    "once it is cut none of the three can be told. Sizes are rounded down."
)


def remnants_sheet(
    book: Book, estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant]
) -> None:
    """Write the sheet: who got what of the rack's own remnants, then the new ones with their marks."""
    page = cutting_page(book, estimate, "Remnants", _TAKEN, title="Remnants", says=_SAYS)
    row = _taken_table(page, HEAD + 1, taken_plates(estimate, sheets), estimate) + 2
    page.wide(row, 0, _LAST, "New remnants for the rack", "section")
    row += 1
    page.heads(row, COLUMNS)
    # Two tables: only the longer one repeats its headings.
    page.raw.repeat_rows(row)
    page.raw.freeze_panes(HEAD - 1, 0)
    first = row + 1
    shared_by = line_list(estimate)
    for remnant in kept:
        row += 1
        _remnant(page, row, remnant, inch=estimate.shop.inch)
        page.text(row, _LINES, shared_by(remnant.sheet.lines), "text inset rule")
    row += 1
    if not kept:
        page.wide(row, 0, _LAST, "No drop is worth keeping.", "text")
        return
    page.text(row, 0, f"All, {estimate.shop.rates.currency}", "total line")
    page.fill(row, range(1, _LAST + 1), "total")
    value = sum((remnant.value for remnant in kept), Decimal(0))
    page.formula(row, _VALUE, f"=SUM(E{first + 1}:E{row})", value, "money total")


def _remnant(page: BookSheet, row: int, remnant: Remnant, *, inch: bool) -> None:
    group = remnant.sheet.group
    size = " x ".join(format_length(mm, inch=inch) for mm in (remnant.across_mm, remnant.along_mm))
    page.text(row, 0, remnant.id, "bold rule")
    page.text(row, 1, material_words(group.thickness_mm, group.material, inch=inch), "text rule")
    page.text(row, 2, size, "text rule")
    page.text(row, 3, heat_words(remnant), "text rule")
    page.number(row, _VALUE, remnant.value, "money rule")
    page.text(row, 5, remnant.from_plate, "text inset rule")
    page.number(row, 6, remnant.sheet.number, "whole rule")
    page.fill(row, (_LAST,), "input")


def heat_words(remnant: Remnant) -> str:
    """Return the heat number to write on a remnant, or why there is none."""
    if remnant.heat:
        return remnant.heat
    return "from the certificate, when it comes" if remnant.bought else "none: cannot be certified"


def _taken_table(page: BookSheet, row: int, taken: Sequence[Taken], estimate: Estimate) -> int:
    """List the old remnants cut, and plates that other lines could have used; return the last row."""
    shown = [item for item in taken if item.plate.remnant or item.missed]
    if not shown:
        page.wide(row, 0, _LAST, "No remnant is cut, and no plate of the rack that two lines wanted.", "text")
        return row
    inch, called = estimate.shop.inch, line_list(estimate)
    for index, item in enumerate(shown, row):
        group, plate = item.sheet.group, item.plate
        kind = "\nremnant" if plate.remnant else ""
        page.text(index, 0, item.name + kind, "bold rule")
        page.text(index, 1, material_words(group.thickness_mm, group.material, inch=inch), "text rule")
        page.text(index, 2, plate_words(plate, inch=inch), "text rule")
        page.text(index, 3, plate.heat or "none", "text rule")
        page.number(index, 4, plate.price, "money rule")
        page.text(index, 5, called(item.used_by), "text inset rule")
        page.number(index, 6, item.sheet.number, "whole rule")
        page.text(index, _LINES, called(item.missed) or "no other line", "text inset rule")
        page.fill(index, (_LAST,), "rule")
    return row + len(shown) - 1
