"""Wishes that the plan keeps anyway: what is best without them is best with them.

Someone who pins every line of a plan where that plan has it asks for that plan. The plan made without the
pins, by the same search, is that one, with all that no pin can say: re-rounds, cuts and overtime elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from scheduler.planning.solve_asked import PlanAsked
from scheduler.sequence import Plan, faults_of
from scheduler.week import WeekProblem


def without_order(asked: PlanAsked) -> Iterator[PlanAsked]:
    """Yield what is asked without its pins, first also without its lots where the shop may find them itself.

    What is running now stays, since it is no wish. Nothing comes where nothing is pinned.
    """
    wishes = asked.wishes
    running = tuple(pin for pin in wishes.pins if pin.running)
    if running == wishes.pins:
        return
    if wishes.splits and asked.shop.working_time.batches_may_split:
        yield replace(asked, wishes=replace(wishes, pins=running, splits=()))
    yield replace(asked, wishes=replace(wishes, pins=running))


def week_that_keeps(asked: PlanAsked, week: WeekProblem, plan: Plan) -> WeekProblem | None:
    """Return the week with all that is asked where a plan made with less keeps that too, else None."""
    wished = asked.problem(week.unplanned, week.missed)
    if wished.problem.operations != week.problem.operations or faults_of(wished.problem, plan):
        return None
    return wished
