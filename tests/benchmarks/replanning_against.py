"""What a repaired plan is held against: plans from scratch within the frozen hours, what an event affects."""

from __future__ import annotations

from collections.abc import Set
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.core import Effort
from quoting.shop import Shop
from scheduler.jobs import CUT, DAY_MIN
from scheduler.replanning import Floor, Published, ReplanRules, floor_problem
from scheduler.replanning.repair import Repair
from scheduler.replanning.replan import changed_since, repair_of
from scheduler.sequence import (
    HeldPlaces,
    Mixing,
    NoPlanError,
    Pin,
    Stop,
    Tables,
    Timed,
    mixed_from,
    money,
    opened_in,
    solve,
    tables,
    timed_again,
)
from scheduler.sequence.solve import BUDGETS
from scheduler.week import WeekPlan, WeekProblem
from tests.scheduler.replanning.affected import affected
from tests.scheduler.replanning.floors import facts

WAYS = 4


@dataclass(frozen=True, slots=True)
class ByAffected:
    """What is kept of a published plan by affected operations rescheduling (`affected.py`).

    `affected` jobs have rolling that begins later when all rows are kept, `pushed` ones on another day.
    `kept` is the share of the jobs not affected that keep roll and day, `kept_but_pushed` of those not
    pushed.
    """

    affected: int
    pushed: int
    kept: float
    kept_but_pushed: float


@dataclass(frozen=True, slots=True)
class Against:
    """The published plan and the floor after an event, to hold a new plan against."""

    week: WeekProblem
    repair: Repair
    published: Published
    effort: Effort

    @classmethod
    def of(cls, floor: Floor, shop: Shop, published: Published, rules: ReplanRules) -> Against:
        """Return it for a floor; the plan from scratch is made once more for it."""
        week = floor_problem(floor, shop, rules.aim)
        scratch = solve(week.problem, effort=rules.effort, seed=rules.seed, orders=week.hand_orders)
        changed = changed_since(published, facts(floor))
        return cls(week, repair_of(floor, week, scratch, published, changed, rules), published, rules.effort)

    def within_frozen(self) -> Decimal:
        """Return the money of planning from scratch when what is within the frozen hours stays.

        The cheapest of three: the plan from scratch where it happens to keep that; a plan of the same effort
        with those jobs pinned to the minute at which right-shift repair has them; and what a search as long
        finds from both, each of them let go by as much as a repair may move it. The published order kept,
        where none of them is a plan.
        """
        repair = self.repair
        starts, found = [repair.scratch], [repair.scratch[1]]
        if repair.frozen:
            starts += self._pinned()
            places = {i: place for i, place in repair.held_in(0).places.items() if i in repair.frozen}
            mixing = Mixing(WAYS, min(one.total for _, one in starts), HeldPlaces(places))
            stop = Stop(iterations=BUDGETS[self.effort].candidates(repair.t.size))
            found += [one for _, one in (*starts, *mixed_from(starts, stop, 1, mixing))]
        kept = [one.total for one in found if not one.broken and not repair.thawed(one)]
        return money(min(kept, default=repair.reference.total))

    def _pinned(self) -> list[tuple[Tables, Timed]]:
        """Return a plan with all that is frozen pinned to its minute, none where none was found."""
        repair, week = self.repair, self.week
        pins = tuple(
            Pin(
                week.works[i].operation.id,
                machine=week.problem.machines[repair.was[i].machine].id,
                start=repair.reference.start[i],
            )
            for i in repair.frozen
        )
        problem = replace(week.problem, pins=(*week.problem.pins, *pins))
        try:
            plan = solve(problem, effort=self.effort, orders=week.hand_orders)
        except NoPlanError:
            return []
        t = tables(week.problem, opened_in(plan))
        return [(t, timed_again(t, plan))]

    def by_affected(self, plan: WeekPlan) -> ByAffected:
        """Return how much of the published plan a new one keeps, of the jobs that had not begun."""
        repair = self.repair
        later = {i: start for i, start in affected(repair.t, repair.was).items() if i in repair.lines}
        jobs = {repair.lines[i] for i in later} & repair.subjects
        pushed = {repair.lines[i] for i in later if later[i] // DAY_MIN != repair.was[i].start // DAY_MIN}
        pushed &= repair.subjects
        moved = self._moved(plan)
        return ByAffected(
            len(jobs),
            len(pushed),
            _share(repair.subjects - jobs, moved),
            _share(repair.subjects - pushed, moved),
        )

    def _moved(self, plan: WeekPlan) -> Set[str]:
        """Return the lines of which any rolling is on another roll or day than published, forced or not."""
        moved = set()
        for slot in plan.slots:
            was = self.published.works.get(slot.work.operation.id)
            if was is None or slot.work.kind == CUT or slot.line is None:
                continue
            if (was.machine, was.start.date()) != (slot.machine, slot.start.date()):
                moved.add(slot.line.id)
        return moved


def _share(free: Set[str], moved: Set[str]) -> float:
    return 1.0 - len(free & moved) / len(free) if free else 1.0
