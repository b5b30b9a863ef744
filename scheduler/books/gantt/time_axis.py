"""The time axis of a Gantt picture: worked days side by side, the nights between them left out."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from scheduler.week import PlannedOperation, WeekPlan, begin_of

_HOUR = 60
_DAY = 24 * _HOUR
DAYS = 5
"""Worked days on one picture."""
_BETWEEN = 25.0
"""Minutes of axis left blank between two days."""


@dataclass(frozen=True, slots=True)
class DayAxis:
    """The worked days of one picture, each from `first` to `last` minute of the day."""

    days: tuple[date, ...]
    first: int
    last: int

    @property
    def span(self) -> int:
        """Return the minutes of each day on the picture."""
        return self.last - self.first

    @property
    def length(self) -> float:
        """Return the length of the whole axis in minutes of picture."""
        return len(self.days) * self.span + (len(self.days) - 1) * _BETWEEN

    def left(self, index: int) -> float:
        """Return where a day begins on the axis."""
        return index * (self.span + _BETWEEN)

    def pieces(self, start: datetime, end: datetime) -> Iterator[tuple[float, float]]:
        """Yield the stretches of axis between two moments, as left edge and width, day by day."""
        for index, today in enumerate(self.days):
            midnight = datetime(today.year, today.month, today.day)
            begin = max(self.first, _minutes(midnight, start))
            finish = min(self.last, _minutes(midnight, end))
            if finish > begin:
                yield self.left(index) + begin - self.first, finish - begin


def axes_of(week: WeekPlan) -> tuple[DayAxis, ...]:
    """Return the axes of the plan's pictures: its worked days, a few to a picture, those with work in them.

    All have the same hours of the day, so that pictures can be compared.
    """
    days = _open_days(week)
    if not days:
        return ()
    first, last = _hours_of(week, days)
    blocks = [DayAxis(days[n : n + DAYS], first, last) for n in range(0, len(days), DAYS)]
    return tuple(axis for axis in blocks if any(_shown(slot, axis) for slot in week.slots))


def _open_days(week: WeekPlan) -> tuple[date, ...]:
    if not week.slots:
        return ()
    begin = min(begin_of(slot) for slot in week.slots).date()
    finish = max(slot.end for slot in week.slots).date()
    days = {stretch.start.date() for stretches in week.open_times.values() for stretch in stretches}
    return tuple(day for day in sorted(days) if begin <= day <= finish)


def _hours_of(week: WeekPlan, days: Collection[date]) -> tuple[int, int]:
    """Return the first and last minute of the day in which any machine is open, in whole hours."""
    first, last = _DAY, 0
    for stretches in week.open_times.values():
        for stretch in stretches:
            if stretch.start.date() not in days:
                continue
            over_midnight = stretch.end.date() > stretch.start.date()
            first = 0 if over_midnight else min(first, stretch.start.hour * _HOUR)
            ends = stretch.end.hour * _HOUR + stretch.end.minute
            last = _DAY if over_midnight else max(last, -(-ends // _HOUR) * _HOUR)
    return first, last


def _shown(slot: PlannedOperation, axis: DayAxis) -> bool:
    return any(axis.pieces(begin_of(slot), slot.end))


def _minutes(midnight: datetime, moment: datetime) -> int:
    return round((moment - midnight) / timedelta(minutes=1))
