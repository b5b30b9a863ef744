"""Small groups are settled: the bound is a bound, and the optimum is recognised."""

from __future__ import annotations

from decimal import Decimal
from itertools import product
from math import inf, isinf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import Rectangle
from quoting.nesting import CuttingRule, DropRule, NestProblem, Piece, nest
from quoting.nesting.bounds import money_bound
from quoting.nesting.bounds.one_plate import ask
from quoting.nesting.bounds.partition import Partition, small_enough
from quoting.nesting.bounds.proof import provable
from quoting.nesting.checker import check
from quoting.nesting.plate import prepare
from tests.quoting.nesting.shop import bare_problem, invented, plate
from tests.quoting.nesting.test_properties import problems


def test_a_pinwheel_fits_and_one_more_piece_does_not() -> None:
    wheel = (Piece("a", Rectangle(100, 200), 4), Piece("b", Rectangle(100, 100), 2))
    work = prepare(bare_problem(wheel, plate(300, 300)))
    assert ask(work, 0, (4, 1), most=0, limit=1.0).layout is not None
    assert ask(work, 0, (4, 2), most=0, limit=1.0).most is None


def test_the_largest_drop_of_one_piece_is_the_rest_of_the_plate() -> None:
    rule = CuttingRule("thermal", kerf_mm=0, spacing_mm=0, edge_margin_mm=0, mill_trim_mm=0)
    sheet = plate(1000, 3000, price="300")
    problem = NestProblem((Piece("a", Rectangle(1000, 1200)),), (sheet,), rule, DropRule())
    answer = ask(prepare(problem), 0, (1,), most=inf, limit=1.0)
    assert answer.most == 1000 * 1800 * 1e6
    assert nest(problem, effort="normal").cost == Decimal(300) - Decimal(90)


def test_two_crossed_pieces_that_area_alone_would_allow_are_proven_to_need_two_plates() -> None:
    pieces = (Piece("a", Rectangle(600, 900), turn=False), Piece("b", Rectangle(900, 600), turn=False))
    sizes = (plate(1000, 1000, id="one", price="60"), plate(1000, 1600, id="two", price="130"))
    found = nest(bare_problem(pieces, *sizes), effort="normal")
    assert found.proven
    assert found.cost == 120


@pytest.mark.slow
@pytest.mark.parametrize("method", ["thermal", "shear"])
def test_a_small_group_gets_a_bound_much_nearer_than_area(method: str) -> None:
    problem = invented(2, kinds=2, method=method)
    quick, normal = nest(problem), nest(problem, effort="normal")
    assert check(problem, normal) == ()
    assert quick.bound <= normal.bound <= normal.cost <= quick.cost
    by_area = money_bound(prepare(problem))
    assert float(normal.cost - normal.bound) < (float(normal.cost) - by_area) / 2


@pytest.mark.slow
@settings(max_examples=10, deadline=None)
@given(problems())
def test_no_effort_finds_a_nest_below_the_bound_of_another(problem: NestProblem) -> None:
    found = [nest(problem), nest(problem, effort="normal")]
    if not any(one.unplaced for one in found):
        cheapest = min(one.cost for one in found)
        assert all(one.bound <= cheapest for one in found)


def test_large_groups_are_left_alone() -> None:
    assert not provable(prepare(invented(3, kinds=16)))
    assert not small_enough([40, 40, 40])


def all_splits(counts: tuple[int, ...], cost: dict[tuple[int, ...], float]) -> float:
    if not any(counts):
        return 0.0
    parts = product(*(range(count + 1) for count in counts))
    rest = [
        cost[part] + all_splits(tuple(a - b for a, b in zip(counts, part, strict=True)), cost)
        for part in parts
        if any(part) and cost[part] < inf
    ]
    return min(rest, default=inf)


@given(st.lists(st.integers(1, 2), min_size=1, max_size=3), st.randoms(use_true_random=False))
def test_the_split_is_the_cheapest_of_all(counts: list[int], random: object) -> None:
    draw = np.random.default_rng(random.randint(0, 10**6))  # type: ignore[attr-defined]
    partition = Partition(counts, [None, 1])
    costs = draw.integers(1, 30, (2, len(partition.sets))).astype(float)
    costs[draw.random(costs.shape) < 0.4] = inf
    costs[:, 0] = 0.0
    value, way = partition.solve(costs)
    sets = [tuple(int(c) for c in one) for one in partition.sets]
    bought = dict(zip(sets, costs[0], strict=True))
    least = all_splits(tuple(counts), bought)
    for part, price in zip(sets[1:], costs[1][1:], strict=True):
        left = tuple(a - b for a, b in zip(counts, part, strict=True))
        least = min(least, price + all_splits(left, bought))
    assert value == least
    if not isinf(value):
        assert sum(costs[k][s] for k, s in way) == value
        assert sum(partition.sets[s] for _, s in way).tolist() == counts
