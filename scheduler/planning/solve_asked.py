"""What a plan is asked for, and solving it until what does not fit has been left out and named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from quoting.core import Effort
from quoting.shop import Shop
from scheduler.jobs import PlateToCut, ShopOperation, WonLine
from scheduler.sequence import Aim, NoPlanError, Pin, Plan, Wish, solve
from scheduler.week import Unplanned, WeekProblem, week_problem
from scheduler.wishes import LineSplit, Wishes


@dataclass(frozen=True, slots=True)
class PlanAsked:
    """What a plan is asked for."""

    lines: Sequence[WonLine]
    plates: Sequence[PlateToCut]
    shop: Shop
    start: date
    wishes: Wishes
    aim: Aim

    def problem(self, left_out: Sequence[Unplanned], missed: Sequence[Wish]) -> WeekProblem:
        """Return the problem without some lines, the plates that only they need, and some wishes."""
        names = {item.line.id for item in left_out}
        kept = [line for line in self.lines if line.id not in names]
        needed = {plate for line in kept for plate in line.plates}
        plates = [plate for plate in self.plates if plate.id in needed]
        own = week_problem(kept, plates, self.shop, self.start, self.wishes, self.aim)
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
            left_out += [Unplanned(line, f"finds no place in the plan: {error.problem}") for line in stuck]
            continue
        return week, plan


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
