"""A plan pinned to itself is that plan: every line on its own roll at its own minute, the money the same."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from random import Random

import pytest

from quoting.shop import Family, Shop
from scheduler.jobs import PlateToCut, WonLine
from scheduler.jobs.won_lines import RollChoice
from scheduler.planning import PlanAsked, plan_week
from scheduler.sequence.solve import BUDGETS
from scheduler.week import WeekPlan
from scheduler.wishes import LinePin, LineSplit, Wishes
from tests.scheduler.conftest import won

MONDAY = date(2026, 11, 30)
ROLLS = ("Heavy 10 ft", "Medium 10 ft", "Light 5 ft")


def invented_week(seed: int, lines: int) -> tuple[list[WonLine], list[PlateToCut]]:
    """Return an invented week: too much work for its dates, late plates, shells that are rolled again."""
    chance = Random(seed)
    plates: list[PlateToCut] = []
    made: list[WonLine] = []
    for k in range(lines):
        thick = chance.choice((4.76, 6.35, 9.525, 12.7))
        minutes, days = chance.randrange(10, 60), chance.choice((0, 0, 2, 4))
        plate = PlateToCut(f"P-{k} #1", "A36", thick, "thermal", minutes, days)
        plates.append(plate)
        quantity = chance.choice((1, 1, 2, 4))
        again = chance.random() < 0.3
        rolling = quantity * chance.uniform(20, 90)
        choices = [
            RollChoice(roll, rolling * chance.uniform(1, 1.3) + 25 * again, 25.0 * again)
            for roll in chance.sample(ROLLS, chance.choice((1, 2, 3)))
        ]
        made.append(
            won(
                f"A-{k}",
                quantity=quantity,
                thickness_mm=thick,
                family=chance.choice((Family.CARBON, Family.CARBON, Family.STAINLESS)),
                diameter_mm=chance.choice((500.0, 600.0, 900.0)),
                due=MONDAY + timedelta(days=chance.randrange(2, 9)),
                crew=chance.choice((1, 2)),
                crane=chance.random() < 0.5,
                re_round=again,
                plates=(plate.id,),
                choices=tuple(choices),
                blanks_on={plate.id: quantity},
            )
        )
    return made, plates


def _pinned(week: WeekPlan) -> Wishes:
    """Return wishes that hold every line where the plan has it, lots as they are."""
    splits: list[LineSplit] = []
    pins: list[LinePin] = []
    for slot in week.slots:
        line = slot.line
        if line is None or slot.work.kind != "roll":
            continue
        if line.lot is not None and line.lot.number == 1:
            splits.append(LineSplit(line.id, "", line.lot.parts))
        lot = line.lot.number if line.lot else None
        pins.append(LinePin(line.id, "", slot.machine, slot.start, lot=lot))
    return Wishes("pins", tuple(pins), splits=tuple(splits))


@pytest.mark.parametrize("seed", [0, 2, 3, 4])
def test_a_plan_pinned_to_itself_comes_back_with_its_money(
    shop: Shop, seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    short = replace(BUDGETS["quick"], timed=500_000)  # the plan need not be good to be kept
    monkeypatch.setitem(BUDGETS, "quick", short)
    lines, plates = invented_week(seed, 10 + 2 * seed)
    asked = PlanAsked(lines, plates, shop, MONDAY)
    plan = plan_week(asked, effort="quick")
    again = plan_week(replace(asked, wishes=_pinned(plan)), effort="quick")
    assert not again.given_up
    assert again.plan.total == plan.plan.total
    assert again.plan.assignments == plan.plan.assignments
    assert again.plan.overtime == plan.plan.overtime


def test_pins_that_the_plan_would_not_keep_are_kept_all_the_same(shop: Shop) -> None:
    lines, plates = invented_week(3, 12)
    asked = PlanAsked(lines, plates, shop, MONDAY)
    plan = plan_week(asked, effort="quick")
    first = min((s for s in plan.slots if s.line and s.work.kind == "roll"), key=lambda s: s.start)
    assert first.line is not None
    soonest = first.start + timedelta(days=2)
    later = LinePin(first.line.id, "", not_before=soonest)
    pinned = plan_week(replace(asked, wishes=Wishes("pins", (later,))), effort="quick")
    assert all(s.start >= soonest for s in pinned.slots if s.line and s.line.id == first.line.id)
    assert pinned.plan.total >= plan.plan.total * 99 / 100
