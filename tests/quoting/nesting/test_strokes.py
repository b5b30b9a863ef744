"""Finished sheared plates are laid out anew when plate, drops and strokes cost less together."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from quoting.nesting import NestProblem, nest
from quoting.nesting.checker import check
from quoting.nesting.fewer_strokes import fewer_strokes
from quoting.nesting.nest_from_solution import as_nest
from quoting.nesting.plate import prepare
from quoting.nesting.search import first_solutions
from tests.quoting.nesting.shop import invented


def never() -> bool:
    return False


def dear_strokes(seed: int) -> NestProblem:
    problem = invented(seed, kinds=8, method="shear")
    return replace(problem, cutting=replace(problem.cutting, cost_per_stroke=Decimal(20)))


@pytest.mark.parametrize("seed", range(6))
def test_the_same_pieces_on_the_same_plates_for_no_more_money(seed: int) -> None:
    problem = dear_strokes(seed)
    work = prepare(problem)
    start = first_solutions(work, 3, never)
    found = fewer_strokes(work, start, never)
    assert [(one.bin, one.counts) for one in found.plates] == [(one.bin, one.counts) for one in start.plates]
    before, after = as_nest(work, start, 0.0, False), as_nest(work, found, 0.0, False)
    assert check(problem, after) == ()
    assert after.cost <= before.cost


def test_dear_strokes_are_saved_in_some_group() -> None:
    saved = Decimal(0)
    for seed in range(6):
        work = prepare(dear_strokes(seed))
        start = first_solutions(work, 3, never)
        found = fewer_strokes(work, start, never)
        saved += as_nest(work, start, 0.0, False).cost - as_nest(work, found, 0.0, False).cost
    assert saved > 0


def test_thermal_plates_are_left_as_they_are() -> None:
    work = prepare(invented(1))
    start = first_solutions(work, 2, never)
    assert fewer_strokes(work, start, never) is start
    assert nest(invented(1)).cutting_cost > 0
