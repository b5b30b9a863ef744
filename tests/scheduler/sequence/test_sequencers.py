"""Every sequencer has the same call and returns a plan that passes the checker."""

from __future__ import annotations

import pytest

from scheduler.sequence import tables
from scheduler.sequence.checker import check
from scheduler.sequence.exact import lower_bound
from scheduler.sequence.rules import best_rule
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import money
from tests.scheduler.sequence.sequencers import SEQUENCERS
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
    _, rule = best_rule(tables(WEEK.problem))
    for name in ("compiled search", "constraint model"):
        assert SEQUENCERS[name](WEEK.problem, stop=EFFORT).total <= money(rule.total)


@pytest.mark.parametrize("seed", range(6))
def test_the_bound_never_lies_above_the_best_of_all_orders(seed: int) -> None:
    problem = small(seed)
    assert lower_bound(tables(problem)) <= best_of_all(problem)[1]
