"""Which drawings a run leaves in its folder `cutting`, and what writes each of them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path

from quoting.books.cutting.cut_sheets import (
    STATIONS,
    CutSheet,
    piece_names,
    size_words,
    source_words,
    waiting_words,
)
from quoting.books.cutting.drawing_heads import cutting_words, handling_words
from quoting.books.cutting.remnants import Remnant, by_layout, drop_ids, ids_words
from quoting.books.look import blank_owners, day_words, material_words, plate_words
from quoting.core import OrderLine, Outline, State, format_length, safe_name
from quoting.drawings import PieceText, PlateSheet, blank_dxf, plate_dxf, plate_svg
from quoting.estimating import Estimate, edge_words

Writer = Callable[[Path], None]

FOLDER = "cutting"
MADE = (f"{FOLDER}/plate-*.svg", f"{FOLDER}/plate-*.dxf", f"{FOLDER}/blank-*.dxf")
"""What the drawings of any run are called: those of an earlier run do not stay among the new ones."""


def drawing_writers(
    estimate: Estimate, sheets: Sequence[CutSheet], kept: Sequence[Remnant]
) -> dict[str, Writer]:
    """Return a writer by file name: SVG and DXF of each layout, DXF of each blank of the priced lines."""
    pieces, drops = piece_texts(estimate), by_layout(kept)
    writers: dict[str, Writer] = {}
    for sheet in sheets:
        drawn = plate_sheet(estimate, sheet, pieces, drops)
        writers[f"{FOLDER}/{sheet.stem}.svg"] = partial(_write_svg, drawn)
        writers[f"{FOLDER}/{sheet.stem}.dxf"] = partial(_write_plate, drawn)
    for piece, (result, outline) in blank_owners(estimate).items():
        if result.state is State.PRICED:
            name = blank_name(pieces[piece].name, writers)
            text = _blank_text(result.line, pieces[piece], inch=estimate.shop.inch)
            writers[name] = partial(_write_blank, outline, text)
    return writers


def plate_sheet(
    estimate: Estimate,
    sheet: CutSheet,
    pieces: Mapping[str, PieceText],
    kept: Mapping[int, Sequence[Remnant]],
) -> PlateSheet:
    """Return what the drawing of a layout shows; `kept` are the new remnants by layout."""
    inch = estimate.shop.inch
    material = material_words(sheet.group.thickness_mm, sheet.group.material, inch=inch)
    copies = f", {len(sheet.cuts)} plates alike" if len(sheet.cuts) > 1 else ""
    due = f"first due {day_words(sheet.due)}" if sheet.due else ""
    when = "".join(f", {words}" for words in (due, waiting_words(sheet)) if words)
    heading = (
        f"{sheet.number}. {sheet.name}{copies}",
        f"{material}, {plate_words(sheet.plate, inch=inch)}, {source_words(sheet.plate)}",
        f"{STATIONS[sheet.station]}, {sheet.minutes:.0f} min a plate, {sheet.cut.yield_share:.0%} used{when}",
        cutting_words(sheet, inch=inch),
        handling_words(sheet, estimate.shop),
    )
    drops = tuple(_drop_texts(sheet, kept, inch=inch))
    return PlateSheet(sheet.problem, sheet.cut, heading, pieces, drops)


def blank_name(label: str, taken: Mapping[str, object]) -> str:
    """Return the file name of a blank's drawing, another one when it is taken."""
    stem = f"{FOLDER}/blank-{safe_name(label, fallback='part')}"
    name, number = f"{stem}.dxf", 1
    while name in taken:
        number += 1
        name = f"{stem}-no{number}.dxf"
    return name


def piece_texts(estimate: Estimate) -> dict[str, PieceText]:
    """Return what stands in each piece, by its id: that id, its size, and what the customer calls it."""
    inch = estimate.shop.inch
    names = piece_names(estimate)
    return {
        piece: PieceText(piece, size_words(outline, inch=inch), names[piece])
        for piece, (_, outline) in blank_owners(estimate).items()
    }


def _blank_text(line: OrderLine, text: PieceText, *, inch: bool) -> PieceText:
    """Return a blank's text with its plate and edges: a file alone must say what to make of it."""
    prep = f"; edges: {edge_words(line.edge_prep, inch=inch)}" if line.edge_prep else ""
    material = material_words(line.thickness_mm, line.material, inch=inch)
    return PieceText(text.label, f"{text.size}, {material}{prep}", text.name)


def _drop_texts(
    sheet: CutSheet, kept: Mapping[int, Sequence[Remnant]], *, inch: bool
) -> Iterator[tuple[str, ...]]:
    """Yield id and size of every drop; what it is worth stands in the cutting book, not on shop paper."""
    first = {remnant.id: remnant for remnant in kept.get(sheet.number, ())}
    for ids in drop_ids(kept, sheet):
        drop = first[ids[0]]
        size = " x ".join(format_length(mm, inch=inch) for mm in (drop.across_mm, drop.along_mm))
        yield ids_words(ids), size


def _write_svg(drawn: PlateSheet, path: Path) -> None:
    path.write_text(plate_svg(drawn), encoding="utf-8", newline="\n")


def _write_plate(drawn: PlateSheet, path: Path) -> None:
    path.write_bytes(plate_dxf(drawn))


def _write_blank(outline: Outline, text: PieceText, path: Path) -> None:
    path.write_bytes(blank_dxf(outline, text))
