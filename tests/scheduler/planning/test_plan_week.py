"""A week on the calendar: set-ups with reasons, dates kept, loads that add up."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from itertools import pairwise

import pytest

from quoting.shop import Family, Shop
from scheduler.jobs.won_lines import RollChoice
from scheduler.planning import PlanAsked, plan_week
from scheduler.week import WeekPlan
from tests.scheduler.conftest import PLATE, won

MONDAY = date(2026, 11, 30)
MEDIUM = (RollChoice("Medium 10 ft", 40.0, 0.0),)


@pytest.fixture(scope="module")
def week(shop: Shop) -> WeekPlan:
    lines = [
        won("A-1", thickness_mm=6.35),
        won("A-2", thickness_mm=9.525),
        won("A-3", thickness_mm=6.35, diameter_mm=700.0),
        won("A-4", family=Family.STAINLESS, thickness_mm=6.35, diameter_mm=800.0),
        won("A-5", thickness_mm=9.525, diameter_mm=650.0, choices=(RollChoice("Retired roll", 10.0, 0.0),)),
    ]
    return plan_week(PlanAsked(lines, [PLATE], shop, MONDAY), effort="quick")


def test_every_line_that_a_roll_can_do_is_planned_once(week: WeekPlan) -> None:
    assert sorted(line.id for line in week.lines) == ["A-1", "A-2", "A-3", "A-4"]


def test_a_line_that_only_an_unknown_roll_can_do_is_named(week: WeekPlan) -> None:
    assert [item.line.id for item in week.unplanned] == ["A-5"]
    assert "Retired roll" in week.unplanned[0].reason


def test_the_reason_of_each_set_up_carries_the_minutes_the_plan_counts(week: WeekPlan) -> None:
    for slot in week.on("Medium 10 ft"):
        assert slot.setup is not None
        planned = week.plan.of(slot.work.operation.id)
        assert slot.setup.minutes == planned.setup_minutes


def test_equal_gaps_run_next_to_each_other(week: WeekPlan) -> None:
    thicknesses = [slot.line.thickness_mm for slot in week.on("Medium 10 ft") if slot.line]
    changes = sum(before != after for before, after in pairwise(thicknesses))
    assert changes == 1


def test_nothing_runs_outside_working_time(week: WeekPlan) -> None:
    for slot in week.slots:
        for moment in (slot.start, slot.end):
            assert any(t.start <= moment <= t.end for t in week.open_times[slot.machine])


def test_loads_add_up_to_the_slots(week: WeekPlan, shop: Shop) -> None:
    load = sum(load.run_minutes for load in week.loads if load.machine == "Medium 10 ft")
    assert load == 4 * 40
    setups = sum(load.setup_minutes for load in week.loads if load.machine == "Medium 10 ft")
    assert setups == week.plan.setup_minutes


def test_a_line_that_cannot_be_in_time_is_late_and_priced(shop: Shop) -> None:
    late = won("A-1", due=date(2026, 12, 1), choices=MEDIUM)
    plan = plan_week(PlanAsked([late], [replace(PLATE, here_in_days=7)], shop, MONDAY), effort="quick")
    assert [item.line.id for item in plan.late] == ["A-1"]
    assert plan.late[0].days == 6
    assert plan.late[0].cost > 0
    assert plan.finish_of("A-1") > datetime(2026, 12, 7)


def test_no_line_makes_an_empty_week(shop: Shop) -> None:
    plan = plan_week(PlanAsked([], [], shop, MONDAY), effort="quick")
    assert plan.slots == ()
    assert plan.last_finish is None


def test_the_plan_reaches_as_far_as_the_work_and_what_finds_no_place_is_named(shop: Shop) -> None:
    """A plate that comes in twelve weeks is waited for; a crew larger than any shift finds no place."""
    late_plate = replace(PLATE, id="P-2 #1", here_in_days=84)
    lines = [won("A-1"), won("A-2", plates=("P-2 #1",)), won("A-3", crew=9)]
    plan = plan_week(PlanAsked(lines, [PLATE, late_plate], shop, MONDAY), effort="quick")
    assert [line.id for line in plan.lines] == ["A-1", "A-2"]
    assert {item.line.id: item.reason for item in plan.unplanned} == {
        "A-3": "It needs 9 people at once, and no shift has more than 3."
    }


def test_a_roll_that_is_gone_from_the_book_is_passed_over(shop: Shop) -> None:
    choices = (RollChoice("Retired roll", 10.0, 0.0), *MEDIUM)
    plan = plan_week(PlanAsked([won("A-1", choices=choices)], [PLATE], shop, MONDAY), effort="quick")
    assert {slot.machine for slot in plan.slots if slot.line} == {"Medium 10 ft"}
