"""A plan taken up again is the same plan, and a job brought forward in it is never worse off."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scheduler.sequence import (
    Aim,
    Pin,
    aim_rank,
    bring_forward,
    opened_in,
    ranked,
    solve,
    tables,
    time_again,
    timed_again,
)
from scheduler.sequence.checker import check
from scheduler.sequence.resume import rank
from tests.scheduler.sequence.weeks import week


@pytest.mark.parametrize("seed", range(3))
def test_a_plan_taken_up_again_is_the_same_plan(seed: int) -> None:
    problem = week(20, 2, seed=seed).problem
    plan = solve(problem, seed=seed)
    again = time_again(problem, plan)
    assert again.assignments == plan.assignments
    assert again.cost == plan.cost
    assert sorted(plan.order) == sorted(operation.id for operation in problem.operations)


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("judge", [rank, aim_rank])
def test_a_job_brought_forward_is_never_worse_and_the_plan_can_be_run(seed: int, judge: object) -> None:
    problem = week(20, 2, seed=seed).problem
    plan = solve(problem, seed=seed)
    t = tables(problem, opened_in(plan))
    before = timed_again(t, plan)
    job = max(range(len(problem.jobs)), key=lambda k: (ranked(t, before, k)[1], k))
    after = bring_forward(t, before, job, 8, judge)  # type: ignore[arg-type]
    assert ranked(t, after, job, judge) <= ranked(t, before, job, judge)  # type: ignore[arg-type]
    assert after.machine == before.machine
    assert not after.broken


def test_what_may_no_longer_be_done_on_its_machine_goes_to_another() -> None:
    problem = week(20, 2, seed=1).problem
    plan = solve(problem)
    operation = next(o for o in problem.operations if len(o.modes) > 1)
    other = next(mode.machine for mode in operation.modes if mode.machine != plan.of(operation.id).machine)
    changed = replace(problem, pins=(Pin(operation.id, other),))
    again = time_again(changed, plan)
    assert again.of(operation.id).machine == other
    assert check(changed, again) == ()


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(3))
def test_dates_first_is_never_later_than_least_money_nor_dearer_at_the_same_dates(seed: int) -> None:
    problem = week(14, 2, seed=seed).problem
    money = solve(problem, seed=seed).cost
    dates = solve(replace(problem, aim=Aim.DATES_FIRST), seed=seed).cost
    assert (dates.lateness, dates.total) <= (money.lateness, money.total)
