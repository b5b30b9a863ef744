"""What a plan is asked for, and solving it until what does not fit has been left out and named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from quoting.core import Effort, first_few
from quoting.shop import Shop
from scheduler.jobs import PlateToCut, ShopOperation, WonLine
from scheduler.sequence import Aim, NoPlanError, Pin, Plan, Wish, solve, unplaced_by_hand
from scheduler.week import Unplanned, WeekProblem, week_problem
from scheduler.wishes import NO_WISHES, LineSplit, Wishes

MOST_WEEKS = 96
"""A plan reaches no further ahead than this."""


@dataclass(frozen=True, slots=True)
class PlanAsked:
    """What a plan is asked for; it reaches `weeks` weeks ahead, 0: as far as the shop's book says."""

    lines: Sequence[WonLine]
    plates: Sequence[PlateToCut]
    shop: Shop
    start: date
    wishes: Wishes = NO_WISHES
    aim: Aim = Aim.MONEY
    weeks: int = 0

    def problem(self, left_out: Sequence[Unplanned], missed: Sequence[Wish]) -> WeekProblem:
        """Return the problem without some lines, the plates that only they need, and some wishes."""
        names = {item.line.id for item in left_out}
        kept = [line for line in self.lines if line.id not in names]
        needed = {plate for line in kept for plate in line.plates}
        plates = [plate for plate in self.plates if plate.id in needed]
        own = week_problem(kept, plates, self.shop, self.start, self.wishes, self.aim, self.weeks)
        return replace(
            own,
            problem=own.problem.without(tuple(missed)),
            missed=tuple(missed),
            unplanned=(*own.unplanned, *left_out),
        )

    def also_split(self, splits: Sequence[LineSplit]) -> PlanAsked:
        """Return the same with some more lines in two lots."""
        return replace(self, wishes=replace(self.wishes, splits=(*self.wishes.splits, *splits)))


def solved(
    asked: PlanAsked, effort: Effort, seed: int, known: Plan | None = None
) -> tuple[WeekProblem, Plan]:
    """Solve, without lines that find no place and wishes no plan was found for, until the rest fits.

    `known` is a plan of less effort for the same, or of nearly the same: the search goes on from it.
    """
    left_out: list[Unplanned] = []
    missed: list[Wish] = []
    while True:
        week = asked.problem(left_out, missed)
        try:
            plan = solve(week.problem, effort=effort, seed=seed, orders=week.hand_orders, known=known)
        except NoPlanError as error:
            stuck = _lines_of(error.operations, week.works)
            if not stuck:
                if not week.problem.wishes:
                    raise
                missed.append(_least_wish(week.problem.wishes))
                continue
            left_out += [Unplanned(line, _why(line, week)) for line in stuck]
            continue
        return week, plan


def far_enough(asked: PlanAsked) -> PlanAsked:
    """Return the same for as many weeks as all lines need in regular hours, at least what the book says."""
    weeks = asked.shop.working_time.horizon_weeks
    while weeks < MOST_WEEKS:
        week = replace(asked, weeks=weeks).problem((), ())
        if not any(week.problem.operations[i].crew <= _people(week) for i in unplaced_by_hand(week.problem)):
            break
        weeks = min(2 * weeks, MOST_WEEKS)
    return replace(asked, weeks=weeks)


def _people(week: WeekProblem) -> int:
    return max((level.people for level in week.problem.staffing), default=0)


def _why(line: WonLine, week: WeekProblem) -> str:
    """Say why a line finds no place, as far as can be told."""
    if line.crew > _people(week):
        return f"It needs {line.crew} people at once, and no shift has more than {_people(week)}."
    weeks = (week.axis.end - week.axis.start).days // 7
    rolls = first_few([choice.roll for choice in line.choices], 3)
    return f"No place was found for it on {rolls} within {weeks} weeks: see its plates and the days closed."


def _least_wish(wishes: Sequence[Wish]) -> Wish:
    """Return the wish to give up first: a pin before a hard date or what runs already, the last one given."""
    pins = [wish for wish in wishes if isinstance(wish, Pin) and not wish.running]
    return pins[-1] if pins else wishes[-1]


def _lines_of(operations: Sequence[str], works: Sequence[ShopOperation]) -> list[WonLine]:
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
