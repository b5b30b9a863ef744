"""A set-up that runs past the end of a shift goes on the next morning, in no overtime that nobody works."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from quoting.shop import load_shop
from scheduler.calendar import working_days_after
from scheduler.jobs.won_lines import RollChoice
from scheduler.planning import PlanAsked, plan_week
from tests.scheduler.books.sample import LIGHT, line

SHOP = Path(__file__).parents[3] / "demo_orders" / "shop"


def test_every_set_up_has_its_minutes_in_worked_time() -> None:
    lines = [
        line(
            f"L-{n}",
            LIGHT,
            choices=(RollChoice(LIGHT, 430.0, 0.0),),
            diameter_mm=400.0 + 20 * n,
            plates=(),
        )
        for n in range(2)
    ]
    week = plan_week(PlanAsked(lines, (), load_shop(SHOP), date(2026, 11, 30)), effort="quick")
    crossing = 0
    for slot in week.on(LIGHT):
        worked = [
            min(slot.setup_end, stretch.end) - max(slot.setup_start, stretch.start)
            for stretch in week.open_times[LIGHT]
            if stretch.start < slot.setup_end and stretch.end > slot.setup_start
        ]
        crossing += slot.setup_start.date() != slot.setup_end.date()
        assert sum(worked, timedelta()) == timedelta(minutes=slot.setup_minutes)
    assert crossing, "no set-up runs into the next morning, so nothing was tried"


def test_lead_days_are_working_days() -> None:
    """Ordered on a Friday, one day is Monday; the holidays of the demo's book are passed over."""
    shop = load_shop(SHOP)
    assert working_days_after(date(2026, 12, 4), 1, shop) == date(2026, 12, 7)
    assert working_days_after(date(2026, 12, 23), 1, shop) == date(2027, 1, 4)
    assert working_days_after(date(2026, 12, 4), 0, shop) == date(2026, 12, 4)
