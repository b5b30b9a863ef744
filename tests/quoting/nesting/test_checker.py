"""The checker is attacked: every mutation of a good nest must be caught."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from quoting.core import Rectangle
from quoting.nesting import CutPlate, Nest, NestProblem, Piece, Placement, ShearCut, nest
from quoting.nesting.checker import check
from quoting.nesting.nest_result import CutStats
from tests.quoting.nesting.shop import bare_problem, invented, plate

Mutation = Callable[[CutPlate], CutPlate]


def first(change: Callable[[Placement], Placement]) -> Mutation:
    return lambda cut: replace(cut, placements=(change(cut.placements[0]), *cut.placements[1:]))


def last_onto_first(cut: CutPlate) -> CutPlate:
    target, moved = cut.placements[0], cut.placements[-1]
    return replace(cut, placements=(*cut.placements[:-1], replace(moved, x_mm=target.x_mm, y_mm=target.y_mm)))


MUTATIONS: dict[str, Mutation] = {
    "moved off the plate": first(lambda put: replace(put, x_mm=put.x_mm - 5000)),
    "moved into the margin": first(lambda put: replace(put, y_mm=-0.5, x_mm=0.0)),
    "moved over a neighbour": last_onto_first,
    "drawn smaller": first(lambda put: replace(put, dx_mm=put.dx_mm - 1)),
    "turned without its extents": first(lambda put: replace(put, angle_deg=put.angle_deg + 90)),
    "turned askew": first(lambda put: replace(put, angle_deg=30)),
    "duplicated": lambda cut: replace(cut, placements=(*cut.placements, cut.placements[0])),
    "dropped": lambda cut: replace(cut, placements=cut.placements[1:]),
    "copy beyond the quantity": first(lambda put: replace(put, copy=99)),
    "unknown piece": first(lambda put: replace(put, piece="stranger")),
    "unknown plate": lambda cut: replace(cut, plate="stranger"),
    "cheaper plate": lambda cut: replace(cut, plate="R0", copy=7),
}


def crowded(problem: NestProblem) -> tuple[Nest, int]:
    found = nest(problem)
    assert check(problem, found) == ()
    counts = [len(cut.placements) for cut in found.cut_plates]
    return found, counts.index(max(counts))


@pytest.mark.parametrize("name", MUTATIONS)
@pytest.mark.parametrize("method", ["thermal", "shear"])
def test_a_mutated_plate_is_caught(name: str, method: str) -> None:
    problem = invented(4, kinds=10, method=method)
    found, index = crowded(problem)
    plates = list(found.cut_plates)
    if name == "cheaper plate" and plates[index].plate == "R0":
        pytest.skip("already on R0")
    plates[index] = MUTATIONS[name](plates[index])
    assert check(problem, replace(found, cut_plates=tuple(plates)))


@pytest.mark.parametrize("gap_mm", [0.0, 9.0])
def test_pieces_nearer_than_kerf_and_spacing_are_caught(gap_mm: float) -> None:
    problem = invented(4, kinds=10)
    found, index = crowded(problem)
    cut = found.cut_plates[index]
    a = cut.placements[0]
    near = replace(cut.placements[1], x_mm=a.x_mm + a.dx_mm + gap_mm, y_mm=a.y_mm)
    mutated = replace(cut, placements=(a, near, *cut.placements[2:]))
    faults = check(problem, replace(found, cut_plates=(mutated,)))
    assert any("too near" in str(fault) or "overlap" in str(fault) for fault in faults)


def test_a_plate_cut_twice_or_beyond_its_count_is_caught() -> None:
    problem = bare_problem(invented(1).pieces[:2], plate(4000, 4000, count=1))
    found = nest(problem)
    doubled = replace(found, cut_plates=found.cut_plates * 2)
    texts = [str(fault) for fault in check(problem, doubled)]
    assert any("is cut 2 times" in text for text in texts)
    assert any("2 are cut, there are 1" in text for text in texts)


def test_grain_and_heat_are_checked() -> None:
    problem = invented(4, kinds=10)
    found = nest(problem)
    strict = replace(problem, pieces=tuple(replace(p, turn=False, needs_heat=True) for p in problem.pieces))
    texts = [str(fault) for fault in check(strict, found)]
    assert any("across the grain" in text for text in texts)
    assert any("needs a heat number" in text for text in texts)


def test_a_pinwheel_cannot_be_sheared() -> None:
    pieces = (Piece("a", Rectangle(100, 200), 4), Piece("b", Rectangle(100, 100)))
    problem = bare_problem(pieces, plate(300, 300))
    wheel = (
        Placement("a", 1, 0, 0, 200, 100),
        Placement("a", 2, 200, 0, 100, 200, 90),
        Placement("a", 3, 100, 200, 200, 100),
        Placement("a", 4, 0, 100, 100, 200, 90),
        Placement("b", 1, 100, 100, 100, 100),
    )
    work = nest(problem).cutting
    cut = CutPlate("P", 1, wheel, (), 1.0, Decimal(100), work)
    found = Nest((cut,), (), Decimal(100), Decimal(0), Decimal(0), Decimal(100), work)
    assert check(problem, found) == ()
    sheared = bare_problem(pieces, plate(300, 300), method="shear")
    first_cuts = (ShearCut(1, 1, "x", 200.0, 0.0, 300.0), ShearCut(1, 1, "y", 100.0, 0.0, 300.0))
    for cuts in ((), *((one,) for one in first_cuts)):
        stats = CutStats(sum(one.length_mm for one in cuts) / 1000, 0, len(cuts))
        tried = replace(found, cut_plates=(replace(cut, cuts=cuts, cutting=stats),), cutting=stats)
        (text,) = [fault.text for fault in check(sheared, tried)]
        assert "cuts through piece" in text if cuts else "in one part" in text


def test_more_stages_than_the_shear_does_are_caught() -> None:
    problem = invented(9, kinds=10, method="shear")
    found = nest(problem)
    poor = replace(problem, cutting=replace(problem.cutting, stages=1))
    assert any("stages of cuts" in str(fault) for fault in check(poor, found))


@pytest.mark.parametrize("money", ["plate_cost", "drop_value"])
def test_money_that_does_not_add_up_is_caught(money: str) -> None:
    problem = invented(4)
    found = nest(problem)
    wrong = replace(found, **{money: getattr(found, money) + 1})
    assert check(problem, wrong)


def test_drops_are_checked() -> None:
    problem = invented(0)
    found = nest(problem)
    index = next(k for k, cut in enumerate(found.cut_plates) if cut.drops)
    cut = found.cut_plates[index]
    drop = cut.drops[0]
    for bad, text in (
        (replace(drop, dx_mm=100.0), "too small to keep"),
        (replace(drop, x_mm=cut.placements[0].x_mm, y_mm=cut.placements[0].y_mm), "over a piece"),
        (replace(drop, value=drop.value + 50), "the nest says"),
        (replace(drop, x_mm=-50.0), "nearer to the plate edge"),
    ):
        mutated = replace(cut, drops=(bad, *cut.drops[1:]))
        plates = (*found.cut_plates[:index], mutated, *found.cut_plates[index + 1 :])
        assert any(text in str(f) for f in check(problem, replace(found, cut_plates=plates))), text
