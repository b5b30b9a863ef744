"""The pool and the exact combination: never dearer, no piece too many or too few, the same every time."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from random import Random

import pytest
from hypothesis import given, settings

from quoting.core import Rectangle, Sector
from quoting.nesting import CuttingRule, DropRule, Nest, NestProblem, Piece, nest
from quoting.nesting.checker import check
from quoting.nesting.plate import PackingProblem, prepare
from quoting.nesting.search import Combining, Pool, Solution, combined, first_solutions
from quoting.nesting.search.combine import _Combination
from quoting.nesting.search.relaxation import Relaxation
from quoting.nesting.search.surplus import exactly
from tests.quoting.nesting.shop import bare_problem, invented, plate
from tests.quoting.nesting.test_properties import problems

A_LITTLE = Combining(fills=300, dives=1, nodes=20, parts=2, work=10_000_000)


def never() -> bool:
    return False


def pooled(problem: NestProblem, most: int = 6000) -> tuple[PackingProblem, Pool, Solution]:
    work = prepare(problem)
    pool = Pool(work, most)
    return work, pool, first_solutions(work, 4, never, pool)


def placed(found: Nest) -> int:
    return sum(len(cut.placements) for cut in found.cut_plates)


def test_the_pool_keeps_the_cheapest_layout_of_a_set_whatever_size_is_bought() -> None:
    piece = Piece("a", Rectangle(900, 900))
    sizes = (plate(1000, 1000, id="small", price="10"), plate(2000, 1000, id="large", price="30"))
    work, pool, _ = pooled(bare_problem((piece,), *sizes))
    assert [work.problem.plates[one.bin].id for one in pool.layouts()] == ["small"]


def test_a_limited_plate_is_kept_beside_a_cheaper_size() -> None:
    piece = Piece("a", Rectangle(900, 900))
    sizes = (plate(1000, 1000, id="rack", count=1, price="30"), plate(1000, 1000, id="buy", price="10"))
    assert len(pooled(bare_problem((piece,), *sizes))[1].layouts()) == 2


def test_a_full_pool_forgets_what_is_dear() -> None:
    _, pool, _ = pooled(invented(3, kinds=10), most=12)
    assert 0 < len(pool) <= 12


def test_the_combination_beats_the_greedy_start_of_a_mixed_group() -> None:
    work, pool, start = pooled(invented(7, kinds=9))
    found = combined(work, pool, start, effort=A_LITTLE, floor=0.0, seed=0, stop=never)
    assert found.cost < start.cost
    assert found.missing < 1e-6


@settings(max_examples=25, deadline=None)
@given(problems())
def test_the_combination_is_never_dearer_and_holds_every_piece(problem: NestProblem) -> None:
    work, pool, start = pooled(problem)
    found = combined(work, pool, start, effort=A_LITTLE, floor=0.0, seed=0, stop=never)
    assert not start.better_than(found)
    for index, item in enumerate(work.items):
        assert sum(one.counts[index] for one in found.plates) <= item.count


@pytest.mark.slow
@settings(max_examples=6, deadline=None)
@given(problems())
def test_normal_is_checked_and_never_dearer_than_quick(problem: NestProblem) -> None:
    problem = replace(problem, drops=replace(problem.drops, value_share=Decimal("0.5")))
    quick, normal = nest(problem), nest(problem, effort="normal")
    assert check(problem, normal) == ()
    assert placed(normal) >= placed(quick)
    if placed(normal) == placed(quick):
        assert normal.cost <= quick.cost
    assert normal.bound <= normal.cost


def test_a_large_group_is_combined_within_its_work() -> None:
    spent = {}
    for limit in (0, 200_000, 10_000_000):
        work, pool, start = pooled(invented(4, kinds=30))
        before = len(pool)
        found = combined(
            work, pool, start, effort=replace(A_LITTLE, work=limit), floor=0.0, seed=0, stop=never
        )
        assert not start.better_than(found)
        spent[limit] = len(pool) - before
    assert spent[0] < spent[200_000] < spent[10_000_000]


def test_a_dive_fixes_several_plates_at_once_where_work_is_short() -> None:
    work, pool, _ = pooled(invented(4, kinds=30))
    search = _Combination(work, pool, Relaxation(work, pool.layouts()), Random(0))
    plenty = search.fixes(10**12, 1)
    some = search.fixes(3_000_000, 1)
    assert plenty == 1000
    assert search.fixes(0, 1) == 0
    assert some < plenty
    for at_once in (1, 3, 50):
        dived = search.dive(0.0, at_once)
        assert dived is not None
        assert dived.missing == 0


def test_surplus_copies_are_taken_off() -> None:
    work, _, start = pooled(invented(5, kinds=6))
    wanted = [item.count for item in work.items]
    doubled = [*start.plates, max(start.plates, key=lambda one: one.area)]
    kept = exactly(work, doubled, wanted, [0] * len(work.bins))
    for index, item in enumerate(work.items):
        assert sum(one.counts[index] for one in kept) == item.count


def test_a_stop_at_once_gives_the_first_layout() -> None:
    problem = invented(8, kinds=8)
    found = nest(problem, effort="normal", stop=lambda: True)
    assert found.stopped
    assert check(problem, found) == ()


@pytest.mark.slow
@pytest.mark.parametrize("effort", ["quick", "normal"])
def test_cones_take_part_with_the_rectangles(effort: str) -> None:
    pieces = (
        Piece("cone", Sector(900, 500, 100), 5),
        Piece("ring", Rectangle(300, 1100), 4),
        Piece("shell", Rectangle(700, 1500), 3),
    )
    sizes = (plate(1250, 2500, id="A", price="100"), plate(1500, 3000, id="B", price="140"))
    rack = plate(1000, 1800, id="R", count=1, price="20")
    problem = NestProblem(pieces, (*sizes, rack), CuttingRule(), DropRule())
    found = nest(problem, effort="normal" if effort == "normal" else "quick")
    assert check(problem, found) == ()
    assert placed(found) == 12
    assert found == nest(problem, effort="normal" if effort == "normal" else "quick")
    assert found.cost <= nest(problem).cost
