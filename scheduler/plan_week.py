"""From won lines to the planned week: the problem, its solution, and both put on the calendar."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import date

from quoting.shop import Shop
from scheduler.cures import EFFORTS, with_cures
from scheduler.on_calendar import on_calendar
from scheduler.operations import Work
from scheduler.sequence import Aim, Effort, NoPlanError, Pin, Plan, Wish, compare, solve
from scheduler.week import Unplanned, WeekPlan
from scheduler.week_problem import WeekProblem, week_problem
from scheduler.wishes import NO_WISHES, Wishes
from scheduler.wishes_check import check_wishes
from scheduler.won import PlateToCut, WonLine

THICKNESS_ORDER = "thickness order"


def plan_week(
    lines: Sequence[WonLine],
    plates: Sequence[PlateToCut],
    shop: Shop,
    start: date,
    *,
    effort: Effort = "normal",
    seed: int = 0,
    wishes: Wishes = NO_WISHES,
    aim: Aim = Aim.MONEY,
) -> WeekPlan:
    """Return the checked plan of these lines from the morning of `start`.

    Lines that no roll can do, or that do not fit into the shop's horizon, are left out and named; wishes that
    cannot be kept are given up and named in the notes; everything else is planned. Raises InputError for a
    calendar without a shift and for a wish about a line or roll that is not there or a time before `start`.
    """
    check_wishes(wishes, lines, [roll.name for roll in shop.rolls], start)
    week, plan = _solved(_Asked(lines, plates, shop, start, wishes, aim), effort, seed)
    savings = compare(
        week.problem.without(plan.dropped), plan, {THICKNESS_ORDER: _thickness_keys(week.works)}
    )
    return with_cures(on_calendar(week, plan, savings, shop, start), week, shop, EFFORTS[effort])


@dataclass(frozen=True, slots=True)
class _Asked:
    """What a plan is asked for."""

    lines: Sequence[WonLine]
    plates: Sequence[PlateToCut]
    shop: Shop
    start: date
    wishes: Wishes
    aim: Aim

    def problem(self, left_out: Collection[str]) -> WeekProblem:
        """Return the problem without some lines and the plates that only they need."""
        kept = [line for line in self.lines if line.id not in left_out]
        needed = {plate for line in kept for plate in line.plates}
        plates = [plate for plate in self.plates if plate.id in needed]
        return week_problem(kept, plates, self.shop, self.start, self.wishes, self.aim)


def _solved(asked: _Asked, effort: Effort, seed: int) -> tuple[WeekProblem, Plan]:
    """Solve, without lines that find no place and wishes no plan was found for, until the rest fits."""
    left_out: list[Unplanned] = []
    missed: list[Wish] = []
    while True:
        week = asked.problem({item.line.id for item in left_out})
        week = replace(week, problem=week.problem.without(tuple(missed)), missed=tuple(missed))
        try:
            plan = solve(week.problem, effort=effort, seed=seed)
        except NoPlanError as error:
            stuck = _lines_of(error.operations, week.works)
            if not stuck:
                if not week.problem.wishes:
                    raise
                missed.append(_least_wish(week.problem.wishes))
                continue
            left_out += [Unplanned(line, f"finds no place in the plan: {error.problem}") for line in stuck]
            continue
        return replace(week, unplanned=(*week.unplanned, *left_out)), plan


def _least_wish(wishes: Sequence[Wish]) -> Wish:
    """Return the wish to give up first: a pin before a hard date or what runs already, the last one given."""
    pins = [wish for wish in wishes if isinstance(wish, Pin) and not wish.running]
    return pins[-1] if pins else wishes[-1]


def _lines_of(operations: Sequence[str], works: Sequence[Work]) -> list[WonLine]:
    """Return the lines of these operations; of a plate that cannot be cut, the lines it is cut for."""
    found: dict[str, WonLine] = {}
    for work in works:
        if work.operation.id not in operations:
            continue
        for other in works:
            line = other.line
            if line and (other is work or (work.plate and work.plate.id in line.plates)):
                found[line.id] = line
    return list(found.values())


def _thickness_keys(works: Sequence[Work]) -> dict[str, float]:
    return {
        work.operation.id: work.line.thickness_mm
        if work.line
        else work.plate.thickness_mm
        if work.plate
        else 0.0
        for work in works
    }
