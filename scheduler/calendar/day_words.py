"""Days and weeks of a plan, and how a person says them; the same on every machine, whatever its locale."""

from __future__ import annotations

from datetime import date, datetime, timedelta

_WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def monday_of(moment: date) -> date:
    """Return the Monday of the ISO week of a day or moment."""
    day = moment.date() if isinstance(moment, datetime) else moment
    return day - timedelta(days=day.weekday())


def week_number(monday: date) -> int:
    """Return the ISO week number."""
    return monday.isocalendar().week


def day_short(day: date) -> str:
    """Return a day as it is said on the floor.

    >>> day_short(date(2026, 11, 30))
    'Mon 30 Nov'
    """
    return f"{_WEEKDAYS[day.weekday()]} {day.day} {_MONTHS[day.month - 1]}"


def week_words(monday: date) -> str:
    """Return a week with its number and days.

    >>> week_words(date(2026, 11, 30))
    'Week 49, 30 Nov to 6 Dec 2026'
    """
    sunday = monday + timedelta(days=6)
    first, last = day_short(monday)[4:], day_short(sunday)[4:]
    return f"Week {week_number(monday)}, {first} to {last} {sunday.year}"


def hours_words(minutes: float) -> str:
    """Return minutes as hours and minutes.

    >>> hours_words(45), hours_words(200)
    ('45 min', '3 h 20 min')
    """
    hours, rest = divmod(round(minutes), 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"
