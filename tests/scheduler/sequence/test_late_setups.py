"""Set-ups move to just before their operation and nothing else changes."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from scheduler.sequence import (
    Job,
    Machine,
    Mode,
    Operation,
    SequenceProblem,
    Staffing,
    Timed,
    Window,
    overtime_windows,
    solve,
    tables,
)
from scheduler.sequence.checked_plan import finish
from scheduler.sequence.checker import check
from scheduler.sequence.rules.dispatch import apparent_tardiness_cost
from scheduler.sequence.timing import late_setups
from tests.scheduler.sequence.weeks import week


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("overtime", [False, True])
def test_no_operation_and_no_money_changes_and_the_checker_passes_it(seed: int, overtime: bool) -> None:
    problem = week(30, 2, seed=seed).problem
    every = frozenset((m, w.start) for m, w in overtime_windows(problem))
    t = tables(problem, every if overtime else frozenset())
    early = apparent_tardiness_cost(t)
    late = late_setups(t, early)
    assert replace(late, setup_start=early.setup_start) == early
    assert all(a <= b for a, b in zip(early.setup_start, late.setup_start, strict=True))
    assert sum(late.setup_start) > sum(early.setup_start)
    assert check(problem, finish(t, late, "test")) == ()
    assert late_setups(t, late) == late


def _one_job(staffing: tuple[Staffing, ...], windows: tuple[Window, ...]) -> SequenceProblem:
    operation = Operation("a", "a", (Mode("roll", 60),), release=600, crew=1)
    setups = {"roll": np.full((2, 1), 30, dtype=np.int64)}
    jobs = (Job("a", 2000),)
    return SequenceProblem((Machine("roll", "roll", windows),), (operation,), jobs, setups, staffing=staffing)


def _timed(problem: SequenceProblem) -> Timed:
    t = tables(problem)
    return late_setups(t, apparent_tardiness_cost(t))


def test_a_set_up_waits_for_its_operation() -> None:
    plan = solve(_one_job((), (Window(0, 1000),)))
    assert (plan.of("a").setup_start, plan.of("a").start) == (570, 600)


def test_a_set_up_is_done_while_people_are_there() -> None:
    people = (Staffing(0, 400, 1), Staffing(590, 1000, 1))
    assert _timed(_one_job(people, (Window(0, 1000),))).setup_start == [370]


def test_a_set_up_stops_over_a_break() -> None:
    assert _timed(_one_job((), (Window(0, 560), Window(590, 1000)))).setup_start == [540]
