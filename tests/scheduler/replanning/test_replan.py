"""What happens on a floor, each in one step: little moves, and what moves says why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import timedelta
from decimal import Decimal

import pytest

from quoting.core import ahead
from quoting.shop import Shop
from scheduler.jobs import CUT, RE_ROUND, ROLL
from scheduler.replanning import (
    Floor,
    FloorStop,
    Published,
    Replanned,
    ReplanRules,
    floor_problem,
    published_of,
    replan,
)
from scheduler.replanning.repair import Repair
from scheduler.replanning.replan import TIMED
from scheduler.replanning.right_shift import overtime_worked, was_in
from scheduler.sequence import checked, faults_of, solve, tables
from scheduler.sequence.solve import BUDGETS
from scheduler.week import WeekPlan
from tests.scheduler.replanning.affected import affected
from tests.scheduler.replanning.floors import EVENTS, MONDAY, facts, floor, later, while_rolling, with_job

RULES = ReplanRules(Decimal(8), 4.0, "quick")
TUESDAY = MONDAY + timedelta(days=1, hours=4)


@dataclass(frozen=True)
class Week:
    """A published week and its floor on Tuesday, a roll at work, all as planned so far."""

    floor: Floor
    plan: WeekPlan
    published: Published
    facts: Mapping[str, str]


@pytest.fixture(autouse=True, scope="module")
def light_search() -> None:
    """Search as for a shop: a light search moves so little that a job which nothing holds stays too."""


@pytest.fixture(scope="module")
def week(shop: Shop) -> Week:
    monday = floor(24, 3, shop)
    plan = replan(monday, shop, None, {}, RULES).week
    tuesday = later(monday, plan, while_rolling(plan, TUESDAY))
    return Week(tuesday, plan, published_of(plan, MONDAY, facts(tuesday)), facts(tuesday))


def planned(week: Week, shop: Shop, now: Floor) -> Replanned:
    return replan(now, shop, week.published, facts(now), RULES)


def test_nothing_happened_and_nothing_moves(week: Week, shop: Shop) -> None:
    found = planned(week, shop, week.floor)
    assert (found.moved, found.new) == ((), ())


@pytest.mark.parametrize("event", EVENTS)
def test_a_small_event_stays_small(week: Week, shop: Shop, event: str) -> None:
    found = planned(week, shop, EVENTS[event](week.floor, week.plan))
    assert found.stability is not None
    assert found.stability.kept_share >= 0.9
    assert found.stability.frozen_moved == 0
    assert all(one.why for one in found.moved)
    assert all(slot.setup_start >= TUESDAY for slot in found.week.slots if slot.setup_minutes)
    assert all(slot.start >= TUESDAY for slot in found.week.slots)


def test_the_plan_is_the_same_on_one_core_and_on_several(
    week: Week, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    totals, starts = [], []
    for cores in (1, 3):
        monkeypatch.setattr(ahead, "cores", lambda cores=cores: cores)
        found = planned(week, shop, EVENTS["rush job in"](week.floor, week.plan))
        totals.append((found.week.plan.total, found.scratch))
        starts.append([(slot.work.operation.id, slot.machine, slot.start) for slot in found.week.slots])
    assert totals[0] == totals[1]
    assert starts[0] == starts[1]


def test_a_roll_that_is_down_does_nothing_and_its_jobs_say_so(week: Week, shop: Shop) -> None:
    begin = TUESDAY + timedelta(hours=6)
    down = FloorStop(begin, begin + timedelta(days=2), "Medium 10 ft")
    found = planned(week, shop, replace(week.floor, stops=(down,)))
    at = [slot for slot in found.week.slots if slot.machine == down.machine]
    assert all(slot.start >= down.end or slot.start < down.start for slot in at)
    assert any("Medium 10 ft is down until" in one.why for one in found.moved)


def test_what_runs_comes_first_on_its_roll_without_a_set_up(week: Week, shop: Shop) -> None:
    running = next(job for job in week.floor.jobs if job.on_roll)
    found = planned(week, shop, week.floor)
    first = min((s for s in found.week.slots if s.machine == running.roll), key=lambda slot: slot.start)
    assert first.line is not None
    assert (first.line.id, first.setup_minutes, first.run_minutes) == (
        running.line.id, 0, running.minutes_left,
    )  # fmt: skip


def test_what_is_cut_is_not_cut_again_and_what_is_rolled_only_re_rounded(week: Week, shop: Shop) -> None:
    job = next(job for job in week.floor.jobs if job.line.re_round and job.state in ("won", "cut"))
    back = TUESDAY.date() + timedelta(days=6)
    now = with_job(week.floor, job.line.id, state="at the welder", since=TUESDAY, back_on=back)
    found = planned(week, shop, now)
    mine = [slot for slot in found.week.slots if slot.line and slot.line.id == job.line.id]
    assert [slot.work.kind for slot in mine] == [RE_ROUND]
    assert mine[0].start.date() >= back
    cut = {plate for job in now.jobs if job.state == "cut" for plate in job.line.plates}
    assert cut
    assert not cut & {
        slot.work.plate.id for slot in found.week.slots if slot.work.kind == CUT and slot.work.plate
    }


def test_what_nobody_wrote_down_as_done_is_named(
    week: Week, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Tuesday with Monday's states: the plan has Monday's work again, and says of what it does not know."""
    monkeypatch.setitem(TIMED, "quick", 50_000)  # what is asked does not hang on how good the plan is
    monkeypatch.setitem(BUDGETS, "quick", replace(BUDGETS["quick"], timed=200_000, each=60, a_round=200_000))
    silent = replace(
        week.floor, moment=TUESDAY, jobs=floor(24, 3, shop).jobs, plates=floor(24, 3, shop).plates
    )
    done = replan(silent, shop, week.published, week.facts, RULES)
    over = {name for name, work in week.published.works.items() if work.end <= TUESDAY}
    assert over
    assert set(done.not_told) == over
    told = replan(week.floor, shop, week.published, week.facts, RULES)
    assert told.not_told == ()


def test_a_floor_on_which_all_is_done_needs_no_plan(shop: Shop) -> None:
    """`rush` ended in a division by zero there."""
    monday = floor(2, 3, shop)
    published = published_of(replan(monday, shop, None, {}, RULES).week, MONDAY, facts(monday))
    done = replace(monday, jobs=(), plates=())
    assert replan(done, shop, published, {}, RULES).week.slots == ()


def test_a_job_on_hold_is_left_out_and_said(week: Week, shop: Shop) -> None:
    job = next(job for job in week.floor.jobs if job.state == "won")
    found = planned(week, shop, with_job(week.floor, job.line.id, hold=True))
    assert (job.line.id, "on hold") in [(item.line.id, item.reason) for item in found.week.unplanned]


def test_pins_hold(week: Week, shop: Shop) -> None:
    job = next(job for job in week.floor.jobs if job.state == "won" and len(job.line.choices) == 2)
    roll, day = job.line.choices[1].roll, TUESDAY.date() + timedelta(days=3)
    found = planned(week, shop, with_job(week.floor, job.line.id, pin_roll=roll, pin_day=day))
    slot = next(s for s in found.week.slots if s.line and s.line.id == job.line.id and s.work.kind == ROLL)
    assert slot.machine == roll
    assert slot.start.date() == day


@pytest.mark.parametrize(("jobs", "seed", "orders"), [(12, 5, 40_000), (16, 6, 2_000), (20, 7, 2_000)])
def test_the_repaired_plan_ranks_no_worse_than_the_published_one_and_the_one_from_scratch(
    shop: Shop, jobs: int, seed: int, orders: int
) -> None:
    monday = floor(jobs, seed, shop)
    plan = replan(monday, shop, None, {}, RULES).week
    now = EVENTS["roll down for two days"](later(monday, plan, while_rolling(plan, TUESDAY)), plan)
    problem = floor_problem(now, shop)
    published = published_of(plan, MONDAY, facts(now))
    scratch = solve(problem.problem, effort="quick", orders=problem.hand_orders)
    soon = problem.axis.minute(TUESDAY + timedelta(hours=4))
    repair = Repair(problem, scratch, published, Decimal(5), soon, frozenset(), {})
    t, timed = repair.repaired(orders, 0)
    assert repair.pushed
    assert {repair.held_in(1).places[i][3] for i in repair.pushed} == {15_000}, "0.3 of 5"
    assert not set(repair.pushed) & set(repair.held_in(1, 3).places)
    assert repair.rank(timed) <= min(repair.rank(repair.reference), repair.rank(repair.scratch[1]))
    assert faults_of(problem.problem, checked(t, timed)) == ()


def test_rows_kept_are_affected_by_an_event_alone(week: Week, shop: Shop) -> None:
    def later_than_published(now: Floor) -> dict[str, int]:
        problem = floor_problem(now, shop)
        was = was_in(problem.problem, problem.works, problem.axis, week.published)
        t = tables(problem.problem, overtime_worked(problem.problem, problem.axis, week.published))
        names = {i: problem.works[i].operation.id for i in was}
        ahead = {i: place for i, place in was.items() if names[i] not in begun or t.running[i]}
        return {names[i]: was[i].machine for i in affected(t, ahead)}

    # what was due to be set up or begun before the moment, and was not told of, is late by itself
    begun = {
        slot.work.operation.id for slot in week.plan.slots if min(slot.setup_start, slot.start) < TUESDAY
    }

    begin = TUESDAY + timedelta(hours=6)
    down = FloorStop(begin, begin + timedelta(days=2), "Medium 10 ft")
    assert later_than_published(week.floor) == {}
    pushed = later_than_published(replace(week.floor, stops=(down,)))
    in_the_stop = {
        slot.work.operation.id
        for slot in week.plan.slots
        if slot.machine == down.machine and down.start <= slot.start < down.end
    }
    assert in_the_stop
    assert in_the_stop <= set(pushed)


def test_a_job_that_the_event_pushes_out_of_its_hour_is_frozen_no_more(shop: Shop) -> None:
    monday = floor(24, 3, shop)
    plan = replan(monday, shop, None, {}, RULES).week
    tuesday = later(monday, plan, while_rolling(plan, TUESDAY))
    running = next(job for job in tuesday.jobs if job.on_roll)
    longer = with_job(tuesday, running.line.id, minutes_left=(running.minutes_left or 0) + 240)
    found = {}
    for name, now in (("as planned", tuesday), ("four hours more", longer)):
        problem = floor_problem(now, shop)
        scratch = solve(problem.problem, effort="quick", orders=problem.hand_orders)
        late = problem.axis.minute(TUESDAY + timedelta(days=2))
        published = published_of(plan, MONDAY, facts(now))
        found[name] = Repair(problem, scratch, published, Decimal(5), late, frozenset(), {})
    for repair in found.values():
        pushed = {i: abs(repair.reference.start[i] - repair.was[i].start) for i in repair.held}
        assert all(pushed[i] <= 60 for i in repair.frozen)
        assert repair.thawed(repair.reference) == frozenset()
    assert len(found["four hours more"].frozen) < len(found["as planned"].frozen)
