"""The shop book's working time on the minute axis of a plan."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from decimal import Decimal

from quoting.shop import Shift as ShopShift
from quoting.shop import Shop
from scheduler.calendar.windows import ClosedTime, DayShift, MinuteAxis, WorkedWeek

MINUTES_PER_HOUR = 60


SATURDAY = 5

FURTHEST = 2_000
"""Working days that are looked ahead at most: further off nothing is planned."""


def plan_axis(start: date, shop: Shop, weeks: int = 0) -> MinuteAxis:
    """Return the axis from midnight of the first day over that many weeks, 0: over the shop's horizon."""
    first = datetime.combine(start, time())
    return MinuteAxis(first, first + timedelta(weeks=weeks or shop.working_time.horizon_weeks))


def working_time(shop: Shop) -> WorkedWeek:
    """Return the shop's shifts, overtime after each of them, and its closures."""
    book = shop.working_time
    plain = [shift for entry in book.shifts for shift in _weekly(entry)]
    extra = [shift for entry in book.shifts for shift in _overtime(entry, shop)]
    closures = tuple(
        ClosedTime(
            datetime.combine(closed.first, time()),
            datetime.combine(closed.last + timedelta(days=1), time()),
            closed.machine,
            closed.reason,
        )
        for closed in book.closures
    )
    return WorkedWeek(shifts=(*plain, *extra), closures=closures)


def overtime_price(shop: Shop) -> Decimal:
    """Return money for a minute of overtime; it is paid for the operator and one helper."""
    hour = (shop.rates.operator_hour + shop.rates.helper_hour) * shop.working_time.overtime_factor
    return (hour / MINUTES_PER_HOUR).quantize(Decimal("0.0001"))


def next_working_day(after: date, shop: Shop) -> date:
    """Return the first day after `after` on which the shop has a shift and is not closed as a whole."""
    day = after + timedelta(days=1)
    while not shop.working_time.open_on(day):
        day += timedelta(days=1)
    return day


def working_days_after(day: date, count: int, shop: Shop) -> date:
    """Return the day that many working days later: 0 is the day itself, 1 the next day the shop works."""
    for _ in range(min(count, FURTHEST)):
        day = next_working_day(day, shop)
    return day


def _weekly(entry: ShopShift) -> list[DayShift]:
    return [
        DayShift(weekday, entry.start, entry.end, entry.breaks, people=entry.crew)
        for weekday in entry.weekdays
    ]


def _overtime(entry: ShopShift, shop: Shop) -> list[DayShift]:
    """Return the overtime that may follow a shift."""
    book = shop.working_time
    length = round(book.overtime_hours_per_day * MINUTES_PER_HOUR)
    begin = entry.end.hour * MINUTES_PER_HOUR + entry.end.minute
    end = min(begin + length, 24 * MINUTES_PER_HOUR - 1)
    if end <= begin:
        return []
    return [
        DayShift(
            weekday,
            entry.end,
            time(*divmod(end, MINUTES_PER_HOUR)),
            people=entry.crew,
            overtime_cost_per_min=overtime_price(shop),
        )
        for weekday in entry.weekdays
    ]
