"""Working time on the minute axis. Dates are invented; 1 January 2024 was a Monday."""

from __future__ import annotations

from datetime import date, datetime, time
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import InputError
from scheduler.calendar import DayShift, MinuteAxis, WorkedWeek, staffing, windows
from scheduler.calendar.windows import ClosedTime
from scheduler.sequence import Window

WEEK = MinuteAxis(datetime(2024, 1, 1), datetime(2024, 1, 8))
DAY_SHIFT = tuple(
    DayShift(d, time(6), time(14, 30), ((time(9), time(9, 15)), (time(12), time(12, 30))), people=3)
    for d in range(5)
)


def test_a_shift_with_two_breaks_is_three_windows_a_day() -> None:
    found = windows(WorkedWeek(DAY_SHIFT), WEEK)
    assert len(found) == 15
    assert found[:3] == (Window(360, 540), Window(555, 720), Window(750, 870))
    assert sum(w.end - w.start for w in found) == 5 * (8 * 60 + 30 - 45)


def test_a_day_off_has_no_windows_and_nobody_there() -> None:
    working = WorkedWeek(DAY_SHIFT, frozenset({date(2024, 1, 2)}))
    assert not any(1440 <= w.start < 2880 for w in windows(working, WEEK))
    assert not any(1440 <= s.start < 2880 for s in staffing(working, WEEK))


def test_a_night_shift_runs_into_the_next_day_and_into_the_plan_from_the_day_before() -> None:
    night = WorkedWeek((DayShift(6, time(22), time(6)), DayShift(0, time(22), time(6))))
    assert windows(night, WEEK) == (Window(0, 360), Window(1320, 1800), Window(10080 - 120, 10080))


def test_overtime_keeps_its_price_and_regular_time_wins_where_both_are_given() -> None:
    saturday = DayShift(5, time(6), time(12), overtime_cost_per_min=Decimal("0.8"))
    twice = DayShift(0, time(12), time(16), overtime_cost_per_min=Decimal("0.5"))
    found = windows(WorkedWeek((*DAY_SHIFT, saturday, twice)), WEEK)
    assert Window(5 * 1440 + 360, 5 * 1440 + 720, Decimal("0.8")) in found
    assert Window(720, 750, Decimal("0.5")) in found
    assert Window(870, 960, Decimal("0.5")) in found


def test_maintenance_closes_one_machine_only() -> None:
    service = ClosedTime(datetime(2024, 1, 1, 7), datetime(2024, 1, 1, 8), "roll 1", "grease")
    working = WorkedWeek(DAY_SHIFT, closures=(service,))
    assert windows(working, WEEK, "roll 1")[:2] == (Window(360, 420), Window(480, 540))
    assert windows(working, WEEK, "roll 2")[0] == Window(360, 540)


def test_people_of_overlapping_shifts_add_up() -> None:
    early, late = DayShift(0, time(6), time(14), people=2), DayShift(0, time(13), time(21), people=1)
    levels = staffing(WorkedWeek((early, late)), WEEK)
    assert [(s.start, s.end, s.people) for s in levels] == [(360, 780, 2), (780, 840, 3), (840, 1260, 1)]


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: WorkedWeek(()), "no shift at all"),
        (lambda: DayShift(7, time(6), time(14)), "weekday is 0"),
        (lambda: DayShift(0, time(6), time(14), ((time(15), time(16)),)), "Break 15:00 to 16:00"),
        (lambda: ClosedTime(datetime(2024, 1, 2), datetime(2024, 1, 1), why="grease"), "grease: ends"),
        (lambda: MinuteAxis(datetime(2024, 1, 2), datetime(2024, 1, 1)), "before it starts"),
        (
            lambda: windows(
                WorkedWeek((DayShift(5, time(6), time(14)),)), MinuteAxis(WEEK.start, datetime(2024, 1, 3))
            ),
            "no shift between 2024-01-01 and 2024-01-03",
        ),
    ],
)
def test_a_calendar_typo_is_said_in_words(make: object, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()  # type: ignore[operator]


@given(st.integers(0, 10**5))
def test_minutes_and_moments_are_each_others_inverse(minute: int) -> None:
    assert WEEK.minute(WEEK.moment(minute)) == minute


def test_a_calendar_of_many_years_is_laid_out_by_its_shifts_and_not_by_its_minutes() -> None:
    years = MinuteAxis(datetime(2000, 1, 1), datetime(2026, 1, 1))
    found = windows(WorkedWeek(DAY_SHIFT), years)
    assert len(found) == 3 * sum(
        day.weekday() < 5 for day in years.days() if day < date(2026, 1, 1) and day >= date(2000, 1, 1)
    )
