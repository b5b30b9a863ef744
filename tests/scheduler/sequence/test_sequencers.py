"""Every sequencer has the same call and returns a plan that passes the checker."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scheduler.sequence import Pin, tables
from scheduler.sequence.checker import check
from scheduler.sequence.exact import lower_bound
from scheduler.sequence.rules.dispatch import apparent_tardiness_cost, in_order, key_order
from scheduler.sequence.search.large_neighbourhood import neighbourhood_search
from scheduler.sequence.stop import Stop
from tests.scheduler.sequence.sequencers import SEQUENCERS, by_key
from tests.scheduler.sequence.test_solve import best_of_all, small
from tests.scheduler.sequence.weeks import week

WEEK = week(9, 2, seed=8)
EFFORT = Stop(iterations=6, work=0.1)


@pytest.mark.parametrize("name", list(SEQUENCERS))
def test_each_sequencer_returns_a_checked_plan_with_a_bound(name: str) -> None:
    plan = SEQUENCERS[name](WEEK.problem, stop=EFFORT, seed=1)
    assert check(WEEK.problem, plan) == ()
    assert 0 < plan.bound <= plan.total


def test_no_search_is_worse_than_the_rule_it_starts_from() -> None:
    rule = SEQUENCERS["apparent tardiness cost"](WEEK.problem, stop=EFFORT)
    for name in ("local search", "compiled search", "constraint model", "large-neighbourhood search"):
        assert SEQUENCERS[name](WEEK.problem, stop=EFFORT).total <= rule.total


def test_key_order_takes_thin_plate_first_where_nothing_else_forbids() -> None:
    t = tables(WEEK.problem)
    order = key_order(t, WEEK.thickness)
    gaps = [WEEK.thickness[WEEK.problem.operations[i].id] for i in order]
    assert gaps == sorted(gaps)
    plan = by_key(WEEK.thickness)(WEEK.problem, stop=EFFORT)
    assert plan.method == "key order"
    assert not in_order(t, order).broken


def test_neighbourhoods_improve_a_poor_plan_and_repeat() -> None:
    t = tables(WEEK.problem)
    start = apparent_tardiness_cost(t, (8.0,), (2.0,))
    first, again = (neighbourhood_search(t, start, Stop(iterations=4, work=0.1), 2) for _ in range(2))
    assert first.best == again.best
    assert first.best.score <= start.score


def test_neighbourhoods_keep_a_pinned_start() -> None:
    problem = replace(WEEK.problem, pins=(Pin("roll 6", machine="roll 1", start=1440 + 400),))
    plan = SEQUENCERS["large-neighbourhood search"](problem, stop=Stop(iterations=3, work=0.1))
    assert plan.of("roll 6").start == 1840


@pytest.mark.parametrize("seed", range(6))
def test_the_bound_never_lies_above_the_best_of_all_orders(seed: int) -> None:
    problem = small(seed)
    assert lower_bound(tables(problem)) <= best_of_all(problem)[1]
