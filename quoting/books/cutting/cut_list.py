"""The sheet "Cut list": every layout in shop order, for the shear stroke by stroke with the stops."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quoting.books.cutting.cut_sheets import (
    STATIONS,
    CutSheet,
    piece_names,
    size_words,
    source_words,
    waiting_words,
)
from quoting.books.cutting.page import HEAD, cutting_page
from quoting.books.cutting.remnants import Remnant, by_layout, drop_ids, ids_words
from quoting.books.cutting.stroke_list import Stroke, strokes
from quoting.books.look import (
    Book,
    BookColumn,
    BookSheet,
    Pages,
    blank_owners,
    day_words,
    material_words,
    plate_words,
)
from quoting.core import State, format_length
from quoting.estimating import Estimate

COLUMNS = (
    BookColumn("No.", 5, "whole"),
    BookColumn("Plate", 23, "text inset"),
    BookColumn("Material, size, edges, from", 33),
    BookColumn("Plates", 11, "whole"),
    BookColumn("Pieces on each", 50, "text inset"),
    BookColumn("Minutes, all", 9, "whole"),
    BookColumn("First due", 13, "text inset"),
    BookColumn("Planned", 18),
    BookColumn("Done", 7, "text inset"),
)
_LAST = len(COLUMNS) - 1
_SAYS = (
    "In the order of the shop; a plate's drawings begin with its number: plate-01 and so on. Stops are "
    "measured from the low edge of the part in hand, the one nearer to the lower left corner of the "
    "drawing. 'Across' cuts across the grain, 'along' with it."
)
_STROKE_HEADS = ((1, "Stroke"), (2, "Part in hand"), (3, "Stop"), (4, "Comes off at the stop; what stays"))
_SCALE = 70
_PAGE_POINTS = 690.0
"""Rows that one landscape page holds at this scale below the headings, on the shorter of Letter and A4."""


@dataclass(frozen=True, slots=True)
class _Names:
    """What pieces and drops are called, and the size of each piece in words."""

    pieces: Mapping[str, str]
    sizes: Mapping[str, str]
    inch: bool

    def length(self, mm: float) -> str:
        return format_length(round(mm, 2), inch=self.inch)


def cut_list_sheet(
    book: Book, estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant]
) -> None:
    """Write the sheet: a block for each layout, then the blanks that are cut from customers' own plate."""
    page = cutting_page(book, estimate, "Cut list", COLUMNS, title="Cut list", says=_SAYS, fit=False)
    page.raw.set_print_scale(_SCALE)
    pages = Pages(page, _PAGE_POINTS)
    owners = blank_owners(estimate)
    inch = estimate.shop.inch
    sizes = {piece: size_words(outline, inch=inch) for piece, (_, outline) in owners.items()}
    names = _Names(piece_names(estimate), sizes, inch)
    row, station, drops = HEAD, "", by_layout(kept)
    for sheet in sheets:
        first = row + 1
        if sheet.station != station:
            station = sheet.station
            row += 1
            page.wide(row, 0, _LAST, STATIONS[station], "section")
        row = _layout(page, row + 1, sheet, names, drops)
        pages.keep(first, row)
    row = _own_plate(page, row, estimate, names)
    pages.finish(row, _LAST)


def _layout(
    page: BookSheet, row: int, sheet: CutSheet, names: _Names, kept: Mapping[int, Sequence[Remnant]]
) -> int:
    """Write one layout from `row` on; return the last row."""
    counts = Counter(put.piece for put in sheet.cut.placements)
    pieces = [f"{count} x {names.pieces[piece]}: {names.sizes[piece]}" for piece, count in counts.items()]
    drops = [ids_words(ids) for ids in drop_ids(kept, sheet)]
    back = [f"keep {name}" for name in drops]
    material = material_words(sheet.group.thickness_mm, sheet.group.material, inch=names.inch)
    plate = f"{material}\n{plate_words(sheet.plate, inch=names.inch)}\n{source_words(sheet.plate)}"
    page.number(row, 0, sheet.number, "whole bold rule")
    page.text(row, 1, sheet.name, "bold inset rule")
    page.text(row, 2, plate, "text rule")
    page.number(row, 3, len(sheet.cuts), "whole rule")
    page.text(row, 4, "\n".join([*pieces, *back]), "text inset rule")
    page.number(row, 5, sheet.minutes * len(sheet.cuts), "whole rule")
    page.text(row, 6, day_words(sheet.due) if sheet.due else "", "text inset rule")
    planned = f"{day_words(sheet.start.date())} {sheet.start:%H:%M}" if sheet.start else _unplanned(sheet)
    page.text(row, 7, "\n".join(filter(None, (planned, waiting_words(sheet)))), "text rule")
    page.fill(row, (_LAST,), "input")
    if sheet.station != "shear":
        return row
    return _strokes(page, row + 1, sheet, names, drops)


def _unplanned(sheet: CutSheet) -> str:
    return f"{sheet.lead_days} days after ordering" if sheet.plate.count is None else ""


def _strokes(page: BookSheet, row: int, sheet: CutSheet, names: _Names, drops: Sequence[str]) -> int:
    for column, heading in _STROKE_HEADS:
        page.text(
            row, column, heading, "quiet right" if column == 3 else "quiet inset" if column != 2 else "quiet"
        )
    for stroke in strokes(sheet.plate, sheet.cut, names.pieces, drops):
        row += 1
        _stroke(page, row, stroke, names)
    return row


def _stroke(page: BookSheet, row: int, stroke: Stroke, names: _Names) -> None:
    cut = stroke.cut
    way = "across" if cut.axis == "x" else "along"
    trim = ", trims the edge" if cut.stage == 0 else ""
    part = " x ".join(names.length(mm) for mm in stroke.part.size)
    page.text(row, 1, f"{cut.number}  {way}{trim}", "text inset")
    page.text(row, 2, part, "text")
    page.text(row, 3, stroke.stop_words(inch=names.inch), "bold right")
    page.text(row, 4, f"{stroke.off}; stays: {stroke.rest}", "text inset")


def _own_plate(page: BookSheet, row: int, estimate: Estimate, names: _Names) -> int:
    """List the blanks that are cut from plate of the customer's own, not nested; return the last row."""
    own = [
        (result, blank)
        for result in estimate.lines
        if result.state is State.PRICED and result.line.free_issue and result.route
        for blank in result.route.plan.blanks
    ]
    if not own:
        return row
    row += 1
    page.wide(row, 0, _LAST, "From the customer's own plate, not nested", "section")
    for result, blank in own:
        row += 1
        line = result.line
        count = blank.per_part * line.quantity
        page.text(row, 1, names.pieces[blank.id], "bold inset rule")
        page.text(row, 2, material_words(line.thickness_mm, line.material, inch=names.inch), "text rule")
        page.fill(row, (0, 3, 5, 7), "rule")
        page.text(row, 4, f"{count} x {names.pieces[blank.id]}: {names.sizes[blank.id]}", "text inset rule")
        page.text(row, 6, day_words(line.due) if line.due else "", "text inset rule")
        page.fill(row, (_LAST,), "input")
    return row
