"""A piece that the shear cannot free from any plate is refused for that, not for lack of room."""

from __future__ import annotations

from math import inf

import pytest

from quoting.core import Rectangle
from quoting.nesting import CuttingRule, NestPlate, NestProblem, Piece, nest
from quoting.nesting.nest_problem import Notch
from quoting.nesting.nest_result import Why
from tests.quoting.nesting.shop import plate


def sheared(piece: Piece, *plates: NestPlate, stages: int = 4, blade_mm: float = inf) -> NestProblem:
    return NestProblem(
        (piece,), plates, CuttingRule("shear", mill_trim_mm=0, stages=stages, longest_cut_mm=blade_mm)
    )


@pytest.mark.parametrize("effort", ["quick", "normal"])
def test_too_many_stages_are_the_reason(effort: str) -> None:
    problem = sheared(Piece("a", Rectangle(300, 500)), plate(1000, 2000), stages=1)
    (left,) = nest(problem, effort=effort).unplaced  # type: ignore[arg-type]
    assert (left.why, left.text) == (
        Why.STAGES,
        "300 x 500 mm takes 2 stages of cuts out of any plate that holds it, the shear does 1",
    )


def test_a_plate_that_is_as_wide_as_the_piece_takes_one_stage() -> None:
    problem = sheared(Piece("a", Rectangle(1000, 500)), plate(1000, 2000), stages=1)
    assert not nest(problem).unplaced


def test_the_corner_of_an_l_takes_a_stage_more() -> None:
    notched = NestPlate("L", 1000, 2000, 1, plate(1, 1).price, notch=Notch(500, 1000))
    piece = Piece("a", Rectangle(300, 400))
    (left,) = nest(sheared(piece, notched, stages=1)).unplaced
    assert left.why is Why.STAGES
    assert not nest(sheared(piece, notched, stages=3)).unplaced


def test_a_blade_too_short_is_the_reason_on_a_trimmed_plate_too() -> None:
    piece = Piece("a", Rectangle(1000, 3500), turn=False)
    (left,) = nest(sheared(piece, plate(1200, 6000), blade_mm=3000)).unplaced
    assert (left.why, left.text) == (
        Why.BEYOND_BLADE,
        "1000 x 3500 mm takes a stroke longer than the shear's longest cut, 3000 mm, out of any plate that "
        "holds it",
    )
    assert not nest(sheared(piece, plate(1000, 6000), blade_mm=3000)).unplaced


def test_another_plate_that_can_free_it_is_used() -> None:
    problem = sheared(
        Piece("a", Rectangle(300, 500)), plate(1000, 2000, id="P"), plate(300, 2000, id="Q"), stages=1
    )
    assert nest(problem).used() == {"Q": 1}
