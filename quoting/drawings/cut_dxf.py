"""Blanks and cut plates as DXF (release 2000, ASCII), millimetres, for the cutting table's own program.

Layers: PLATE its edge, BLANK the outlines to cut as closed polylines (cones with true arcs), DROP what goes
back to the rack, CUT the strokes of a shear, TEXT labels, stroke numbers and the grain arrow. The same input
gives the same bytes: dates and ids in the file are fixed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from io import StringIO
from typing import Any

from quoting.core import Outline
from quoting.drawings.cut_path import Path, blank_path, box_path, middle_of, placed_path, plate_path, room_in
from quoting.drawings.plate_sheet import PieceText, PlateSheet, letter_height, one_line
from quoting.nesting import Placement

LAYERS = {"PLATE": 8, "BLANK": 7, "DROP": 3, "CUT": 1, "TEXT": 5}
"""Layer names and their colour numbers in the palette of the format."""
_RELEASE, _MILLIMETRES, _METRIC = "R2000", 4, 1
_LETTERS_OF_PLATE = 0.02
"""Height of the largest letters over the plate's length."""


def blank_dxf(outline: Outline, text: PieceText) -> bytes:
    """Return one blank, the low corner of its box at the origin."""

    def draw(space: Any) -> None:
        _polyline(space, blank_path(outline), "BLANK")
        dx, dy = outline.box()
        placed = Placement("", 1, 0.0, 0.0, dx, dy)
        rows = (text.label, text.size)
        _rows(space, middle_of(placed, outline), room_in(placed, outline), rows, 0.05 * max(dx, dy))

    return _drawn(draw)


def plate_dxf(sheet: PlateSheet) -> bytes:
    """Return one cut plate, its origin at the corner that the nest counts from."""

    def draw(space: Any) -> None:
        _polyline(space, plate_path(sheet.plate), "PLATE")
        for placed in sheet.cut.placements:
            _polyline(space, placed_path(placed, sheet.outline(placed)), "BLANK")
        for drop in sheet.cut.drops:
            _polyline(space, box_path(drop.x_mm, drop.y_mm, drop.dx_mm, drop.dy_mm), "DROP")
        _cuts(space, sheet)
        _labels(space, sheet)
        _grain(space, sheet)

    return _drawn(draw)


@dataclass(frozen=True, slots=True)
class _Empty:
    """A drawing without entities: the library's document, its text before and after them, the next id."""

    document: Any
    head: str
    tail: str
    next_id: str


@cache
def _empty() -> _Empty:
    """Return the empty drawing; made once, since its tables are most of what a file costs."""
    import ezdxf  # noqa: PLC0415 - heavy

    document = ezdxf.new(_RELEASE, setup=False, units=_MILLIMETRES)  # type: ignore[attr-defined]
    document.header["$MEASUREMENT"] = _METRIC
    for name, colour in LAYERS.items():
        document.layers.add(name, color=colour)
    stream = StringIO()
    document.write(stream)
    head, entities, tail = stream.getvalue().partition(_entities(document))
    if not entities:
        raise AssertionError("the library writes its entities in another way than before")
    return _Empty(document, head, tail, str(document.entitydb.handles))


def _drawn(draw: Callable[[Any], None]) -> bytes:
    """Return the file of what `draw` puts into an empty drawing."""
    with _fixed_metadata():
        empty = _empty()
        document, space = empty.document, empty.document.modelspace()
        try:
            draw(space)
            seed = "$HANDSEED\n  5\n{}\n"
            now = seed.format(document.entitydb.handles)
            head = empty.head.replace(seed.format(empty.next_id), now)
            encoded: bytes = document.encode(head + _entities(document) + empty.tail)
            return encoded
        finally:
            space.delete_all_entities()
            document.entitydb.purge()
            document.entitydb.handles.reset(empty.next_id)


def _entities(document: Any) -> str:
    from ezdxf.lldxf.tagwriter import TagWriter  # noqa: PLC0415 - heavy

    stream = StringIO()
    document.entities.export_dxf(TagWriter(stream, document.dxfversion))
    return stream.getvalue()


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """Have the library write fixed dates and ids, which it does only by a switch for all of it."""
    from ezdxf import options  # type: ignore[attr-defined]  # noqa: PLC0415 - heavy

    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _polyline(space: Any, path: Path, layer: str) -> None:
    corners = [(corner.x, corner.y, corner.bulge) for corner in path]
    space.add_lwpolyline(corners, format="xyb", close=True, dxfattribs={"layer": layer})


def _cuts(space: Any, sheet: PlateSheet) -> None:
    most = _LETTERS_OF_PLATE * sheet.plate.length_mm
    for cut in sheet.cut.cuts:
        along = cut.axis == "x"
        ends = [(cut.at_mm, v) if along else (v, cut.at_mm) for v in (cut.start_mm, cut.end_mm)]
        space.add_line(*ends, dxfattribs={"layer": "CUT"})
        near = cut.start_mm + min((1 + cut.number % 2) * 2 * most, cut.length_mm / 2)
        place = (cut.at_mm, near) if along else (near, cut.at_mm)
        _text(space, place, str(cut.number), 0.7 * most, 0)


def _labels(space: Any, sheet: PlateSheet) -> None:
    most = _LETTERS_OF_PLATE * sheet.plate.length_mm
    for placed in sheet.cut.placements:
        outline, text = sheet.outline(placed), sheet.text(placed)
        rows = (text.label, text.size)
        _rows(space, middle_of(placed, outline), room_in(placed, outline), rows, most)
    for drop, words in zip(sheet.cut.drops, sheet.drops, strict=True):
        middle = (drop.x_mm + drop.dx_mm / 2, drop.y_mm + drop.dy_mm / 2)
        _rows(space, middle, (drop.dx_mm, drop.dy_mm), words, most)
    for row, line in enumerate(reversed(sheet.heading)):
        where = (sheet.plate.length_mm / 2, sheet.plate.width_mm + (1.5 + 1.5 * row) * most)
        _text(space, where, one_line(line), 0.8 * most, 0)


def _grain(space: Any, sheet: PlateSheet) -> None:
    size = _LETTERS_OF_PLATE * sheet.plate.length_mm
    tail, tip = (0.0, -2 * size), (8 * size, -2 * size)
    for end in (tail, (tip[0] - size, tip[1] + size / 3), (tip[0] - size, tip[1] - size / 3)):
        space.add_line(tip, end, dxfattribs={"layer": "TEXT"})
    _text(space, (11 * size, -2 * size), one_line(sheet.grain), 0.8 * size, 0)


def _rows(
    space: Any, at: tuple[float, float], room: tuple[float, float], rows: tuple[str, ...], most: float
) -> None:
    """Write rows of text about a point, small enough for the room."""
    shown = tuple(filter(None, map(one_line, rows)))
    if not shown:
        return
    height, upright = letter_height(shown, room, most)
    for row, words in enumerate(shown):
        off = ((len(shown) - 1) / 2 - row) * 1.25 * height
        place = (at[0] - off, at[1]) if upright else (at[0], at[1] + off)
        _text(space, place, words, height, 90 if upright else 0)


def _text(space: Any, at: tuple[float, float], words: str, height: float, turn_deg: float) -> None:
    """Write one row of text; `%%` and `^` would begin a code in the format."""
    from ezdxf.enums import TextEntityAlignment  # noqa: PLC0415 - heavy

    plain = words.replace("%%", "% %").replace("^", "^ ")
    text = space.add_text(plain, height=height, rotation=turn_deg, dxfattribs={"layer": "TEXT"})
    text.set_placement(at, align=TextEntityAlignment.MIDDLE_CENTER)
