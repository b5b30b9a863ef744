"""From won lines to the planned week: the problem, its solution, and both put on the calendar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from quoting.core import Effort
from quoting.shop import Shop
from scheduler.cures import EFFORTS, with_cures
from scheduler.jobs import PlateToCut, ShopOperation, WonLine
from scheduler.planning.on_calendar import on_calendar
from scheduler.planning.solve_asked import PlanAsked, solved
from scheduler.planning.splitting import in_lots_where_it_pays
from scheduler.sequence import Aim, compare
from scheduler.week import WeekPlan
from scheduler.wishes import NO_WISHES, Wishes, check_wishes

THICKNESS_ORDER = "thickness order"


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
    Lines that no roll can do, or that do not fit into the shop's horizon, are left out and named; wishes that
    cannot be kept are given up and named in the notes; everything else is planned. Raises InputError for a
    calendar without a shift and for a wish about a line or roll that is not there or a time before `start`.
    """
    check_wishes(wishes, lines, [roll.name for roll in shop.rolls], start)
    asked = PlanAsked(lines, plates, shop, start, wishes, aim)
    week, plan, said = in_lots_where_it_pays(asked, *solved(asked, effort, seed), effort, seed)
    savings = compare(
        week.problem.without(plan.dropped), plan, {THICKNESS_ORDER: _thickness_keys(week.works)}
    )
    found = on_calendar(week, plan, savings, shop, start)
    found = replace(found, notes=(*found.notes, *said))
    return with_cures(found, week, shop, EFFORTS[effort])


def _thickness_keys(works: Sequence[ShopOperation]) -> dict[str, float]:
    return {
        work.operation.id: work.line.thickness_mm
        if work.line
        else work.plate.thickness_mm
        if work.plate
        else 0.0
        for work in works
    }
