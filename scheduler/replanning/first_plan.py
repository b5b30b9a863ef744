"""The plan that is published first: the best of several searches, and of mixtures of what they found.

All plans that follow hold this one, so what it costs for want of luck is paid on every day after.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from quoting.core import Effort, worked_ahead
from scheduler.sequence import (
    Mixing,
    Plan,
    Stop,
    Wanted,
    checked,
    fast_search,
    mixed_from,
    opened_in,
    solve,
    tables,
    ticks,
    timed_again,
)
from scheduler.week import WeekProblem

MORE_LUCK = 3
"""Searches more, with other luck, where nothing is published yet."""
WAYS = 4
FOR_SLACK = 6
"""One part in so many of the orders is spent on slack, as in the searches themselves."""


def first_plan(week: WeekProblem, plan: Plan, effort: Effort, seed: int, orders: int) -> Plan:
    """Return the best of a plan, of others with other luck, and of mixtures of them, which time `orders`.

    The others are of the same effort, those of a thorough one of less.
    """
    aim = week.problem.aim
    less: Effort = "quick" if effort == "quick" else "normal"
    again = [
        partial(solve, week.problem, effort=less, seed=seed + more, orders=week.hand_orders)
        for more in range(1, MORE_LUCK + 1)
    ]
    plans = sorted((plan, *worked_ahead(again)), key=lambda one: (len(one.dropped), one.goal(aim), one.total))
    best = plans[0]
    if not best.proven and len(week.works) > 1:
        mixed = _mixed(week, [one for one in plans if one.dropped == best.dropped], seed, orders)
        best = min(best, mixed, key=lambda one: (one.goal(aim), one.total))
    return replace(best, bound=min(plan.bound, best.goal(aim)))


def _mixed(week: WeekProblem, plans: Sequence[Plan], seed: int, orders: int) -> Plan:
    """Return the best mixture of plans that keep the same wishes, the best first, with its days of slack."""
    problem = week.problem.without(plans[0].dropped)
    own = [tables(problem, opened_in(plan)) for plan in plans]
    begun = [(t, timed_again(t, plan)) for t, plan in zip(own, plans, strict=True)]
    open_money = max(1, begun[0][1].total - ticks(plans[0].bound))
    t, timed = mixed_from(begun, Stop(iterations=orders), seed, Mixing(WAYS, open_money))[0]
    if problem.rates.slack:
        search = fast_search(t, timed, Stop(iterations=orders // FOR_SLACK), seed, Wanted(slack=True))
        t, timed = search.tables or t, search.best
    best = plans[0]
    return replace(checked(t, timed), method=best.method, trace=best.trace, conflicts=best.conflicts)
