"""What people do by hand, and that no plan is worse than it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from scheduler.sequence import (
    After,
    Job,
    Machine,
    Mode,
    Operation,
    Pin,
    PlanRates,
    SequenceProblem,
    Window,
    compare,
    solve,
)
from scheduler.sequence.checker import check
from scheduler.sequence.rules import by_hand
from scheduler.sequence.rules.dispatch import wanted_by
from scheduler.sequence.timing import tables

from .weeks import week


def _one_roll(*jobs: tuple[int, int, int]) -> SequenceProblem:
    """Return jobs of (ready, minutes, due) on one roll that is always open."""
    return SequenceProblem(
        (Machine("roll", "roll", (Window(0, 5000),)),),
        tuple(Operation(str(k), str(k), (Mode("roll", p),), r) for k, (r, p, _) in enumerate(jobs)),
        tuple(Job(str(k), due, Decimal(1)) for k, (_, _, due) in enumerate(jobs)),
        rates=PlanRates(Decimal(1)),
    )


def test_the_roll_does_not_stand_still_for_the_plate_of_the_most_urgent_job() -> None:
    t = tables(_one_roll((300, 60, 100), (0, 100, 900), (0, 100, 800)))
    assert by_hand(t).start == [300, 100, 0]


def test_of_the_jobs_that_are_ready_the_first_by_the_rule_is_taken() -> None:
    t = tables(_one_roll((0, 100, 900), (50, 100, 800), (90, 100, 700)))
    assert by_hand(t).start == [0, 200, 100]
    thick = by_hand(t, {"0": 3.0, "1": 1.0, "2": 2.0})
    assert thick.start == [0, 100, 200]


def test_cutting_that_has_no_date_is_wanted_as_what_waits_for_it() -> None:
    table, roll = (Machine(name, name, (Window(0, 5000),)) for name in ("table", "roll"))
    cut = Operation("cut", "plate", (Mode("table", 30),))
    late, soon = (
        Operation(name, name, (Mode("roll", 50),), after=(After("cut", lag),))
        for name, lag in (("late", 0), ("soon", 20))
    )
    jobs = (Job("plate", 5000), Job("late", 600, Decimal(3)), Job("soon", 200, Decimal(1)))
    due, weight = wanted_by(tables(SequenceProblem((table, roll), (cut, late, soon), jobs)))
    assert due == [200 - 50 - 20, 600, 200]
    assert weight == [30_000, 30_000, 10_000]


@pytest.mark.parametrize("seed", range(3))
def test_no_plan_is_dearer_than_by_hand_and_more_effort_is_never_dearer(seed: int) -> None:
    made = week(13, 2, seed=seed)
    orders = {"thickness order": made.thickness}
    quick = solve(made.problem, orders=orders)
    normal = solve(made.problem, effort="normal", orders=orders)
    assert normal.total <= quick.total
    assert all(saving.money >= 0 for saving in compare(made.problem, quick, orders))


@pytest.mark.usefixtures("full_search")
@pytest.mark.parametrize("seed", range(4))
def test_a_plan_pinned_to_itself_comes_back_with_its_money(seed: int) -> None:
    problem = week(14, 2, seed=seed).problem
    plan = solve(problem)
    pins = tuple(Pin(a.operation, a.machine, a.start) for a in plan.assignments if "roll" in a.operation)
    pinned = replace(problem, pins=pins)
    again = solve(pinned)
    assert again.conflicts == ()
    assert check(pinned, again) == ()
    assert again.total <= plan.total


def test_slack_tells_plans_of_equal_money_apart() -> None:
    """Both orders keep their dates at no cost; the one that leaves the tighter job more days wins."""
    problem = _one_roll((0, 500, 4000), (0, 400, 1500), (0, 300, 4500))
    worth = replace(problem, rates=replace(problem.rates, slack=Decimal("0.01"), slack_limit=1200))
    plan = solve(worth)
    assert plan.total == solve(problem).total == 0
    assert plan.of("1").end <= 400
