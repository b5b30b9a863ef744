"""DXF files read back: units, layers, areas and places as in the nest; clean by the library's auditor."""

from __future__ import annotations

import io
from itertools import pairwise
from math import atan, cos, pi, radians, sin
from typing import Any

import ezdxf  # type: ignore[attr-defined,unused-ignore]
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import Outline, Rectangle, Sector
from quoting.drawings import PieceText, blank_dxf, plate_dxf
from quoting.drawings.cut_dxf import LAYERS
from quoting.drawings.cut_path import Path, Vertex, arc_radius, blank_path, middle_of, placed_path
from quoting.nesting import Placement
from tests.quoting.drawings.cut_samples import HOSTILE, sheet

KINDS = ("shear", "cone")


def _read(data: bytes) -> Any:
    document = ezdxf.read(io.StringIO(data.decode("cp1252")))  # type: ignore[attr-defined,unused-ignore]
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    return document


def _path(polyline: Any) -> Path:
    assert polyline.closed
    return tuple(Vertex(x, y, bulge) for x, y, bulge in polyline.get_points("xyb"))


def _area(path: Path) -> float:
    """The area of a closed path: its polygon, and for each arc the segment beyond its chord."""
    total = 0.0
    for start, end in zip(path, (*path[1:], path[0]), strict=True):
        total += (start.x * end.y - end.x * start.y) / 2
        if start.bulge:
            turn = 4 * atan(start.bulge)
            total += arc_radius(start, end) ** 2 / 2 * (turn - sin(turn))
    return total


def _box(path: Path) -> tuple[float, float, float, float]:
    """The extents of a path, its arcs sampled finely."""
    points = [(corner.x, corner.y) for corner in path]
    for start, end in zip(path, (*path[1:], path[0]), strict=True):
        if start.bulge:
            from ezdxf.math import bulge_center  # noqa: PLC0415 - beside its only use

            centre = bulge_center((start.x, start.y), (end.x, end.y), start.bulge)
            radius, turn = arc_radius(start, end), 4 * atan(start.bulge)
            x, y = start.x - centre.x, start.y - centre.y
            for step in range(1, 400):
                c, s = cos(turn * step / 400), sin(turn * step / 400)
                points.append((centre.x + x * c - y * s, centre.y + x * s + y * c))
            assert x * x + y * y == pytest.approx(radius**2)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def test_a_drawing_is_the_same_whatever_was_drawn_before_it_and_its_ids_are_below_the_next_one() -> None:
    first, other = plate_dxf(sheet("shear")), plate_dxf(sheet("cone"))
    assert plate_dxf(sheet("shear")) == first != other
    document = _read(first)
    assert len(document.modelspace()) > 5
    assert all(
        int(one.dxf.handle, 16) < int(document.header["$HANDSEED"], 16) for one in document.modelspace()
    )


@pytest.mark.parametrize("kind", KINDS)
def test_a_plate_read_back_has_the_nest_s_areas_and_places(kind: str) -> None:
    drawn = sheet(kind)
    document = _read(plate_dxf(drawn))
    assert document.header["$INSUNITS"] == 4  # millimetres
    assert set(LAYERS) <= {layer.dxf.name for layer in document.layers}
    space = document.modelspace()
    blanks = [_path(found) for found in space.query('LWPOLYLINE[layer=="BLANK"]')]
    assert len(blanks) == len(drawn.cut.placements)
    for placed, path in zip(drawn.cut.placements, blanks, strict=True):
        assert _area(path) == pytest.approx(drawn.outline(placed).area_mm2, rel=1e-6)
        low_x, low_y, high_x, high_y = _box(path)
        found = (low_x, low_y, high_x - low_x, high_y - low_y)
        assert found == pytest.approx((placed.x_mm, placed.y_mm, placed.dx_mm, placed.dy_mm), abs=0.05)
    (edge,) = space.query('LWPOLYLINE[layer=="PLATE"]')
    assert _area(_path(edge)) == pytest.approx(drawn.plate.area_mm2)
    drops = [_path(found) for found in space.query('LWPOLYLINE[layer=="DROP"]')]
    assert [_area(path) for path in drops] == pytest.approx([d.dx_mm * d.dy_mm for d in drawn.cut.drops])
    strokes = space.query('LINE[layer=="CUT"]')
    assert [line.dxf.start.distance(line.dxf.end) for line in strokes] == pytest.approx(
        [cut.length_mm for cut in drawn.cut.cuts]
    )


@pytest.mark.parametrize(
    "outline", [Rectangle(600, 900), Sector(1500, 900, 100), Sector(500, 0, 200), Sector(800, 300, 350)]
)
def test_a_blank_read_back_is_a_closed_outline_with_true_arcs(outline: Outline) -> None:
    document = _read(blank_dxf(outline, PieceText("Sample 1", "size")))
    assert document.header["$INSUNITS"] == 4
    (found,) = document.modelspace().query("LWPOLYLINE")
    path = _path(found)
    assert found.dxf.layer == "BLANK"
    assert _area(path) == pytest.approx(outline.area_mm2, rel=1e-9)
    dx, dy = outline.box()
    assert _box(path) == pytest.approx((0, 0, dx, dy), abs=0.05)
    radii = {round(arc_radius(a, b), 3) for a, b in pairwise(path) if a.bulge}
    wanted = (
        {outline.outer_radius_mm, outline.inner_radius_mm} - {0} if isinstance(outline, Sector) else set()
    )
    assert radii == wanted


@pytest.mark.parametrize("label", HOSTILE)
@pytest.mark.parametrize("kind", KINDS)
def test_no_text_breaks_the_file(kind: str, label: str) -> None:
    plain = _read(plate_dxf(sheet(kind))).modelspace()
    hostile = _read(plate_dxf(sheet(kind, label))).modelspace()
    assert [found.dxftype() for found in hostile] == [found.dxftype() for found in plain]
    assert not any("%%" in found.dxf.text for found in hostile.query("TEXT"))


@pytest.mark.parametrize("kind", KINDS)
def test_the_same_plate_gives_the_same_bytes(kind: str) -> None:
    first = plate_dxf(sheet(kind))
    blank_dxf(Rectangle(1, 2), PieceText("between", ""))
    assert plate_dxf(sheet(kind)) == first


def test_the_library_s_switch_is_left_as_it_was() -> None:
    from ezdxf import options  # type: ignore[attr-defined,unused-ignore]  # noqa: PLC0415

    plate_dxf(sheet("shear"))
    assert options.write_fixed_meta_data_for_testing is False


@settings(max_examples=60, deadline=None)
@given(
    outer=st.floats(100, 5000),
    share=st.just(0.0) | st.floats(0.01, 0.95),
    angle=st.floats(5, 355),
    turn=st.sampled_from([0.0, 90.0, 180.0, 270.0]),
)
def test_any_placed_sector_keeps_its_area_and_fills_its_box(
    outer: float, share: float, angle: float, turn: float
) -> None:
    outline = Sector(outer, outer * share, angle)
    dx, dy = outline.box()
    if turn % 180:
        dx, dy = dy, dx
    path = placed_path(Placement("A", 1, 30, 70, dx, dy, turn), outline)
    assert _area(path) == pytest.approx(radians(angle) / 2 * outer**2 * (1 - share**2), rel=1e-6)
    assert _box(path) == pytest.approx((30, 70, 30 + dx, 70 + dy), abs=1e-4 * outer)


@pytest.mark.parametrize(("turn", "towards"), [(0, (1, 0)), (90, (0, 1)), (180, (-1, 0)), (270, (0, -1))])
def test_a_turned_sector_opens_the_way_it_is_turned(turn: float, towards: tuple[int, int]) -> None:
    outline = Sector(1000, 600, 80)
    dx, dy = outline.box()
    sides = (dy, dx) if turn % 180 else (dx, dy)
    placed = Placement("A", 1, 30, 70, *sides, float(turn))
    crest = placed_path(placed, outline)[1]
    middle = middle_of(placed, outline)
    assert (crest.x - middle[0], crest.y - middle[1]) == pytest.approx((200 * towards[0], 200 * towards[1]))
    centre = (30 + sides[0] / 2, 70 + sides[1] / 2)
    assert (crest.x - centre[0], crest.y - centre[1]) == pytest.approx(
        (dx / 2 * towards[0], dx / 2 * towards[1]), abs=1e-9
    )


def test_a_full_turn_would_be_a_circle() -> None:
    assert _area(blank_path(Sector(1000, 0, 359.999))) == pytest.approx(pi * 1e6, rel=1e-5)
