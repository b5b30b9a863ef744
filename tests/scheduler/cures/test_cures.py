"""What would cure a late line: found, priced, and true when it is really done."""

from __future__ import annotations

import random
import re
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from decimal import Decimal

import pytest

from quoting.shop import Shift, Shop
from scheduler.cures import best_words, others_words, outcome_words, price_words, with_cures
from scheduler.cures.late_case import ends
from scheduler.cures.look_for_cures import Look
from scheduler.jobs import DAY_MIN, PlateToCut, WonLine
from scheduler.jobs.won_lines import RollChoice
from scheduler.planning import PlanAsked, plan_week
from scheduler.sequence import time_again
from scheduler.sequence.checker import check
from scheduler.week import Cure, Late, WeekPlan, schedule_record, week_problem
from scheduler.wishes import NO_WISHES, LineSplit, Wishes
from scheduler.wishes.wish_kinds import LinePin, ShipDate
from tests.scheduler.conftest import PLATE, won

MONDAY = date(2026, 11, 30)
MEDIUM, HEAVY = "Medium 10 ft", "Heavy 10 ft"


def on(minutes: float, *rolls: str) -> tuple[RollChoice, ...]:
    return tuple(RollChoice(roll, minutes, 0.0) for roll in rolls or (MEDIUM,))


def kinds(late: Late) -> list[str]:
    return [cure.kind for cure in late.cures]


def test_overtime_cures_a_day_that_is_a_little_too_full(shop: Shop) -> None:
    lines = [won(name, due=MONDAY, choices=on(240.0), plates=()) for name in ("A-1", "A-2")]
    week = plan_week(PlanAsked(lines, [], shop, MONDAY), effort="quick")
    (late,) = week.late
    cure = next(cure for cure in late.cures if cure.kind == "overtime")
    assert cure.on_time
    assert cure.do == "work overtime Mon 30 Nov 15:30 to 17:30 on Medium 10 ft"
    assert cure.later == ()
    assert cure.money > 0
    assert cure.plan.cost.overtime > 0
    told = schedule_record(week).late[0]
    assert told.tried == late.tried
    entry = next(entry for entry in told.cures if entry.kind == "overtime")
    assert (entry.do, entry.on_time, entry.late_minutes) == (cure.do, True, 0)
    assert entry.money == cure.money
    (hurt,) = next(entry for entry in told.cures if entry.kind == "order").later
    assert hurt.late_minutes_before == 0 < hurt.late_minutes
    ahead = next(cure for cure in late.cures if cure.kind == "order")
    (other,) = {"A-1", "A-2"} - {late.line.id}
    assert ahead.do == f"put it ahead of {other} on Medium 10 ft (wish: must ship Mon 30 Nov)"
    assert [later.line for later in ahead.later] == [other]


def test_only_the_sooner_plate_cures_a_line_whose_plate_comes_late(shop: Shop) -> None:
    line = won("A-1", due=date(2026, 12, 2), choices=on(40.0))
    week = plan_week(PlanAsked([line], [replace(PLATE, here_in_days=7)], shop, MONDAY), effort="quick")
    (late,) = week.late
    assert kinds(late) == ["plate"]
    assert set(late.tried) == {"order", "overtime", "Saturday", "plate"}
    (cure,) = late.cures
    assert cure.do == "have plate P-1 #1 in by Wed 2 Dec instead of Mon 7 Dec, 3 working days sooner"
    assert cure.on_time
    assert -cure.money == week.plan.cost.lateness
    assert price_words(cure, "USD").endswith("sooner plate not counted")


def test_dropping_a_pin_cures_the_line_it_holds_back(shop: Shop) -> None:
    pin = LinePin("A-1", "[[pin]] number 1", not_before=datetime(2026, 12, 3, 7))
    wishes = Wishes("wishes.toml", (pin,))
    line = won("A-1", due=date(2026, 12, 1), choices=on(40.0), plates=())
    week = plan_week(PlanAsked([line], [], shop, MONDAY, wishes=wishes), effort="quick")
    (late,) = week.late
    assert kinds(late) == ["wish"]
    assert late.cures[0].do == "drop the wish: A-1 not before Thu 3 Dec 07:00"
    assert "drop the wish" in best_words(late, "USD")


@pytest.mark.slow
def test_a_pin_on_another_line_is_dropped_too_but_not_what_runs_now(shop: Shop) -> None:
    first = LinePin("A-2", "[[pin]] number 1", start=datetime(2026, 11, 30, 9))
    lines = [
        won("A-1", due=MONDAY, choices=on(380.0), plates=()),
        won("A-2", due=date(2026, 12, 18), choices=on(200.0), plates=()),
    ]
    week = plan_week(PlanAsked(lines, [], shop, MONDAY, wishes=Wishes("w", (first,))), effort="quick")
    (late,) = week.late
    assert "wish" in kinds(late)
    now = Wishes("w", (LinePin("A-2", "[[pin]] number 1", running=True),))
    (late,) = plan_week(PlanAsked(lines, [], shop, MONDAY, wishes=now), effort="quick").late
    assert "wish" not in late.tried


def test_another_roll_cures_a_queue(shop: Shop) -> None:
    dear = replace(shop, rolls=tuple(replace(roll, rate_per_hour=_dear(roll.name)) for roll in shop.rolls))
    both = {"choices": on(300.0, MEDIUM, HEAVY), "crew": 1, "crane": False, "plates": (), "due": MONDAY}
    week = plan_week(
        PlanAsked([won(name, **both) for name in ("A-1", "A-2")], [], dear, MONDAY), effort="quick"
    )
    cure = next(cure for cure in week.late[0].cures if cure.kind == "roll")
    assert (cure.on_time, cure.do) == (True, "roll it on Heavy 10 ft instead of Medium 10 ft")
    assert cure.plan.cost.running > 0


def _dear(roll: str) -> Decimal:
    return Decimal(400) if roll == HEAVY else Decimal(60)


def test_two_lots_cure_a_line_whose_last_plate_comes_late(shop: Shop) -> None:
    plates = [replace(PLATE, id="P-1 #1"), replace(PLATE, id="B-1 #1", here_in_days=2)]
    line = won(
        "A-1",
        quantity=4,
        due=date(2026, 12, 2),
        choices=on(500.0),
        plates=("P-1 #1", "B-1 #1"),
        blanks_on={"P-1 #1": 3, "B-1 #1": 1},
    )
    (late,) = plan_week(PlanAsked([line], plates, shop, MONDAY), effort="quick").late
    cure = next(cure for cure in late.cures if cure.kind == "split")
    assert cure.on_time
    assert cure.do == "roll it in two lots, 3 of 4 first and the rest later (wish: split)"
    assert cure.plan.of("roll A-1 lot 1").start < 2 * DAY_MIN <= cure.plan.of("roll A-1 lot 2").start


def test_two_lots_cure_a_line_that_is_too_long_for_one_roll(shop: Shop) -> None:
    more = {"quantity": 5, "plates": (), "crew": 1, "crane": False}
    line = won("A-1", due=MONDAY, choices=on(700.0, MEDIUM, HEAVY), **more)
    (late,) = plan_week(PlanAsked([line], [], shop, MONDAY), effort="quick").late
    (cure,) = late.cures
    assert (cure.kind, cure.on_time) == ("split", True)
    assert re.fullmatch(r"roll it in two lots, 3 of 5 on \w+ 10 ft and 2 on \w+ 10 ft .wish: split.", cure.do)


def test_nothing_cures_a_line_that_is_longer_than_its_time(shop: Shop) -> None:
    line = won("A-1", due=MONDAY, choices=on(900.0), plates=())
    (late,) = plan_week(PlanAsked([line], [], shop, MONDAY), effort="quick").late
    assert late.cures == ()
    assert best_words(late, "USD") == "no change tried cures it (tried: putting it ahead, overtime)"


def test_a_look_without_work_looks_into_nothing_and_says_so(shop: Shop) -> None:
    line = won("A-1", due=MONDAY, choices=on(900.0), plates=())
    week = plan_week(PlanAsked([line], [], shop, MONDAY), effort="quick")
    problem = week_problem([line], [], shop, MONDAY)
    bare = replace(week, late=tuple(replace(late, tried=()) for late in week.late))
    untouched = with_cures(bare, problem, shop, Look(lines=3, places=8, timed=0))
    assert untouched.late[0].tried == ()
    assert best_words(untouched.late[0], "USD") == ""


def test_a_cure_in_words() -> None:
    cure = Cure("roll", "roll it there", 30, 90, Decimal("12.5"), (), ("A-3",), None)  # type: ignore[arg-type]
    assert outcome_words(cure) == "1 h 30 min less late, still 30 min"
    assert price_words(cure, "USD") == "costs 12.50 USD"
    assert others_words(cure) == "1 other a day or more later, in time"
    assert price_words(replace(cure, money=Decimal(0)), "USD") == "costs nothing"
    assert others_words(replace(cure, moved=())) == "no other line suffers"


def busy(seed: int) -> tuple[list[WonLine], list[PlateToCut]]:
    """Eight lines for a few days on two rolls, some of them with a plate that comes later."""
    chance = random.Random(seed)
    lines, plates = [], []
    for number in range(1, 9):
        rolls = chance.choice(((MEDIUM,), (HEAVY,), (MEDIUM, HEAVY)))
        plate = replace(PLATE, id=f"P-{number} #1", here_in_days=chance.choice((0, 0, 0, 0, 1, 2)))
        line = won(
            f"A-{number}",
            due=MONDAY + timedelta(days=chance.choice((0, 1, 2, 3))),
            quantity=chance.choice((1, 1, 2, 5)),
            thickness_mm=chance.choice((6.35, 9.525, 12.7)),
            diameter_mm=chance.choice((600.0, 700.0)),
            choices=on(chance.choice((90.0, 180.0, 280.0)), *rolls),
            plates=(plate.id,),
        )
        lines.append(line)
        plates.append(plate)
    return lines, plates


def _really_done(cure: Cure, late: Late, lines: list[WonLine], plates: list[PlateToCut], shop: Shop) -> int:
    """Change what the cure says in what the plan is made from, plan on from the cure, return minutes late."""
    wishes = NO_WISHES
    if cure.kind == "order" and cure.on_time:
        wishes = Wishes("w", ships=(ShipDate(late.line.id, "", late.due),))
    elif cure.kind == "Saturday":
        saturday = Shift(
            (5,), time(7), time(15, 30), ((time(9, 30), time(9, 45)), (time(12), time(12, 30))), 3
        )
        hours = replace(shop.working_time, shifts=(*shop.working_time.shifts, saturday))
        shop = replace(shop, working_time=hours)
        cure = replace(cure, plan=replace(cure.plan, overtime=()))
    elif cure.kind == "split":
        parts = re.search(r"two lots, (\d+) of", cure.do)
        assert parts is not None
        wishes = Wishes("w", splits=(LineSplit(late.line.id, "", int(parts[1])),))
    elif cure.kind == "roll":
        roll = cure.plan.of(f"roll {late.line.id}").machine
        own = tuple(choice for choice in late.line.choices if choice.roll == roll)
        lines = [replace(line, choices=own) if line.id == late.line.id else line for line in lines]
    elif cure.kind == "plate":
        cut = {plate: cure.plan.of(f"cut {plate}").start // DAY_MIN for plate in late.line.plates}
        plates = [replace(p, here_in_days=min(p.here_in_days, cut.get(p.id, p.here_in_days))) for p in plates]
    problem = week_problem(lines, plates, shop, MONDAY, wishes).problem
    plan = time_again(problem, cure.plan)
    assert check(problem, plan) == ()
    due = next(job.due for job in problem.jobs if job.id == late.line.id)
    return max(0, ends(problem, plan)[late.line.id] - due)


@pytest.fixture(scope="module")
def busy_weeks(shop: Shop) -> list[tuple[list[WonLine], list[PlateToCut], WeekPlan]]:
    made = [busy(seed) for seed in (2, 5, 22, 36)]
    return [(*week, plan_week(PlanAsked(*week, shop, MONDAY), effort="quick")) for week in made]


@pytest.mark.slow
def test_a_cure_does_what_it_says_when_it_is_really_done(
    shop: Shop, busy_weeks: list[tuple[list[WonLine], list[PlateToCut], WeekPlan]]
) -> None:
    seen: set[str] = set()
    for lines, plates, week in busy_weeks:
        for late in week.late:
            for cure in late.cures:
                assert _really_done(cure, late, lines, plates, shop) <= cure.late, (late.line.id, cure.do)
                assert cure.money == cure.plan.total - week.plan.total
                assert cure.on_time or cure.money <= 0
                seen.add(cure.kind)
    assert {"order", "overtime", "roll", "plate"} <= seen


@pytest.mark.slow
def test_the_same_week_gets_the_same_cures(shop: Shop) -> None:
    first, again = (plan_week(PlanAsked(*busy(3), shop, MONDAY), effort="quick") for _ in range(2))
    assert first.late == again.late
