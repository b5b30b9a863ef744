"""From won lines to the planned week: the problem, its solution, and both put on the calendar."""

from __future__ import annotations

from dataclasses import replace

from quoting.core import Effort
from scheduler.planning.best_plan import best_of_efforts
from scheduler.planning.holds_back import holds_back_words
from scheduler.planning.on_calendar import on_calendar
from scheduler.planning.solve_asked import PlanAsked, far_enough
from scheduler.sequence import compare
from scheduler.week import WeekPlan
from scheduler.wishes import check_wishes


def plan_week(week_asked: PlanAsked, *, effort: Effort = "normal", seed: int = 0) -> WeekPlan:
    """Return the checked plan of the lines asked for, from the morning of its start.

    Lines of several parts are rolled in two lots where the shop lets them and the plan costs enough less.
    Lines that no roll can do are left out and named, and so is what finds no place at all; the plan reaches
    as far ahead as the work needs. Wishes that
    cannot be kept are given up and named in the notes; everything else is planned. Raises InputError for a
    calendar without a shift and for a wish about a line or roll that is not there or a time before the start.
    """
    shop, start = week_asked.shop, week_asked.start
    rolls, to_cut = [roll.name for roll in shop.rolls], [plate.id for plate in week_asked.plates]
    check_wishes(week_asked.wishes, week_asked.lines, rolls, to_cut, start)
    asked = far_enough(week_asked)
    found = best_of_efforts(asked, effort, seed)
    savings = compare(found.week.problem.without(found.plan.dropped), found.plan, found.week.hand_orders)
    week = on_calendar(found.week, found.plan, savings, shop, start)
    fullest = holds_back_words(found.week, found.plan, effort, shop.rates.currency)
    return replace(week, late=found.late, notes=(*week.notes, *found.said), fullest=fullest)
