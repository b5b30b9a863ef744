"""Blanks and cut plates as DXF (release 2000, ASCII), millimetres, for the cutting table's own program.

Layers: PLATE its edge, BLANK the outlines to cut as closed polylines (cones with true arcs), DROP what goes
back to the rack, CUT the strokes of a shear, TEXT labels, stroke numbers and the grain arrow. The same input
gives the same bytes: dates and ids in the file are fixed.
"""

from __future__ import annotations

from quoting.core import Outline
from quoting.drawings.cut_path import Path, blank_path, box_path, middle_of, placed_path, plate_path, room_in
from quoting.drawings.dxf import DxfDrawing
from quoting.drawings.plate_sheet import PieceText, PlateSheet, letter_height, one_line
from quoting.nesting import Placement

_LETTERS_OF_PLATE = 0.02
"""Height of the largest letters over the plate's length."""


def blank_dxf(outline: Outline, text: PieceText) -> bytes:
    """Return one blank, the low corner of its box at the origin."""
    drawing = DxfDrawing()
    _polyline(drawing, blank_path(outline), "BLANK")
    dx, dy = outline.box()
    placed = Placement("", 1, 0.0, 0.0, dx, dy)
    rows = (text.label, text.size)
    _rows(drawing, middle_of(placed, outline), room_in(placed, outline), rows, 0.05 * max(dx, dy))
    return drawing.encoded()


def plate_dxf(sheet: PlateSheet) -> bytes:
    """Return one cut plate, its origin at the corner that the nest counts from."""
    drawing = DxfDrawing()
    _polyline(drawing, plate_path(sheet.plate), "PLATE")
    for placed in sheet.cut.placements:
        _polyline(drawing, placed_path(placed, sheet.outline(placed)), "BLANK")
    for drop in sheet.cut.drops:
        _polyline(drawing, box_path(drop.x_mm, drop.y_mm, drop.dx_mm, drop.dy_mm), "DROP")
    _cuts(drawing, sheet)
    _labels(drawing, sheet)
    _grain(drawing, sheet)
    return drawing.encoded()


def _polyline(drawing: DxfDrawing, path: Path, layer: str) -> None:
    drawing.polyline([(corner.x, corner.y, corner.bulge) for corner in path], layer)


def _cuts(drawing: DxfDrawing, sheet: PlateSheet) -> None:
    most = _LETTERS_OF_PLATE * sheet.plate.length_mm
    for cut in sheet.cut.cuts:
        along = cut.axis == "x"
        start, end = [(cut.at_mm, v) if along else (v, cut.at_mm) for v in (cut.start_mm, cut.end_mm)]
        drawing.line(start, end, "CUT")
        near = cut.start_mm + min((1 + cut.number % 2) * 2 * most, cut.length_mm / 2)
        place = (cut.at_mm, near) if along else (near, cut.at_mm)
        _text(drawing, place, str(cut.number), 0.7 * most, 0)


def _labels(drawing: DxfDrawing, sheet: PlateSheet) -> None:
    most = _LETTERS_OF_PLATE * sheet.plate.length_mm
    for placed in sheet.cut.placements:
        outline, text = sheet.outline(placed), sheet.text(placed)
        rows = (text.label, text.size)
        _rows(drawing, middle_of(placed, outline), room_in(placed, outline), rows, most)
    for drop, words in zip(sheet.cut.drops, sheet.drops, strict=True):
        middle = (drop.x_mm + drop.dx_mm / 2, drop.y_mm + drop.dy_mm / 2)
        _rows(drawing, middle, (drop.dx_mm, drop.dy_mm), words, most)
    for row, line in enumerate(reversed(sheet.heading)):
        where = (sheet.plate.length_mm / 2, sheet.plate.width_mm + (1.5 + 1.5 * row) * most)
        _text(drawing, where, one_line(line), 0.8 * most, 0)


def _grain(drawing: DxfDrawing, sheet: PlateSheet) -> None:
    size = _LETTERS_OF_PLATE * sheet.plate.length_mm
    tail, tip = (0.0, -2 * size), (8 * size, -2 * size)
    for end in (tail, (tip[0] - size, tip[1] + size / 3), (tip[0] - size, tip[1] - size / 3)):
        drawing.line(tip, end, "TEXT")
    _text(drawing, (11 * size, -2 * size), one_line(sheet.grain), 0.8 * size, 0)


def _rows(
    drawing: DxfDrawing,
    at: tuple[float, float],
    room: tuple[float, float],
    rows: tuple[str, ...],
    most: float,
) -> None:
    """Write rows of text about a point, small enough for the room."""
    shown = tuple(filter(None, map(one_line, rows)))
    if not shown:
        return
    height, upright = letter_height(shown, room, most)
    for row, words in enumerate(shown):
        off = ((len(shown) - 1) / 2 - row) * 1.25 * height
        place = (at[0] - off, at[1]) if upright else (at[0], at[1] + off)
        _text(drawing, place, words, height, 90 if upright else 0)


def _text(drawing: DxfDrawing, at: tuple[float, float], words: str, height: float, turn_deg: float) -> None:
    """Write one row of text; `%%` and `^` would begin a code in the format."""
    plain = words.replace("%%", "% %").replace("^", "^ ")
    drawing.text(at, plain, height, turn_deg, layer="TEXT")
