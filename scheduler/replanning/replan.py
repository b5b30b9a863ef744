"""The floor planned anew from a moment on, against the plan last published."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, time, timedelta
from decimal import Decimal

from quoting.core import Effort
from quoting.shop import Shop
from scheduler.calendar import day_short
from scheduler.cures import EFFORTS, with_cures
from scheduler.jobs import WonLine
from scheduler.planning import on_calendar
from scheduler.replanning.first_plan import first_plan
from scheduler.replanning.floor import Floor, FloorJob
from scheduler.replanning.floor_problem import as_set_up, floor_problem
from scheduler.replanning.published import Moved, Published, Stability, first_rolling
from scheduler.replanning.repair import Repair
from scheduler.sequence import (
    Aim,
    NoPlanError,
    Plan,
    Timed,
    checked,
    solve,
)
from scheduler.week import PlannedOperation, Unplanned, WeekPlan, WeekProblem

TIMED: Mapping[Effort, int] = {"quick": 20_000_000, "normal": 36_000_000, "thorough": 240_000_000}
"""Operations that the repair times in all its searches, about."""

EACH: Mapping[Effort, int] = {"quick": 1_500, "normal": 10_000, "thorough": 60_000}
"""Orders for each operation that it times at most: a small floor is soon searched through."""


@dataclass(frozen=True, slots=True)
class ReplanRules:
    """How hard the published plan is held, and how hard is searched: see `LedgerSettings`."""

    move_cost: Decimal
    frozen_hours: float
    effort: Effort = "normal"
    seed: int = 0
    aim: Aim = Aim.MONEY


@dataclass(frozen=True, slots=True)
class Replanned:
    """The new plan, what it costs against planning from scratch, and what is different from the published.

    `scratch` is the money of the plan that looks at no published one. `moved` are the jobs of both plans that
    are on another roll or day, those that were forced first; `stability` is None without a published plan.
    `not_told` are the operations that were to be done by now, that nobody said are, and are planned again.
    """

    week: WeekPlan
    scratch: Decimal
    moved: tuple[Moved, ...] = ()
    stability: Stability | None = None
    new: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    not_told: tuple[str, ...] = ()

    @property
    def extra_share(self) -> float:
        """Return how much more money the plan is than one from scratch, as a share; negative: less."""
        if self.scratch <= 0:
            return 0.0
        return float((self.week.plan.total - self.scratch) / self.scratch)


def replan(
    floor: Floor,
    shop: Shop,
    published: Published | None,
    facts: Mapping[str, str],
    rules: ReplanRules,
) -> Replanned:
    """Return the checked plan of what is left to do from the floor's moment on.

    `facts` tell for each line what the plan is made from: a line whose facts differ from the published plan's
    has changed itself, and may move. Jobs that find no place are left out and named.
    """
    floor, week, scratch, left_out = _from_scratch(floor, shop, rules)
    if published is None and any(job.pin_day and not job.on_roll for job in floor.working):
        published = Published(floor.moment, {})  # nothing to keep, but the days that were asked for
    if published is None:
        orders = _orders(rules.effort, len(week.works))
        first = first_plan(week, scratch, rules.effort, rules.seed, orders)
        return Replanned(_on_calendar(week, first, shop, floor, left_out, rules), first.total)
    changed = changed_since(published, facts)
    repair = repair_of(floor, week, scratch, published, changed, rules)
    plan, timed = _repaired(repair, scratch, rules)
    found = _on_calendar(week, plan, shop, floor, left_out, rules)
    moved = _moved(found, published, repair.forced, changed, floor)
    had = {work.line for work in published.works.values() if work.line}
    has = {job.line.id for job in floor.jobs}
    planned = {line.id for line in found.lines}
    return Replanned(
        found,
        scratch.total,
        moved,
        _stability(repair, timed, moved),
        tuple(sorted(planned - had)),
        tuple(sorted(had - has)),
        _not_told(found, published, floor),
    )


def repair_of(
    floor: Floor,
    week: WeekProblem,
    scratch: Plan,
    published: Published,
    changed: frozenset[str],
    rules: ReplanRules,
) -> Repair:
    """Return the repair of a published plan on a floor, of which `scratch` is a plan that looks at none."""
    days = {job.line.id: job.pin_day for job in floor.working if job.pin_day and not job.on_roll}
    return Repair(
        replace(week, problem=week.problem.without(scratch.dropped)),
        scratch,
        published,
        rules.move_cost,
        week.axis.minute(floor.moment + timedelta(hours=rules.frozen_hours)),
        changed,
        {line: week.axis.minute(datetime.combine(day, time())) for line, day in days.items()},
    )


def changed_since(published: Published, facts: Mapping[str, str]) -> frozenset[str]:
    """Return the lines whose facts differ from those that the published plan was made from."""
    return frozenset(
        line for line, fact in facts.items() if line in published.facts and published.facts[line] != fact
    )


def _not_told(week: WeekPlan, published: Published, floor: Floor) -> tuple[str, ...]:
    """Return the operations that end by now in the published plan and have not even begun in the new one."""
    running = {job.line.id for job in floor.jobs if job.on_roll}
    again = {
        slot.work.operation.id for slot in week.slots if slot.line is None or slot.line.id not in running
    }
    late = [(was.end, name) for name, was in published.works.items() if was.end <= floor.moment]
    return tuple(name for _, name in sorted(late) if name in again)


def _repaired(repair: Repair, scratch: Plan, rules: ReplanRules) -> tuple[Plan, Timed]:
    """Return the published plan repaired, else the one from scratch where that cannot be; and its times."""
    t, timed = repair.repaired(_orders(rules.effort, repair.t.size), rules.seed)
    if timed.broken or timed.unplaced:
        return scratch, repair.scratch[1]
    plan = replace(checked(t, timed), method="the published plan repaired", conflicts=scratch.conflicts)
    return replace(plan, bound=min(scratch.bound, plan.goal(rules.aim))), timed


def _stability(repair: Repair, timed: Timed, moved: Sequence[Moved]) -> Stability:
    return Stability(
        jobs=len(repair.subjects),
        forced=len(repair.forced),
        moved=len(repair.moved(timed)),
        other_roll=sum(one.other_roll for one in moved),
        deviation_min=repair.deviation(timed),
        frozen_moved=len(repair.thawed(timed)),
    )


def _orders(effort: Effort, size: int) -> int:
    return max(500, min(TIMED[effort] // max(1, size), EACH[effort] * size))


def _from_scratch(
    floor: Floor, shop: Shop, rules: ReplanRules
) -> tuple[Floor, WeekProblem, Plan, list[Unplanned]]:
    """Solve without looking at the published plan; jobs that find no place are taken out and named."""
    left_out: list[Unplanned] = []
    while True:
        week = floor_problem(floor, shop, rules.aim)
        try:
            plan = solve(week.problem, effort=rules.effort, seed=rules.seed, orders=week.hand_orders)
            return floor, week, plan, left_out
        except NoPlanError as error:
            names = set(error.operations)
            stuck = _stuck(week, names)
            if not stuck:
                raise
            left_out += [Unplanned(line, f"finds no place in the plan: {error.problem}") for line in stuck]
            out = {line.id for line in stuck}
            floor = replace(floor, jobs=tuple(job for job in floor.jobs if job.line.id not in out))


def _stuck(week: WeekProblem, operations: set[str]) -> list[WonLine]:
    plates = {work.plate.id for work in week.works if work.plate and work.operation.id in operations}
    found = {
        work.line.id: work.line
        for work in week.works
        if work.line and (work.operation.id in operations or plates & set(work.line.plates))
    }
    return list(found.values())


def _on_calendar(
    week: WeekProblem, plan: Plan, shop: Shop, floor: Floor, left_out: Sequence[Unplanned], rules: ReplanRules
) -> WeekPlan:
    found = on_calendar(week, plan, (), as_set_up(floor, shop), floor.moment.date())
    held = [Unplanned(job.line, "on hold") for job in floor.jobs if job.hold]
    found = replace(found, unplanned=(*found.unplanned, *left_out, *held))
    return with_cures(found, week, shop, EFFORTS[rules.effort])


def _moved(
    week: WeekPlan,
    published: Published,
    forced: frozenset[str],
    changed: frozenset[str],
    floor: Floor,
) -> tuple[Moved, ...]:
    was = first_rolling(published)
    jobs = {job.line.id: job for job in floor.jobs}
    found = []
    for line, slot in _first_slots(week).items():
        old = was.get(line)
        if old is None or jobs[line].on_roll or not jobs[line].still_to_roll:
            continue
        moved = Moved(
            line,
            jobs[line].line.customer,
            old.machine,
            old.start,
            slot.machine,
            slot.start,
            forced=line in forced,
        )
        if moved.other_roll or moved.day:
            why = _why(moved, jobs[line], line in changed, week, floor)
            found.append(replace(moved, why=why))
    return tuple(sorted(found, key=lambda one: (not one.forced, one.now_at, one.line)))


def _first_slots(week: WeekPlan) -> dict[str, PlannedOperation]:
    found: dict[str, PlannedOperation] = {}
    for slot in sorted(week.slots, key=lambda slot: slot.start):
        if slot.line is not None:
            found.setdefault(slot.line.id, slot)
    return found


def _why(moved: Moved, job: FloorJob, changed: bool, week: WeekPlan, floor: Floor) -> str:
    down = next(
        (
            stop
            for stop in floor.stops
            if stop.machine == moved.was_on and stop.start <= moved.was_at < stop.end
        ),
        None,
    )
    if down is not None:
        return f"{moved.was_on} is down until {day_short(down.end)} {down.end:%H:%M}"
    leads = {plate.id: plate.here_in_days for plate in floor.plates}
    days = max((leads.get(plate, 0) for plate in job.line.plates), default=0)
    there = week.start + timedelta(days=days)
    sooner = moved.now_at < moved.was_at
    reasons = (
        (bool(days) and there > moved.was_at.date(), f"its plate is in on {day_short(there)}"),
        (job.not_before is not None and job.not_before > moved.was_at, "not before the day in the jobs book"),
        (moved.was_at < floor.moment, "its time has passed and it was not begun"),
        (changed, "the job itself has changed"),
        (not moved.forced, "saves more than moving it costs"),
        (sooner, "the work before it is done or gone"),
    )
    return next((why for holds, why in reasons if holds), "pushed by the work before it")
