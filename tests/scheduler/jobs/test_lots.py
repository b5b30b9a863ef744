"""A line in two lots: shares of minutes, blanks and plates, and the week that holds them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from quoting.core import InputError
from quoting.record import planned_days
from quoting.shop import Shop
from scheduler.books import write_run_schedule
from scheduler.jobs import in_two_lots, soonest
from scheduler.jobs.won_lines import RollChoice
from scheduler.planning import PlanAsked, plan_week
from scheduler.week import schedule_record
from scheduler.wishes import read_wishes
from tests.scheduler.books.sample import flat
from tests.scheduler.conftest import PLATE, won

MONDAY = date(2026, 11, 30)
PLATES = {
    "P-1 #1": replace(PLATE, id="P-1 #1"),
    "P-1 #2": replace(PLATE, id="P-1 #2"),
    "B-1 #1": replace(PLATE, id="B-1 #1", here_in_days=7),
}
LINE = won(
    "A-3",
    quantity=5,
    re_round=True,
    plates=("B-1 #1", "P-1 #1", "P-1 #2"),
    blanks_on={"B-1 #1": 4, "P-1 #1": 4, "P-1 #2": 2},
    blank=flat(pieces=2),
    choices=(RollChoice("Medium 10 ft", 110.0, 10.0),),
)


def test_the_first_lot_takes_what_is_in_the_house_and_minutes_by_parts() -> None:
    first, second = in_two_lots(LINE, 3, PLATES)
    assert (first.name, second.name) == ("A-3 (3 of 5)", "A-3 (2 of 5)")
    assert (first.quantity, second.quantity, second.ordered) == (3, 2, 5)
    assert (first.plates, second.plates) == (("P-1 #1", "P-1 #2"), ("B-1 #1",))
    assert first.choices[0].minutes == pytest.approx(66.0)
    assert second.choices[0].re_round_minutes == pytest.approx(4.0)


def test_a_plate_that_holds_blanks_of_both_lots_is_waited_for_by_both() -> None:
    first, second = in_two_lots(LINE, 4, PLATES)
    assert first.plates == ("P-1 #1", "P-1 #2", "B-1 #1")
    assert second.plates == ("B-1 #1",)


def test_without_counts_both_lots_wait_for_every_plate() -> None:
    unknown = replace(LINE, blanks_on={})
    assert [lot.plates for lot in in_two_lots(unknown, 2, PLATES)] == [LINE.plates, LINE.plates]
    assert soonest(unknown, PLATES) == 0


def test_parts_that_can_be_made_before_the_last_plate_comes() -> None:
    assert soonest(LINE, PLATES) == 3
    assert soonest(LINE, {}) == 0


def test_a_split_line_stands_in_the_week_as_two_lots(shop: Shop, tmp_path: Path) -> None:
    wishes = tmp_path / "wishes.toml"
    wishes.write_text('[[split]]\nline = "A-3"\nfirst = 3\n')
    lines = [LINE, won("A-1", plates=())]
    week = plan_week(
        PlanAsked(lines, list(PLATES.values()), shop, MONDAY, wishes=read_wishes(wishes)), effort="quick"
    )
    slots = [slot for slot in week.slots if slot.line and slot.line.id == "A-3"]
    assert sorted((slot.work.kind, slot.line.name) for slot in slots if slot.line) == [
        ("re-round", "A-3 (2 of 5)"),
        ("re-round", "A-3 (3 of 5)"),
        ("roll", "A-3 (2 of 5)"),
        ("roll", "A-3 (3 of 5)"),
    ]
    early = next(slot for slot in slots if slot.work.kind == "roll" and slot.line and slot.line.quantity == 3)
    assert early.start.date() < date(2026, 12, 7)
    assert week.finish_of("A-3") == max(slot.end for slot in slots)
    schedule = schedule_record(week)
    lots = [told.lot for told in schedule.operations if told.line == "A-3"]
    assert {(lot.parts, lot.of) for lot in lots if lot} == {(3, 5), (2, 5)}
    assert planned_days(schedule)["A-3"] == week.finish_of("A-3").date()
    write_run_schedule(week, tmp_path / "book.xlsx", inch=True)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('line = "A-3"\nfirst = 5', '(A-3): A-3 has 5 parts - read "first = 5"; write first = 1 to 4'),
        ('line = "A-1"\nfirst = 1', "(A-1): A-1 is a single part; leave this split out"),
        ('line = "A-3"\nfirst = 0', 'first must say how many parts the first lot has, at least 1 - read "0"'),
        ('line = "A-3"', "first must say how many parts"),
        ('line = "A-33"\nfirst = 1', 'no line to be made is called A-33; did you mean "A-3"?'),
        ('line = "A-3"\nfirst = 1\n[[split]]\nline = "A-3"\nfirst = 2', "A-3 is split twice"),
        (
            'line = "A-3"\nfirst = 1\n[[pin]]\nline = "A-1"\nbefore = "A-3"',
            "A-3 is split, so [[pin]] number 1 (A-1) cannot say where it goes; leave out one of the two",
        ),
    ],
)
def test_a_split_that_makes_no_sense_is_refused_in_words(
    shop: Shop, tmp_path: Path, text: str, words: str
) -> None:
    wishes = tmp_path / "wishes.toml"
    wishes.write_text(f"[[split]]\n{text}\n")
    lines = [LINE, won("A-1", plates=())]
    with pytest.raises(InputError) as caught:
        plan_week(
            PlanAsked(lines, list(PLATES.values()), shop, MONDAY, wishes=read_wishes(wishes)), effort="quick"
        )
    assert words in str(caught.value)
