"""The checker catches every way a plan can be wrong."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest

from scheduler.sequence import Assignment, Pin, Plan, SequenceProblem, overtime_windows, tables
from scheduler.sequence.checked_plan import finish
from scheduler.sequence.checker import check
from scheduler.sequence.plan import Cost, OvertimeUsed
from scheduler.sequence.rules.dispatch import apparent_tardiness_cost
from tests.scheduler.sequence.weeks import week, with_dearer_roll

PROBLEM = with_dearer_roll(week(50, 2, seed=3).problem)
ALL_OVERTIME = frozenset((m, w.start) for m, w in overtime_windows(PROBLEM))


def _plan(problem: SequenceProblem) -> Plan:
    t = tables(problem, ALL_OVERTIME)
    return finish(t, apparent_tardiness_cost(t), "test")


PLAN = _plan(PROBLEM)


def _change(plan: Plan, which: Callable[[Assignment], bool], **changes: object) -> Plan:
    first = next(a for a in plan.assignments if which(a))
    changed = replace(first, **changes)  # type: ignore[arg-type]
    return replace(plan, assignments=tuple(changed if a is first else a for a in plan.assignments))


def _faults(plan: Plan, problem: SequenceProblem = PROBLEM) -> str:
    return "; ".join(check(problem, plan))


def test_a_good_plan_has_no_faults() -> None:
    assert _faults(PLAN) == ""


def test_missing_and_doubled_operations() -> None:
    assert "planned 0 times" in _faults(replace(PLAN, assignments=PLAN.assignments[1:]))
    assert "planned 2 times" in _faults(replace(PLAN, assignments=PLAN.assignments + PLAN.assignments[:1]))


def test_a_machine_that_cannot_do_it() -> None:
    assert "cannot be done on cut 1" in _faults(
        _change(PLAN, lambda a: a.operation.startswith("roll"), machine="cut 1")
    )
    assert "does not exist" in _faults(_change(PLAN, lambda a: True, machine="roll 9"))


def test_too_few_working_minutes() -> None:
    one = PLAN.assignments[3]
    assert "needs" in _faults(_change(PLAN, lambda a: a is one, end=one.end - 1))


def test_starting_a_minute_early_overlaps_or_lacks_set_up() -> None:
    for a in PLAN.on("roll 1"):
        faults = _faults(_change(PLAN, lambda x, a=a: x is a, start=a.start - 1, end=a.end - 1))  # type: ignore[misc]
        assert faults or a.start > a.setup_start + a.setup_minutes


def test_a_wrong_set_up() -> None:
    one = next(a for a in PLAN.assignments if a.setup_minutes > 2)
    assert "set-up minutes, needs" in _faults(
        _change(PLAN, lambda a: a is one, setup_minutes=one.setup_minutes - 1)
    )
    assert "before its set-up is done" in _faults(
        _change(PLAN, lambda a: a is one, setup_start=one.start - 1)
    )


def test_work_outside_the_windows() -> None:
    one = next(a for a in PLAN.assignments if a.operation.startswith("roll"))
    assert "outside the working windows" in _faults(_change(PLAN, lambda a: a is one, start=0, end=50))


def test_a_pass_does_not_pause() -> None:
    paused = next(
        a
        for a in PLAN.assignments
        if a.end - a.start
        > next(m.minutes for m in PROBLEM.operation(a.operation).modes if m.machine == a.machine)
    )
    stiff = tuple(replace(o, may_pause=False) if o.id == paused.operation else o for o in PROBLEM.operations)
    assert "may not pause" in _faults(PLAN, replace(PROBLEM, operations=stiff))


def test_release_and_waiting() -> None:
    first = PLAN.assignments[0]
    later = tuple(
        replace(o, release=first.start + 1) if o.id == first.operation else o for o in PROBLEM.operations
    )
    assert "before its release" in _faults(PLAN, replace(PROBLEM, operations=later))
    waits = next(o for o in PROBLEM.operations if o.id.startswith("round"))
    longer = replace(waits, after=(replace(waits.after[0], lag=10**5),))
    changed = tuple(longer if o.id == waits.id else o for o in PROBLEM.operations)
    assert "starts sooner than 100000 minutes" in _faults(PLAN, replace(PROBLEM, operations=changed))


def test_people_and_crane() -> None:
    fewer = tuple(replace(s, people=1) for s in PROBLEM.staffing)
    assert "people" in _faults(PLAN, replace(PROBLEM, staffing=fewer))
    assert "cranes of 0" in _faults(PLAN, replace(PROBLEM, cranes=0))


@pytest.mark.parametrize("kind", ["machine", "start", "not_before", "before", "running"])
def test_pins(kind: str) -> None:
    last = max(PLAN.on("roll 1"), key=lambda a: a.start)
    first = min(PLAN.on("roll 1"), key=lambda a: a.start)
    pin = {
        "machine": Pin(PLAN.on("roll 2")[0].operation, machine="roll 1"),
        "start": Pin(last.operation, start=last.start + 1),
        "not_before": Pin(first.operation, not_before=first.start + 1),
        "before": Pin(last.operation, before=first.operation),
        "running": Pin(last.operation, machine="roll 1", running=True),
    }[kind]
    assert _faults(PLAN, replace(PROBLEM, pins=(pin,))) != ""


def test_a_hard_date() -> None:
    jobs = tuple(replace(j, must_ship=1) for j in PROBLEM.jobs)
    assert "must ship by minute 1" in _faults(PLAN, replace(PROBLEM, jobs=jobs))


@pytest.mark.parametrize("part", ["setup", "lateness", "overtime", "wip", "running"])
def test_money_that_does_not_add_up(part: str) -> None:
    wrong: Cost = replace(PLAN.cost, **{part: getattr(PLAN.cost, part) + Decimal("0.01")})
    assert f"{part} costs" in _faults(replace(PLAN, cost=wrong))


def test_a_bound_above_the_plan() -> None:
    assert "lies above" in _faults(replace(PLAN, bound=PLAN.total + 1))


def test_overtime_that_nobody_offered_or_that_is_worked_unsaid() -> None:
    extra = OvertimeUsed("roll 1", 0, 60)
    assert "not on offer" in _faults(replace(PLAN, overtime=(*PLAN.overtime, extra)))
    assert PLAN.overtime
    assert _faults(replace(PLAN, overtime=())) != ""
