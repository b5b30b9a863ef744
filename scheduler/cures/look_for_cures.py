"""Which late lines are looked into, how hard, and which of the changes tried are worth telling."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.core import Effort
from quoting.shop import Shop
from scheduler.cures.changes import drop_wish, other_roll, plate_sooner, put_ahead
from scheduler.cures.late_case import LEAST_GAIN_MIN, Case, Trial, ends
from scheduler.cures.overtime import overtime, saturday
from scheduler.cures.split import split
from scheduler.jobs import DAY_MIN
from scheduler.sequence import Aim, Plan, SequenceProblem, checked, money
from scheduler.week import Cure, Late, Later, WeekPlan, WeekProblem

CHANGES: tuple[Callable[[Case], Iterator[Trial]], ...] = (
    put_ahead,
    overtime,
    saturday,
    drop_wish,
    other_roll,
    plate_sooner,
    split,
)
FREE = ("order", "overtime", "roll")
"""Kinds of change that only plan otherwise: the same work in the hours of the shop's book."""

SCANS_A_LINE = 40
"""Searches through the order that one line takes, about, for sharing out the work."""


@dataclass(frozen=True, slots=True)
class Look:
    """How hard cures are looked for: at most this many late lines, places tried, operations timed."""

    lines: int
    places: int
    timed: int

    def for_size(self, size: int) -> tuple[int, int]:
        """Return the late lines and the places of each that this look has work for in so large a plan."""
        places = self.places
        while places > FEWEST_PLACES and _work(places, size) > self.timed:
            places //= 2
        return min(self.lines, self.timed // max(1, _work(places, size))), places


EFFORTS: Mapping[Effort, Look] = {
    "quick": Look(lines=4, places=12, timed=800_000),
    "normal": Look(lines=8, places=24, timed=3_000_000),
    "thorough": Look(lines=20, places=80, timed=20_000_000),
}
FEWEST_PLACES = 3


def with_cures(week: WeekPlan, problem: WeekProblem, shop: Shop, look: Look) -> WeekPlan:
    """Return the week with what would cure its worst late lines, as many as the look has work for."""
    lines, places = look.for_size(len(problem.works))
    looked = [_looked_into(late, problem, week.plan, shop, places) for late in week.late[:lines]]
    return replace(week, late=(*looked, *week.late[lines:]))


def free_cures(week: WeekPlan, aim: Aim) -> Plan | None:
    """Return the plan of the cure that saves most among those that need nobody's leave, None without one."""
    free = [
        cure.plan
        for late in week.late
        for cure in late.cures
        if cure.kind in FREE and cure.plan.goal(aim) < week.plan.goal(aim)
    ]
    return min(free, key=lambda plan: (plan.goal(aim), plan.total), default=None)


def _work(places: int, size: int) -> int:
    return SCANS_A_LINE * 2 * places * size


def _looked_into(late: Late, problem: WeekProblem, plan: Plan, shop: Shop, places: int) -> Late:
    case = Case(problem, plan, shop, late.line, places)
    trials = [trial for change in CHANGES for trial in change(case)]
    tried = tuple(dict.fromkeys(trial.kind for trial in trials))
    told = [
        _cure(case, trial) for trial in _best_of_each(case, trials) if _worth_telling(case, trial, trials)
    ]
    return replace(late, cures=tuple(sorted(told, key=lambda cure: (cure.late, cure.money))), tried=tried)


def _best_of_each(case: Case, trials: Iterable[Trial]) -> list[Trial]:
    best: dict[str, Trial] = {}
    for trial in trials:
        had = best.get(trial.kind)
        if not trial.timed.broken and (had is None or _worth(case, trial) < _worth(case, had)):
            best[trial.kind] = trial
    return list(best.values())


def _worth(case: Case, trial: Trial) -> tuple[int, int]:
    return case.late_in(trial.tables, trial.timed), trial.timed.total


def _worth_telling(case: Case, trial: Trial, trials: Iterable[Trial]) -> bool:
    """Whether it helps, and more, cheaper or with less late money than only putting the line ahead.

    What leaves the line late must at least make the whole plan no dearer.
    """
    late, total = _worth(case, trial)
    if late and (case.late - late < LEAST_GAIN_MIN or money(total) > case.plan.total):
        return False
    for ahead in trials:
        if ahead.kind == "order" and trial.kind != "order" and not ahead.timed.broken:
            least, price = _worth(case, ahead)
            kinder = trial.timed.lateness < ahead.timed.lateness
            return late < least or (late == least and (total < price or kinder))
    return True


def _cure(case: Case, trial: Trial) -> Cure:
    plan = checked(trial.tables, trial.timed)
    late = case.late_in(trial.tables, trial.timed)
    later, moved = _others(case, trial.tables.problem, plan)
    return Cure(
        kind=trial.kind,
        do=trial.do,
        late=late,
        less_late=case.late - late,
        money=money(trial.timed.total) - case.plan.total,
        later=later,
        moved=moved,
        plan=plan,
    )


def _others(case: Case, problem: SequenceProblem, plan: Plan) -> tuple[tuple[Later, ...], tuple[str, ...]]:
    """Return the other lines that get late or later, and those that end on a later day but in time."""
    before, after = case.ends, ends(problem, plan)
    later: list[Later] = []
    moved: list[str] = []
    for job in case.problem.jobs:
        if job.id == case.line.id or job.weight == Decimal(0):
            continue
        was, now = (max(0, found[job.id] - job.due) for found in (before, after))
        if now > was:
            later.append(Later(job.id, was, now))
        elif (after[job.id] - 1) // DAY_MIN > (before[job.id] - 1) // DAY_MIN:
            moved.append(job.id)
    return tuple(later), tuple(moved)
