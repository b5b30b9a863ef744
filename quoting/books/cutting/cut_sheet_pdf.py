"""The cut sheets as PDF: each layout to scale on a page, for the shear with its strokes and stops.

The page carries a code that holds the plate, and boxes for the heat number and for who cut it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from quoting.books.cutting.cut_sheets import CutSheet
from quoting.books.cutting.drawings import piece_texts, plate_sheet
from quoting.books.cutting.remnants import Remnant, by_layout, drop_ids, ids_words
from quoting.books.cutting.stroke_list import Stroke, strokes
from quoting.books.look import day_words
from quoting.core import format_length
from quoting.drawings import (
    QUIET,
    PageForm,
    PdfPages,
    Pen,
    PlateSheet,
    code_sketch,
    code_text,
    letters_for,
    lost,
    plate_sketch,
)
from quoting.estimating import Estimate, plate_name

REMINDER = (
    "Reminder only: local law, the machine's manual, the shop's rules and trained people come first. Nobody "
    "under or beside a lifted plate; hands clear of the hold-downs and the blade."
)
_TEXT, _SMALL = 4.0, 3.2
_HEAD_H, _FOOT_H, _ROW = 20.0, 6.0, 6.2
_LEAST_SHARE = 0.55
"""A layout is made smaller to this share of the page, so that its strokes stand on its page."""
_ENDS = (0.0, 14.0, 38.0, 100.0, 130.0, 250.0)
_HEADS = ("stroke", "cuts", "part in hand", "stop", "comes off at the stop; what stays", "ok")


def write_cut_sheets(
    estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant], path: Path
) -> None:
    """Write the cut sheets of a run to `path` (.pdf), on the shop's paper, in shop order."""
    pieces, drops = piece_texts(estimate), by_layout(kept)
    drawn = [plate_sheet(estimate, sheet, pieces, drops) for sheet in sheets]
    texts = [estimate.shop.name, *(text.name for text in pieces.values())]
    texts += [words for one in drawn for words in one.heading]
    form = PageForm(estimate.shop.paper, landscape=True)
    pages = PdfPages(path, form, letters_for(texts), title="Cut sheets", made=estimate.today)
    names = {piece: text.label for piece, text in pieces.items()}
    note = "letters lost: see the order sheet · " if lost(texts) else ""
    for number, (sheet, one) in enumerate(zip(sheets, drawn, strict=True)):
        if number:
            pages.turn()
        below = _layout(pages, sheet, one)
        if sheet.station == "shear" and sheet.cut.cuts:
            rows = _stroke_rows(sheet, names, drops)
            _strokes(pages, _Title(sheet, one, note), rows, below, inch=estimate.shop.inch)
        _foot(pages, note)
    if not sheets:
        pages.text(0, 10, "Nothing is cut.", 6, bold=True)
    pages.save()


@dataclass(frozen=True, slots=True)
class _Title:
    """What every page of one layout says at its head and foot."""

    sheet: CutSheet
    drawn: PlateSheet
    note: str


def plate_code(sheet: CutSheet) -> str:
    """Return what the code of a layout holds: the first of the plates cut so."""
    return code_text("PLATE", plate_name(sheet.cut))


def _layout(pages: PdfPages, sheet: CutSheet, drawn: PlateSheet) -> float:
    """Draw one layout, smaller where a few strokes then stand on the same page; return the y below it."""
    _head(pages, sheet, drawn)
    y = _what(pages, drawn)
    shown = replace(drawn, heading=())
    room = pages.height - y - _FOOT_H
    strokes_high = _ROW * (len(sheet.cut.cuts) + 1.6) if sheet.cut.cuts else 0.0
    if room - strokes_high >= _LEAST_SHARE * room:
        room -= strokes_high
    sketch = plate_sketch(shown, high_mm=room)
    # more kinds of pieces than a page holds beside its plate: then, and only then, the letters shrink too
    _, height = pages.put(sketch, -2, y, scale=min(1.0, room / sketch.size_mm[1]))
    return y + height


def _what(pages: PdfPages, drawn: PlateSheet) -> float:
    """Write plate, station, how it is cut and lifted above the drawing; return the y below it."""
    y = _HEAD_H
    for row, words in enumerate(drawn.heading[1:]):
        size = _TEXT + 0.4 if row == 0 else _SMALL + 0.3
        y = pages.block(0, y, words, size, pages.width, bold=row == 0)
    return y


def _head(pages: PdfPages, sheet: CutSheet, drawn: PlateSheet) -> None:
    code = plate_code(sheet)
    pages.put(code_sketch(code, size_mm=21), pages.width - 20, -2)
    name = drawn.heading[0] if drawn.heading else sheet.name
    if pages.letters.width_mm(name, 0.7 * 9, bold=True) <= 130:
        pages.text(0, 9, name, 9, bold=True, room=130)
    else:
        pages.block(0, 0, name, 4.6, 130, bold=True, most=2)
    when = f"cut {day_words(sheet.start.date())} {sheet.start:%H:%M}" if sheet.start else "cut: not planned"
    due = f"; first due {day_words(sheet.due)}" if sheet.due else ""
    pages.text(0, 16, f"{when}{due}", _TEXT, bold=True, room=130)
    for column, name in enumerate(("heat no.", "plates cut", "name, day")):
        pages.entry(134 + 34 * column, 1, 33, 12, name)
    pages.quiet(pages.width - 22, 17, code, _SMALL - 0.3, anchor="end", room=90)


def _stroke_rows(
    sheet: CutSheet, names: Mapping[str, str], kept: Mapping[int, Sequence[Remnant]]
) -> tuple[Stroke, ...]:
    drops = [ids_words(ids) for ids in drop_ids(kept, sheet)]
    return strokes(sheet.plate, sheet.cut, names, drops)


def _strokes(pages: PdfPages, title: _Title, rows: Sequence[Stroke], y: float, *, inch: bool) -> None:
    """Write the strokes with their stops below the layout, or on pages of their own."""
    last = pages.height - _FOOT_H
    if y + _ROW * (len(rows) + 1.5) > last:
        y = _next(pages, title)
    y = _stroke_heads(pages, y)
    for row in rows:
        if y + _ROW > last:
            y = _stroke_heads(pages, _next(pages, title))
        _stroke(pages, row, y, inch=inch)
        y += _ROW


def _next(pages: PdfPages, title: _Title) -> float:
    _foot(pages, title.note)
    pages.turn()
    _head(pages, title.sheet, title.drawn)
    pages.text(
        0, _HEAD_H + 3, "Stops from the low edge of the part in hand: left or bottom in the drawing.", _SMALL
    )
    return _HEAD_H + 5


def _stroke_heads(pages: PdfPages, y: float) -> float:
    pages.box(0, y, pages.width, _ROW, fill="#E4E4E4")
    for x, words in zip(_ENDS, _HEADS, strict=True):
        pages.text(x + 1, y + 4.4, words, _SMALL, bold=True)
    return y + _ROW


def _stroke(pages: PdfPages, row: Stroke, y: float, *, inch: bool) -> None:
    def size(mm: float) -> str:
        return format_length(round(mm, 2), inch=inch)

    way = "across" if row.cut.axis == "x" else "along"
    trim = ", trim" if row.cut.stage == 0 else ""
    base = y + 4.5
    pages.text(12, base, str(row.cut.number), _TEXT + 0.6, bold=True, anchor="end")
    pages.text(_ENDS[1] + 1, base, f"{way}{trim}", _SMALL + 0.3, room=22)
    pages.text(_ENDS[2] + 1, base, " x ".join(size(mm) for mm in row.part.size), _TEXT - 0.3, room=60)
    pages.text(_ENDS[4] - 2, base, row.stop_words(inch=inch), _TEXT + 0.8, bold=True, anchor="end", room=28)
    pages.text(_ENDS[4] + 1, base, f"{row.off}; stays: {row.rest}", _TEXT - 0.3, room=117)
    pages.box(_ENDS[5] + 1, y + 0.7, 6, _ROW - 1.4, pen=Pen(0.3))
    pages.rule(0, y + _ROW, pages.width, y + _ROW, pen=Pen(0.15, QUIET))


def _foot(pages: PdfPages, note: str) -> None:
    pages.quiet(0, pages.height, f"{note}{REMINDER} · page {pages.number}", _SMALL - 0.3, room=pages.width)
