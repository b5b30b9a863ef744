"""From won lines to the planned week: the problem, its solution, and both put on the calendar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from quoting.core import Effort
from quoting.shop import Shop
from scheduler.jobs import PlateToCut, WonLine
from scheduler.planning.best_plan import best_of_efforts
from scheduler.planning.holds_back import holds_back_words
from scheduler.planning.on_calendar import on_calendar
from scheduler.planning.solve_asked import PlanAsked, far_enough
from scheduler.sequence import Aim, compare
from scheduler.week import WeekPlan
from scheduler.wishes import NO_WISHES, Wishes, check_wishes


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

    Lines of several parts are rolled in two lots where the shop lets them and the plan costs enough less.
    Lines that no roll can do are left out and named, and so is what finds no place at all; the plan reaches
    as far ahead as the work needs. Wishes that
    cannot be kept are given up and named in the notes; everything else is planned. Raises InputError for a
    calendar without a shift and for a wish about a line or roll that is not there or a time before `start`.
    """
    rolls, to_cut = [roll.name for roll in shop.rolls], [plate.id for plate in plates]
    check_wishes(wishes, lines, rolls, to_cut, start)
    asked = far_enough(PlanAsked(lines, plates, shop, start, wishes, aim))
    found = best_of_efforts(asked, effort, seed)
    savings = compare(found.week.problem.without(found.plan.dropped), found.plan, found.week.hand_orders)
    week = on_calendar(found.week, found.plan, savings, shop, start)
    fullest = holds_back_words(found.week, found.plan, effort, shop.rates.currency)
    return replace(week, late=found.late, notes=(*week.notes, *found.said), fullest=fullest)
