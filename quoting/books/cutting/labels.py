"""Labels for blanks and drops: a mark to read at two metres, what it is, and a code that holds the same.

A label is 95 x 51 mm, ten on a sheet of plain paper to be cut along the lines; QR Code (ISO/IEC 18004) holds
job, piece and plate. Heat numbers are printed only where the rack knows them; else there is a box.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from quoting.books.cutting.cut_sheets import CutSheet
from quoting.books.cutting.drawings import piece_texts
from quoting.books.cutting.remnants import Remnant
from quoting.books.look import blank_owners, material_words
from quoting.core import format_length
from quoting.drawings import QUIET, PageForm, PdfPages, Pen, PieceText, code_sketch, code_text, letters_for
from quoting.estimating import Estimate

_WIDE, _HIGH, _COLUMNS, _ROWS = 95.0, 51.8, 2, 5
_MARK, _TEXT, _SMALL = 11.0, 4.2, 3.2
_CODE_MM = 29.0


@dataclass(frozen=True, slots=True)
class Label:
    """What stands on one label; `heat` is empty where it is to be written in, None where none is wanted."""

    code: str
    mark: str
    rows: tuple[str, ...]
    heat: str | None


def labels_of(estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant]) -> tuple[Label, ...]:
    """Return the labels in the order of cutting: the blanks of a plate, then its drops."""
    texts = piece_texts(estimate)
    owners = {piece: result.line.id for piece, (result, _) in blank_owners(estimate).items()}
    totals = Counter(put.piece for sheet in sheets for cut in sheet.cuts for put in cut.placements)
    number: Counter[str] = Counter()
    found: list[Label] = []
    inch = estimate.shop.inch
    for sheet in sheets:
        for cut in sheet.cuts:
            plate = f"{cut.plate} #{cut.copy}"
            for put in cut.placements:
                number[put.piece] += 1
                count = f"{number[put.piece]} of {totals[put.piece]}"
                found.append(
                    _piece(sheet, put.piece, texts[put.piece], (owners[put.piece], count, plate), inch=inch)
                )
            found += _drops(sheet, kept, cut.copy, inch=inch)
    return tuple(found)


def _piece(sheet: CutSheet, piece: str, text: PieceText, where: tuple[str, str, str], *, inch: bool) -> Label:
    job, count, plate = where
    material = material_words(sheet.group.thickness_mm, sheet.group.material, inch=inch)
    rows = (f"blank {count}, {text.label}", text.size, material, f"from {plate}")
    code = code_text("PIECE", job, f"{piece} {count}", plate)
    return Label(code, piece, rows, sheet.plate.heat or "")


def _drops(sheet: CutSheet, kept: Sequence[Remnant], copy: int, *, inch: bool) -> Iterator[Label]:
    material = material_words(sheet.group.thickness_mm, sheet.group.material, inch=inch)
    for drop in kept:
        if drop.sheet.number != sheet.number or drop.copy != copy:
            continue
        size = " x ".join(format_length(mm, inch=inch) for mm in (drop.across_mm, drop.along_mm))
        rows = (
            "drop, back to the rack",
            size,
            f"{material}, grain along the 2nd side",
            f"from {drop.from_plate}",
        )
        yield Label(code_text("DROP", drop.id, drop.from_plate), drop.id, rows, drop.heat)


def write_labels(estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant], path: Path) -> None:
    """Write all labels of a run to `path` (.pdf), on the shop's paper."""
    labels = labels_of(estimate, sheets, kept)
    texts = [words for label in labels for words in (label.mark, *label.rows)]
    form = PageForm(estimate.shop.paper)
    pages = PdfPages(path, form, letters_for(texts), title="Labels", made=estimate.today)
    each = _COLUMNS * _ROWS
    for index, label in enumerate(labels):
        if index and index % each == 0:
            pages.turn()
        place = index % each
        _put(pages, label, place % _COLUMNS * _WIDE, place // _COLUMNS * _HIGH)
    if not labels:
        pages.text(0, 10, "Nothing is cut.", 6, bold=True)
    pages.save()


def _put(pages: PdfPages, label: Label, x: float, y: float) -> None:
    pages.box(x, y, _WIDE, _HIGH, pen=Pen(0.15, QUIET, (2, 2)))
    pages.put(code_sketch(label.code, size_mm=_CODE_MM), x + _WIDE - _CODE_MM - 1.5, y + 1.5)
    room = _WIDE - _CODE_MM - 7
    pages.text(x + 4, y + 13, label.mark, _MARK, bold=True, room=room, least=0.3)
    for row, words in enumerate(label.rows):
        pages.text(
            x + 4, y + 20 + 5.2 * row, words, _TEXT, bold=row == 1, room=room if row < 3 else _WIDE - 8
        )
    if label.heat:
        pages.text(x + 4, y + 43.5, f"heat {label.heat}", _TEXT, room=room)
    elif label.heat is not None:
        pages.entry(x + 48, y + 37.5, _WIDE - 52, 9, "heat no.")
    pages.text(x + 4, y + _HIGH - 2, label.code, _SMALL - 0.4, ink=QUIET, room=_WIDE - 8)
