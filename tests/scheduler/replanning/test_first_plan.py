"""The plan that is published first."""

from __future__ import annotations

from dataclasses import replace

import pytest

from quoting.shop import Shop
from scheduler.replanning import floor_problem
from scheduler.replanning.first_plan import first_plan
from scheduler.sequence import faults_of, solve
from scheduler.sequence.solve import BUDGETS
from tests.scheduler.replanning.floors import floor


def test_what_light_searches_leave_to_be_found_mixing_finds_and_finds_again(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(BUDGETS, "quick", replace(BUDGETS["quick"], timed=20_000, each=20, a_round=20_000))
    week = floor_problem(floor(16, 5, shop), shop)
    alone = [solve(week.problem, effort="quick", seed=seed, orders=week.hand_orders) for seed in range(4)]
    found = [first_plan(week, alone[0], "quick", 0, 10_000) for _ in range(2)]
    assert found[0] == found[1]
    assert found[0].total < min(plan.total for plan in alone)
    assert found[0].bound <= found[0].total
    assert faults_of(week.problem, found[0]) == ()
