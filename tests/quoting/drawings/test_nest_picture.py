"""Nest pictures: pieces drawn where the nest says they lie, and the same bytes every time."""

from __future__ import annotations

import struct
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import Rectangle, Sector
from quoting.drawings import PlatePicture, nest_picture, picture_size
from quoting.drawings.cut_path import placed_path
from quoting.drawings.sketch import Line
from quoting.drawings.sketch.sketch import corners
from quoting.nesting import CuttingRule, NestPlate, NestProblem, Piece, Placement, nest
from quoting.nesting.nest_problem import Notch


def placed_outline(placed: Placement, outline: Rectangle | Sector) -> list[tuple[float, float]]:
    return corners(Line(placed_path(placed, outline)))


def _problem() -> NestProblem:
    pieces = (Piece("A", Rectangle(600, 900), 2), Piece("C", Sector(900, 500, 120), 1))
    plates = (NestPlate("P", 1500, 3000, 2, Decimal(100), edge="mill"),)
    return NestProblem(pieces, plates, CuttingRule(), material="A36", thickness_mm=6.35)


def _picture(problem: NestProblem, width_inch: float = 4.0) -> bytes:
    cut = nest(problem).cut_plates[0]
    picture = PlatePicture(cut, "P #1", {"A": "Sample 1"})
    return nest_picture(problem, [picture], lambda mm: f"{mm:.0f} mm", width_inch=width_inch)


@given(
    outer=st.floats(200, 3000),
    share=st.floats(0, 0.95),
    angle=st.floats(10, 350),
    turn=st.sampled_from([0.0, 90.0, 180.0, 270.0]),
)
def test_a_placed_sector_fills_its_box(outer: float, share: float, angle: float, turn: float) -> None:
    outline = Sector(outer, outer * share, angle)
    dx, dy = outline.box()
    if turn % 180:
        dx, dy = dy, dx
    placed = Placement("C", 1, 100, 50, dx, dy, turn)
    points = placed_outline(placed, outline)
    # Arcs are drawn as chords of 3 degrees, so an arc's crest may be short by R (1 - cos 1.5 degrees).
    slack = outer * 4e-4 + 1e-6
    assert min(x for x, _ in points) == pytest.approx(100, abs=slack)
    assert min(y for _, y in points) == pytest.approx(50, abs=slack)
    assert max(x for x, _ in points) - 100 == pytest.approx(dx, abs=2 * slack)
    assert max(y for _, y in points) - 50 == pytest.approx(dy, abs=2 * slack)


@given(width=st.floats(50, 3000), length=st.floats(50, 6000), turned=st.booleans())
def test_a_placed_rectangle_is_its_box(width: float, length: float, turned: bool) -> None:
    outline = Rectangle(width, length)
    dx, dy = (width, length) if turned else (length, width)
    points = placed_outline(Placement("A", 1, 10, 20, dx, dy, 90.0 if turned else 0.0), outline)
    assert max(x for x, _ in points) == pytest.approx(10 + dx)
    assert max(y for _, y in points) == pytest.approx(20 + dy)


def test_the_picture_is_a_png_of_the_size_that_was_said() -> None:
    problem = _problem()
    image = _picture(problem)
    cut = nest(problem).cut_plates[0]
    width, height = picture_size(problem, [PlatePicture(cut, "P #1", {})], 4.0)
    assert image[:8] == b"\x89PNG\r\n\x1a\n"
    assert struct.unpack(">II", image[16:24]) == (int(width * 110), int(height * 110))


def test_the_same_nest_gives_the_same_bytes() -> None:
    assert _picture(_problem()) == _picture(_problem())


def test_a_notched_remnant_is_drawn() -> None:
    pieces = (Piece("A", Rectangle(300, 400)),)
    plates = (NestPlate("R", 900, 1200, 1, Decimal(10), remnant=True, notch=Notch(300, 400)),)
    plain = (NestPlate("R", 900, 1200, 1, Decimal(10), remnant=True),)
    assert _picture(NestProblem(pieces, plates)) != _picture(NestProblem(pieces, plain))


def test_a_label_is_text_and_never_mathematics() -> None:
    problem = _problem()
    picture = PlatePicture(nest(problem).cut_plates[0], r"P $\frac{", {"A": r"$x_1$ and $\bad", "C": "Ω"})
    assert nest_picture(problem, [picture], lambda mm: f"{mm:.0f} mm")[:4] == b"\x89PNG"
