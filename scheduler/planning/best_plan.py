"""The best plan of an effort: each effort begins where the one before it ended, so that more is never dearer.

What would cure a late line at no cost, and saves money, is no offer to be printed but a worse plan: it is
done first.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import get_args

from quoting.core import Effort
from scheduler.cures import EFFORTS, free_cures, with_cures
from scheduler.planning.kept_anyway import week_that_keeps, without_order
from scheduler.planning.on_calendar import on_calendar
from scheduler.planning.solve_asked import PlanAsked, solved
from scheduler.planning.splitting import in_lots_where_it_pays
from scheduler.sequence import Plan
from scheduler.week import Late, WeekProblem

MOST_CURES = 12
"""Free cures that are done one after the other at most."""


@dataclass(frozen=True, slots=True)
class BestPlan:
    """A week, its plan, in words what was done to it unasked, and its late lines looked into."""

    week: WeekProblem
    plan: Plan
    said: tuple[str, ...]
    late: tuple[Late, ...] = ()


def best_of_efforts(asked: PlanAsked, effort: Effort, seed: int) -> BestPlan:
    """Return the best plan of this effort and of all lesser ones.

    Where the plan made without the pins keeps them, it is the one.
    """
    free: BestPlan | None = None
    kept: BestPlan | None = None
    for less in without_order(asked):
        for free in _each_effort(less, effort, seed):
            week = week_that_keeps(asked, free.week, free.plan)
            kept = kept if week is None else replace(free, week=week, said=())
        assert free is not None
        if kept is not None and kept.plan is free.plan:
            return _cured(asked, kept, effort, most=0)
    found = _last(_each_effort(asked, effort, seed, free))
    if kept is None or _rank(asked, found) <= _rank(asked, kept):
        return found
    return _cured(asked, kept, effort, most=0)


def _each_effort(
    asked: PlanAsked, effort: Effort, seed: int, known: BestPlan | None = None
) -> Iterator[BestPlan]:
    """Yield the best plan so far of each effort up to this one; the first begins with what is known."""
    best: BestPlan | None = None
    whole = known.plan if known is not None else None
    for one in get_args(Effort)[: get_args(Effort).index(effort) + 1]:
        week, whole = solved(asked, one, seed, whole)
        found = _cured(asked, BestPlan(*in_lots_where_it_pays(asked, week, whole, one, seed)), one)
        if best is None or _rank(asked, found) < _rank(asked, best):
            best = found
        else:
            best = _cured(asked, _on_bound(best, found.plan.bound, asked), one)
        yield best


def _last(found: Iterator[BestPlan]) -> BestPlan:
    *_, last = found
    return last


def _rank(asked: PlanAsked, found: BestPlan) -> tuple[int, Decimal, Decimal]:
    given_up = len(found.plan.dropped) + len(found.week.missed) + len(found.week.unplanned)
    return given_up, found.plan.goal(asked.aim), found.plan.total


def _on_bound(best: BestPlan, bound: Decimal, asked: PlanAsked) -> BestPlan:
    """Return the plan with the better bound of a later search, where both are for the same work."""
    if best.said:
        return best
    goal = best.plan.goal(asked.aim)
    bound = min(max(bound, best.plan.bound), goal)
    return replace(best, plan=replace(best.plan, bound=bound, proven=bound >= goal))


def _cured(asked: PlanAsked, found: BestPlan, effort: Effort, most: int = MOST_CURES) -> BestPlan:
    """Return the plan with the cures done, `most` of them, that cost nothing and ask nobody."""
    for tries in range(most + 1):
        week = on_calendar(found.week, found.plan, (), asked.shop, asked.start)
        week = with_cures(week, found.week, asked.shop, EFFORTS[effort])
        found = replace(found, late=week.late)
        plan = free_cures(week, asked.aim)
        if plan is None or tries == most:
            break
        bound = min(found.plan.bound, plan.goal(asked.aim))
        kept = replace(plan, bound=bound, conflicts=found.plan.conflicts, trace=found.plan.trace)
        found = replace(found, plan=kept)
    return found
