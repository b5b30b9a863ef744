"""A blank's drawing shows which edges are prepared, how, and where the next seam may not stand."""

from __future__ import annotations

import pytest

from quoting.core import EdgeKind, EdgePlace, EdgePrep, Rectangle, Sector, format_length
from quoting.drawings import BlankExtras, Sketch, blank_sketch
from quoting.drawings.sketch import Line, Words

BEVEL = EdgePrep(EdgeKind.BEVEL, EdgePlace.SEAM, 2, 37.5, 1.5875)
PLATE, RING = Rectangle(1524, 4000), Sector(2300, 1500, 95)


def _drawn(outline: Rectangle | Sector, extras: BlankExtras) -> Sketch:
    return blank_sketch(outline, lambda mm: format_length(mm, inch=True), size_mm=(98.0, 50.0), extras=extras)


def _said(sketch: Sketch) -> str:
    return " | ".join(item.text for item in sketch.items if isinstance(item, Words))


def _upright(sketch: Sketch) -> list[float]:
    """Return where lines stand that run over the whole width of the blank, without its outline."""
    return [
        item.path[0].x
        for item in sketch.items
        if isinstance(item, Line)
        and not item.closed
        and len(item.path) == 2
        and item.path[0].x == item.path[1].x
        and abs(item.path[0].y - item.path[1].y) > 12
    ]


@pytest.mark.parametrize("outline", [PLATE, RING])
def test_angle_land_edges_and_the_open_face_are_on_the_drawing(outline: Rectangle | Sector) -> None:
    said = _said(_drawn(outline, BlankExtras(BEVEL)))
    for words in ("single bevel", "37.5°", 'land 1/16"', "edges A and B", "opens to: ask", "INSIDE FACE UP"):
        assert words in said


def test_the_seam_edges_alone_get_a_second_line() -> None:
    plain, both = (_upright(_drawn(PLATE, BlankExtras(prep))) for prep in (None, BEVEL))
    ends = EdgePrep(EdgeKind.BEVEL, EdgePlace.ENDS, 2, 30)
    assert len(both) == len(plain) + 2
    assert len(_upright(_drawn(PLATE, BlankExtras(ends)))) == len(plain)


def test_a_double_bevel_has_no_face_to_ask_for() -> None:
    said = _said(_drawn(PLATE, BlankExtras(EdgePrep(EdgeKind.DOUBLE_BEVEL, EdgePlace.ALL, 4, 30))))
    assert "all edges" in said
    assert "opens to" not in said


def test_the_next_courses_seam_is_a_dimension() -> None:
    assert 'next seam 2-1/2" off, least' in _said(_drawn(PLATE, BlankExtras(seam_offset_mm=63.5)))
    assert "next seam" not in _said(_drawn(PLATE, BlankExtras()))
