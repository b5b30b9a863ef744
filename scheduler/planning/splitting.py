"""Lines of several parts in two lots where the plan then costs enough less, unasked.

Tried are the late lines themselves, and for each of them the longest line of several parts that is rolled
before it on its roll: when that one is stopped half way the late line comes in between, which pays where its
plate or its approval comes too late to go ahead of the whole batch. Each try times the present order with
the lots and brings the late line forward (see `cures.split`); the dearest late lines are looked into first.
Then the week is solved once more with the lots, and all of it counts only when every split saves what the
shop asks for: a batch rolled at once is less work to move, mark and count, which no set-up minute shows.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.core import Effort
from quoting.shop import Shop
from scheduler.cures import EFFORTS, Case, InLots, able, two_lots
from scheduler.jobs import ROLL, WonLine
from scheduler.planning.solve_asked import PlanAsked, solved
from scheduler.sequence import (
    Aim,
    NoPlanError,
    Plan,
    aim_rank,
    bring_forward,
    checked,
    latest_jobs,
    opened_in,
    tables,
    time_again,
    timed_again,
)
from scheduler.week import WeekProblem
from scheduler.wishes import LineSplit

MOST_SPLITS: Mapping[Effort, int] = {"quick": 1, "normal": 3, "thorough": 8}


@dataclass(frozen=True, slots=True)
class _Found:
    """A line to split and the week planned with it and those before it in two lots."""

    line: WonLine
    split: LineSplit
    week: WeekProblem
    plan: Plan


def in_lots_where_it_pays(
    asked: PlanAsked, week: WeekProblem, plan: Plan, effort: Effort, seed: int
) -> tuple[WeekProblem, Plan, tuple[str, ...]]:
    """Return the week and its plan, with lines in two lots where that pays, and which ones in words.

    `week` and `plan` are what `asked` was solved to. They come back as they are when nothing pays.
    """
    book, aim = asked.shop.working_time, asked.aim
    found = _tried(asked, week, plan, effort) if book.batches_may_split else []
    if not found:
        return week, plan, ()
    best_week, best = found[-1].week, found[-1].plan
    other_week, other = solved(asked.also_split([one.split for one in found]), effort, seed, best)
    same = (other.dropped, other_week.missed, len(other_week.unplanned)) == (
        plan.dropped,
        week.missed,
        len(week.unplanned),
    )
    if same and (other.goal(aim), other.total) <= (best.goal(aim), best.total):
        best_week, best = other_week, other
    elif same:
        best = replace(best, bound=min(other.bound, best.goal(aim)))
    saved = plan.goal(aim) - best.goal(aim)
    if saved < book.least_split_saving * len(found):
        return week, plan, ()
    return best_week, replace(best, conflicts=plan.conflicts), (_words(found, saved, asked),)


def _tried(asked: PlanAsked, week: WeekProblem, plan: Plan, effort: Effort) -> list[_Found]:
    """Return the splits that pay one after the other."""
    found: list[_Found] = []
    while len(found) < MOST_SPLITS[effort]:
        best = _best_split(asked.shop, week, plan, effort)
        if best is None:
            break
        line, lots = best
        split = LineSplit(line.id, "", lots.first)
        more = asked.also_split([*(one.split for one in found), split])
        now = more.problem(week.unplanned, week.missed)
        try:
            timed = time_again(now.problem.without(plan.dropped), checked(lots.tables, lots.timed))
        except NoPlanError:
            break
        if plan.goal(asked.aim) - timed.goal(asked.aim) < asked.shop.working_time.least_split_saving:
            break
        week, plan = now, replace(timed, conflicts=plan.conflicts)
        found.append(_Found(line, split, week, plan))
    return found


def _best_split(shop: Shop, week: WeekProblem, plan: Plan, effort: Effort) -> tuple[WonLine, InLots] | None:
    """Return the one split with which the plan is best; None when none makes it better."""
    most, places = EFFORTS[effort].for_size(len(week.works))
    t = tables(week.problem.without(plan.dropped), opened_in(plan))
    now = timed_again(t, plan)
    best, found = now.score, None
    for job in latest_jobs(t, now)[:most]:
        for line in _to_split(week, plan, t.problem.jobs[job].id):
            for lots in two_lots(Case(week, plan, shop, line, places)):
                timed = bring_forward(lots.tables, lots.timed, job, places, aim_rank)
                if timed.score < best:
                    best, found = timed.score, (line, replace(lots, timed=timed))
    return found


def _to_split(week: WeekProblem, plan: Plan, late: str) -> Iterator[WonLine]:
    """Yield the late line and the longest line of several parts that is rolled before it on its roll."""
    rolled = {
        work.operation.id: work.line for work in week.works if work.line is not None and work.kind == ROLL
    }
    several = {name: line for name, line in rolled.items() if able(week, line)}
    for name in [name for name, line in rolled.items() if line.id == late]:
        if name in several:
            yield several[name]
        at = plan.of(name)
        ahead = [one for one in plan.on(at.machine) if one.start < at.start and one.operation in several]
        if ahead:
            longest = max(ahead, key=lambda one: (one.end - one.start, -one.start))
            yield several[longest.operation]


def _words(found: Sequence[_Found], saved: Decimal, asked: PlanAsked) -> str:
    told = " and ".join(f"{one.line.id} ({one.split.first} of {one.line.quantity} first)" for one in found)
    of = "" if asked.aim is Aim.MONEY else " of late money"
    return (
        f"In two lots: {told}. That saves {saved:,.2f} {asked.shop.rates.currency}{of} "
        "(wish against it: keep_whole)."
    )
