"""Working time on the minute axis of a plan, and days as they are said on the floor."""

from scheduler.calendar.day_words import day_short, hours_words, monday_of, week_number, week_words
from scheduler.calendar.plan_axis import (
    SATURDAY,
    next_working_day,
    overtime_price,
    plan_axis,
    working_days_after,
    working_time,
)
from scheduler.calendar.windows import DayShift, MinuteAxis, WorkedWeek, staffing, windows

__all__ = [
    "SATURDAY",
    "DayShift",
    "MinuteAxis",
    "WorkedWeek",
    "day_short",
    "hours_words",
    "monday_of",
    "next_working_day",
    "overtime_price",
    "plan_axis",
    "staffing",
    "week_number",
    "week_words",
    "windows",
    "working_days_after",
    "working_time",
]
