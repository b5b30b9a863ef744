"""The scheduler's wishes: read, checked, kept, and named in words when they cannot be."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from quoting.core import InputError
from quoting.shop import Shop
from scheduler.books.worth import proof_words
from scheduler.jobs.won_lines import RollChoice
from scheduler.planning import PlanAsked, plan_week
from scheduler.sequence import Aim
from scheduler.week import WeekPlan, schedule_record
from scheduler.wishes import Wishes, check_wishes, read_wishes
from scheduler.wishes.wish_kinds import LinePin, ShipDate
from tests.scheduler.conftest import PLATE, won

MONDAY = date(2026, 11, 30)
PRICE = Decimal(40)
ROLLS = ("Light 5 ft", "Medium 10 ft", "Heavy 10 ft")
BOTH = (RollChoice("Medium 10 ft", 40.0, 0.0), RollChoice("Heavy 10 ft", 50.0, 0.0))
LINES = (won("A-1", choices=BOTH), won("A-2", thickness_mm=9.525), won("A-3", diameter_mm=700.0))


@pytest.fixture
def write(tmp_path: Path) -> Path:
    return tmp_path / "wishes.toml"


def planned(write: Path, text: str, shop: Shop) -> WeekPlan:
    write.write_text(text)
    return plan_week(PlanAsked(LINES, [PLATE], shop, MONDAY, wishes=read_wishes(write)), effort="quick")


def refused(write: Path, text: str) -> str:
    write.write_text(text)
    with pytest.raises(InputError) as caught:
        check_wishes(read_wishes(write), LINES, ROLLS, [PLATE.id], MONDAY)
    return str(caught.value)


def test_pins_and_must_ship_dates_are_kept(write: Path, shop: Shop) -> None:
    text = """
    [[pin]]
    line = "A-1"
    roll = "Heavy 10 ft"
    start = 2026-12-02T09:00:00
    [[pin]]
    line = "A-3"
    not_before = "2026-12-01 10:30"
    before = "A-2"
    [[must_ship]]
    line = "A-2"
    date = 2026-12-03
    """
    week = planned(write, text, shop)
    slots = {slot.line.id: slot for slot in week.slots if slot.line}
    assert (slots["A-1"].machine, slots["A-1"].start) == ("Heavy 10 ft", datetime(2026, 12, 2, 9))
    assert slots["A-3"].start >= datetime(2026, 12, 1, 10, 30)
    assert slots["A-2"].start >= slots["A-3"].end
    assert week.finish_of("A-2").date() <= date(2026, 12, 3)
    assert week.notes == ()


def test_what_runs_now_comes_first_without_set_up_and_its_plate_is_cut(write: Path, shop: Shop) -> None:
    week = planned(write, '[[pin]]\nline = "A-2"\nrunning = true', shop)
    first = week.on("Medium 10 ft")[0]
    assert (first.work.operation.id, first.start) == ("roll A-2", first.setup_start)
    assert week.plan.of("roll A-2").setup_minutes == 0
    assert [slot for slot in week.slots if slot.work.plate] == []


def test_of_what_runs_now_only_the_minutes_left_are_planned(write: Path, shop: Shop) -> None:
    pin = '[[pin]]\nline = "A-1"\nroll = "Heavy 10 ft"\nrunning = true'
    all_of_it = planned(write, pin, shop).on("Heavy 10 ft")[0]
    rest = planned(write, f"{pin}\nminutes_left = 17", shop).on("Heavy 10 ft")[0]
    assert (all_of_it.run_minutes, all_of_it.setup_minutes) == (50, 0)
    assert (rest.run_minutes, rest.setup_minutes) == (17, 0)
    assert rest.end - rest.start == timedelta(minutes=17)
    exact = planned(write, f"{pin}\nminutes_left = 50", shop).on("Heavy 10 ft")[0]
    assert exact.run_minutes == 50


def test_what_is_left_is_whole_minutes_before_the_welding(write: Path, shop: Shop) -> None:
    again = won("A-1", re_round=True, choices=(RollChoice("Medium 10 ft", 52.3, 12.3),))
    write.write_text('[[pin]]\nline = "A-1"\nrunning = true\nminutes_left = 33')
    week = plan_week(PlanAsked([again], [PLATE], shop, MONDAY, wishes=read_wishes(write)), effort="quick")
    assert [slot.run_minutes for slot in week.on("Medium 10 ft")] == [33, 13]


@pytest.mark.slow
def test_a_conflict_is_said_with_clock_times_and_the_rest_is_planned(write: Path, shop: Shop) -> None:
    text = """
    [[pin]]
    line = "A-1"
    before = "A-2"
    [[pin]]
    line = "A-2"
    before = "A-1"
    [[pin]]
    line = "A-3"
    start = "2026-12-01 03:00"
    """
    week = planned(write, text, shop)
    assert sorted(line.id for line in week.lines) == ["A-1", "A-2", "A-3"]
    assert sorted(week.notes) == [
        "No plan can keep this wish, so it was given up: A-3 starts Tue 1 Dec 03:00. "
        "Medium 10 ft is closed then.",
        "These 2 wishes cannot all be kept: A-1 before A-2; A-2 before A-1. Given up: A-2 before A-1.",
    ]
    assert schedule_record(week).notes == week.notes


def test_two_rolls_for_one_line_are_a_conflict(write: Path, shop: Shop) -> None:
    pins = [f'[[pin]]\nline = "A-1"\nroll = "{roll}"' for roll in ("Medium 10 ft", "Heavy 10 ft")]
    week = planned(write, "\n".join(pins), shop)
    assert "A-1 on Medium 10 ft; A-1 on Heavy 10 ft" in week.notes[0]


def test_a_must_ship_that_no_plan_reaches_is_given_up(shop: Shop, write: Path) -> None:
    write.write_text('[[must_ship]]\nline = "A-1"\ndate = 2026-12-01')
    late = [replace(PLATE, here_in_days=7)]
    week = plan_week(PlanAsked(LINES, late, shop, MONDAY, wishes=read_wishes(write)), effort="quick")
    assert week.notes == ("No plan can keep this wish, so it was given up: A-1 must ship by Tue 1 Dec.",)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[[pin]]\nline = "A-11"\nroll = "Heavy 10 ft"', 'called A-11; did you mean "A-1"?'),
        ('[[pin]]\nline = "A-1"\nbefore = "A-22"', 'called A-22; did you mean "A-2"?'),
        (
            '[[pin]]\nline = "A-1"\nroll = "Heavy 10ft"',
            'no roll is called Heavy 10ft; did you mean "Heavy 10 ft"?',
        ),
        ('[[pin]]\nline = "A-2"\nroll = "Heavy 10 ft"', "Heavy 10 ft cannot do A-2; able are: Medium 10 ft"),
        ('[[pin]]\nline = "A-1"\nstart = "2026-11-29 08:00"', "before the plan's first day, 2026-11-30"),
        ('[[must_ship]]\nline = "A-1"\ndate = 2026-11-29', "before the plan's first day, 2026-11-30"),
        ('[[pin]]\nline = "A-1"\nrunning = true', "is running: say on which roll"),
        ('[[keep_whole]]\nline = "A-1"\nfirst = 2', "first is unknown"),
        ("[[keep_whole]]", "names no line"),
        ('[[pin]]\nline = "A-1"\nbefore = "A-1"', "A-1 cannot come before itself"),
        (
            '[[pin]]\nline = "A-1"\nnot_befor = "2026-12-01"',
            'not_befor is unknown; did you mean "not_before"?',
        ),
        ('[[pin]]\nline = "A-1"\nstart = "Tuesday"', 'start is no date and time - read "Tuesday"'),
        ('[[pin]]\nline = "A-1"', "wishes nothing"),
        ('[[pin]]\nroll = "Heavy 10 ft"', 'names no line; write line = "A-1"'),
        ('[[pins]]\nline = "A-1"', '[pins]: is unknown; did you mean "pin"?'),
        ('[pin]\nline = "A-1"', "must be a list of entries; write [[pin]]"),
        ('[[must_ship]]\nline = "A-1"', "has no date"),
        ("line = ", "is not valid TOML"),
        ('[[must_ship]]\nline = "A-1"\ndate = 9999-12-31', "date must be a day from 2000 to 2099"),
        ('[[pin]]\nline = "A-1"\nstart = "0001-01-01 08:00"', "start must be a day from 2000 to 2099"),
        (
            '[[pin]]\nline = "A-2"\nrunning = true\n[[pin]]\nline = "A-3"\nrunning = true',
            "number 2 (A-3): A-2 is running on Medium 10 ft too",
        ),
        (
            '[[pin]]\nline = "A-2"\nrunning = true\nminutes_left = 41',
            "[[pin]] number 1 (A-2): A-2 takes only 40 minutes on Medium 10 ft, so more cannot be "
            'left - read "minutes_left = 41"; write 40 or less, or leave minutes_left out for all of it',
        ),
        (
            '[[pin]]\nline = "A-2"\nrunning = true\nminutes_left = 0',
            'number 1 (A-2): minutes_left must be a whole number of minutes, at least 1 - read "0"; a line '
            "that is done needs no pin",
        ),
        ('[[pin]]\nline = "A-2"\nrunning = true\nminutes_left = "ten"', "must be a whole number of minutes"),
        ('[[pin]]\nline = "A-2"\nrunning = true\nminutes_left = 12.5', "must be a whole number of minutes"),
        (
            '[[pin]]\nline = "A-2"\nroll = "Medium 10 ft"\nminutes_left = 20',
            "minutes_left goes only with a line that runs now; write running = true",
        ),
    ],
)
def test_a_wish_that_makes_no_sense_is_refused_in_words(write: Path, text: str, words: str) -> None:
    assert words in refused(write, text)


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="the file of wishes is missing"):
        read_wishes(tmp_path / "no.toml")


def test_dates_first_is_said_with_its_bound(shop: Shop) -> None:
    week = plan_week(PlanAsked(LINES, [PLATE], shop, MONDAY, aim=Aim.DATES_FIRST), effort="quick")
    assert week.aim is Aim.DATES_FIRST
    assert proof_words(week).endswith("Proven best in dates: no order of these jobs has less late money.")
    assert schedule_record(week).aim == "dates-first"
    open_end = replace(
        week, plan=replace(week.plan, proven=False, cost=replace(week.plan.cost, lateness=PRICE))
    )
    assert open_end.gap == 1.0
    assert "no useful bound is known" in proof_words(open_end)
    assert "%" not in proof_words(open_end)
    near = replace(open_end, plan=replace(open_end.plan, bound=PRICE * 9 / 10))
    assert proof_words(near).endswith(
        "Not proven best in dates. No order can have less late money than 36.00 USD, so of the 40.00 here "
        "at most 4.00 (10%) could still be saved."
    )


@pytest.mark.slow
def test_wishes_that_no_plan_was_found_for_are_given_up_the_pin_first_without_a_proof(shop: Shop) -> None:
    """Eight long lines fill three days and their overtime a little too full, counting set-ups.

    Whether another order would fit is beyond what a quick proof can tell, so none is claimed.
    """
    lines = [
        won(
            f"A-{k}",
            thickness_mm=4 + 2.0 * (k % 5),
            diameter_mm=500 + 40.0 * k,
            choices=(RollChoice("Medium 10 ft", 206.0, 0.0),),
            plates=(),
            crew=1,
            crane=False,
        )
        for k in range(1, 9)
    ]
    ships = tuple(ShipDate(line.id, "", date(2026, 12, 2)) for line in lines)
    wishes = Wishes("wishes.toml", (LinePin("A-2", "", before="A-1"),), ships)
    week = plan_week(PlanAsked(lines, [], shop, MONDAY, wishes=wishes), effort="quick")
    assert week.plan.conflicts == ()
    assert week.notes == (
        "No plan was found that keeps this wish, so it was given up: A-2 before A-1.",
        "No plan was found that keeps this wish, so it was given up: A-8 must ship by Wed 2 Dec.",
    )
    assert [line.id for line in week.lines if week.finish_of(line.id).date() > date(2026, 12, 2)] == ["A-8"]
    assert week.unplanned == ()


def test_a_line_to_keep_whole_is_read(write: Path) -> None:
    write.write_text('[[keep_whole]]\nline = "A-1"', "utf-8")
    assert read_wishes(write).kept_whole == {"A-1"}


def test_a_plate_that_has_been_cut_is_not_cut_again(write: Path, shop: Shop) -> None:
    week = planned(write, f'[[cut]]\nplate = "{PLATE.id}"', shop)
    assert [slot for slot in week.slots if slot.work.plate] == []
    assert "no plate to be cut is called Q-1" in refused(write, '[[cut]]\nplate = "Q-1"')


def test_a_pin_in_a_closed_hour_is_told_so_and_counted_as_given_up(write: Path, shop: Shop) -> None:
    week = planned(write, '[[pin]]\nline = "A-1"\nroll = "Medium 10 ft"\nstart = "2026-12-01 03:00"', shop)
    assert week.given_up == 1
    assert any("Medium 10 ft is closed then." in note for note in week.notes)


def test_a_pin_may_name_a_lot_of_a_line_that_is_split_only(write: Path, shop: Shop) -> None:
    assert "A-1 is not split" in refused(write, '[[pin]]\nline = "A-1"\nlot = 1\nroll = "Heavy 10 ft"')
