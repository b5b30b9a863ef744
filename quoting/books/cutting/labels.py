"""Labels for blanks and drops: a mark to read at two metres, what it is, and a code that holds the same.

The shop's book says how many stand on a sheet (ten of 95 x 51 mm, to be cut along the lines, when it is the
starter's); all on a label grows and shrinks with it. QR Code (ISO/IEC 18004) holds
job, piece and plate. Heat numbers are printed only where the rack knows them; else there is a box. Blanks of
a long run share a label with the others of their plate: nobody cuts out and sticks on thousands.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from quoting.books.cutting.cut_sheets import CutSheet
from quoting.books.cutting.drawings import piece_texts
from quoting.books.cutting.remnants import Remnant, by_layout
from quoting.books.look import blank_owners, material_words
from quoting.core import format_length
from quoting.drawings import (
    QUIET,
    PageForm,
    PdfPages,
    Pen,
    PieceText,
    Words,
    code_sketch,
    code_text,
    letters_for,
    lost,
)
from quoting.estimating import Estimate
from quoting.nesting import Placement

_WIDE, _HIGH = 95.0, 51.8
"""The label that the sizes below are made for."""
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
    inch, each_up_to = estimate.shop.inch, estimate.shop.cutting.label_each_up_to
    drops = by_layout(kept)
    for sheet in sheets:
        for cut in sheet.cuts:
            plate = f"{cut.plate} #{cut.copy}"
            for piece, pieces in _on_labels(cut.placements, totals, each_up_to):
                first = number[piece] + 1
                number[piece] += pieces
                count = f"{first}{f' to {number[piece]}' if pieces > 1 else ''} of {totals[piece]}"
                found.append(_piece(sheet, piece, texts[piece], (owners[piece], count, plate), inch=inch))
            found += _drops(sheet, drops.get(sheet.number, ()), cut.copy, inch=inch)
    return tuple(found)


def _on_labels(
    placements: Sequence[Placement], totals: Mapping[str, int], each_up_to: int
) -> Iterator[tuple[str, int]]:
    """Yield for each label of a plate which blank it is for, and for how many of them."""
    on_plate = Counter(put.piece for put in placements)
    for put in placements:
        if totals[put.piece] <= each_up_to:
            yield put.piece, 1
        elif pieces := on_plate.pop(put.piece, 0):
            yield put.piece, pieces


def _piece(sheet: CutSheet, piece: str, text: PieceText, where: tuple[str, str, str], *, inch: bool) -> Label:
    job, count, plate = where
    material = material_words(sheet.group.thickness_mm, sheet.group.material, inch=inch)
    rows = (
        f"{'blanks' if ' to ' in count else 'blank'} {count}, {text.name}",
        text.size,
        material,
        f"from {plate}",
    )
    code = code_text("PIECE", job, f"{piece} {count}", plate)
    return Label(code, piece, rows, sheet.plate.heat or "")


def _drops(sheet: CutSheet, kept: Sequence[Remnant], copy: int, *, inch: bool) -> Iterator[Label]:
    material = material_words(sheet.group.thickness_mm, sheet.group.material, inch=inch)
    for drop in kept:
        if drop.copy != copy:
            continue
        size = " x ".join(format_length(mm, inch=inch) for mm in (drop.across_mm, drop.along_mm))
        rows = (
            "drop, back to the rack",
            size,
            material,
            f"from {drop.from_plate}, grain along the 2nd side",
        )
        yield Label(code_text("DROP", drop.id, drop.from_plate), drop.id, rows, drop.heat)


def write_labels(estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant], path: Path) -> None:
    """Write all labels of a run to `path` (.pdf), on the shop's paper."""
    labels = labels_of(estimate, sheets, kept)
    texts = [words for label in labels for words in (label.mark, *label.rows)]
    form = PageForm(estimate.shop.paper)
    pages = PdfPages(path, form, letters_for(texts), title="Labels", made=estimate.today)
    columns, rows = estimate.shop.cutting.label_columns, estimate.shop.cutting.label_rows
    wide, high = pages.width / columns, pages.height / rows
    for index, label in enumerate(labels):
        place = index % (columns * rows)
        if index and not place:
            pages.turn()
        _put(pages, label, (place % columns * wide, place // columns * high), (wide, high))
    if not labels:
        pages.text(0, 10, "Nothing is cut.", 6, bold=True)
    pages.save()


def _put(pages: PdfPages, label: Label, at: tuple[float, float], size: tuple[float, float]) -> None:
    """Put one label with its top left corner at `at`, all on it in proportion to its size."""
    (x, y), (wide, high) = at, size
    k = min(wide / _WIDE, high / _HIGH)
    code = _CODE_MM * k
    pages.box(x, y, wide, high, pen=Pen(0.15, QUIET, (2, 2)))
    pages.put(code_sketch(label.code, size_mm=code), x + wide - code - 1.5 * k, y + 1.5 * k)
    left, full = x + 4 * k, wide - 8 * k
    room = wide - code - 7 * k
    pages.row(Words(left, y + 13 * k, label.mark, _MARK * k, bold=True), room=room, least=0.3)
    for row, words in enumerate(label.rows):
        row_room = room if row < 3 else full
        pages.text(left, y + (20 + 5.2 * row) * k, words, _TEXT * k, bold=row == 1, room=row_room)
    if label.heat:
        pages.text(left, y + 43.5 * k, f"heat {label.heat}", _TEXT * k, room=room)
    elif label.heat is not None:
        pages.entry(x + wide / 2, y + 37.5 * k, wide / 2 - 4 * k, 9 * k, "heat no.")
    gone = "letters lost, see the order sheet · " if lost((label.mark, *label.rows)) else ""
    pages.quiet(left, y + high - 2 * k, f"{gone}{label.code}", _SMALL * k, room=full)
