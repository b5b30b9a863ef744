"""The short table at the end of a run: what the order saves, and one line for each late job's cure."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from quoting.shop import Shop
from scheduler.commands.week_summary import week_rows
from scheduler.planning import PlanAsked, plan_week
from scheduler.sequence import Aim
from tests.scheduler.books.sample import sample_week
from tests.scheduler.conftest import PLATE, won


def test_set_up_minutes_and_money_against_each_plain_order() -> None:
    week = sample_week()
    rows = dict(week_rows(week))
    assert rows["against hand"] == (
        "due-day order, the best by hand: 20 set-up min saved, 6.50 USD more in all"
    )
    (saving,) = week.savings
    other = replace(week, savings=(replace(saving, setup_minutes=-5, money=Decimal("1234.5")),))
    assert dict(week_rows(other))["against hand"].endswith("5 set-up min more, 1,234.50 USD saved in all")


def test_with_dates_first_the_bound_is_said_to_be_of_the_late_money() -> None:
    plan = dict(week_rows(replace(sample_week(), aim=Aim.DATES_FIRST)))["plan"]
    assert "late money within" in plan or "late money proven best" in plan
    assert "late money within" not in dict(week_rows(sample_week()))["plan"]


def test_notes_are_told_one_a_row() -> None:
    week = replace(sample_week(), notes=("A-1 in two lots", "A-2 given up"))
    assert [row for row in week_rows(week) if row[1] in week.notes] == [
        ("notes", "A-1 in two lots"),
        ("", "A-2 given up"),
    ]


def test_one_line_for_each_late_job_that_was_looked_into(shop: Shop) -> None:
    line = won("A-1", due=date(2026, 12, 2))
    week = plan_week(
        PlanAsked([line], [replace(PLATE, here_in_days=7)], shop, date(2026, 11, 30)), effort="quick"
    )
    rows = week_rows(week)
    assert ("late jobs", "A-1 by 5 d") in rows
    cures = [text for name, text in rows if not name]
    assert len(cures) == 1
    assert cures[0].startswith("A-1: have plate P-1 #1 in by Wed 2 Dec instead of Mon 7 Dec")
