"""Hard dates that are refused without a search are refused for good: no plan keeps them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.sequence import MustShip, SequenceProblem, alone_too_late, crowded, solve, soonest
from scheduler.sequence.exact.too_soon import given_up_at_once
from tests.scheduler.sequence.weeks import DAY, week


def dated(problem: SequenceProblem, dates: dict[str, int]) -> SequenceProblem:
    return replace(problem, jobs=tuple(replace(job, must_ship=dates.get(job.id)) for job in problem.jobs))


@settings(max_examples=12, deadline=None)
@given(seed=st.integers(0, 1000), jobs=st.integers(3, 9), rolls=st.integers(1, 3))
def test_no_plan_ends_a_job_sooner_than_is_said(seed: int, jobs: int, rolls: int) -> None:
    problem = week(jobs, rolls, seed=seed).problem
    least = soonest(problem)
    plan = solve(problem)
    for one in problem.jobs:
        ends = [a.end for a in plan.assignments if problem.operation(a.operation).job == one.id]
        assert max(ends, default=least[one.id]) >= least[one.id]


@settings(max_examples=12, deadline=None)
@given(seed=st.integers(0, 1000), jobs=st.integers(3, 9))
def test_dates_that_a_plan_keeps_are_never_refused(seed: int, jobs: int) -> None:
    problem = week(jobs, 2, seed=seed).problem
    plan = solve(problem)
    ends: dict[str, int] = {}
    for a in plan.assignments:
        job = problem.operation(a.operation).job
        ends[job] = max(ends.get(job, 0), a.end)
    kept = dated(problem, ends)
    assert alone_too_late(kept) == ()
    assert crowded(kept) is None


def test_more_work_than_hours_is_refused_with_the_hours() -> None:
    problem = week(24, 1, seed=4).problem
    all_on_monday = dated(problem, {job.id: DAY for job in problem.jobs})
    assert len(alone_too_late(all_on_monday)) < 24, "most could be done on Monday, each by itself"
    left, conflicts = given_up_at_once(all_on_monday)
    assert any(len(one.wishes) > 1 for one in conflicts)
    assert all(one.dropped in one.wishes for one in conflicts)
    crowd = crowded(dated(problem, {s.job: s.minute for s in left.wishes if isinstance(s, MustShip)}))
    assert crowd is None, "what is left is not refused"


@pytest.mark.parametrize("without", range(2))
def test_a_crowd_has_no_date_that_the_proof_can_do_without(without: int) -> None:
    problem = week(24, 1, seed=4).problem
    crowd = crowded(dated(problem, {job.id: DAY for job in problem.jobs}))
    assert crowd is not None
    assert crowd.needs > crowd.open
    fewer = [ship for k, ship in enumerate(crowd.ships) if k != without]
    assert crowded(dated(problem, {ship.job: ship.minute for ship in fewer})) is None
