"""Working time: weekly shifts, breaks, days off, overtime and maintenance, as windows on the minute axis
of a plan.

Minute 0 is the plan's start, a moment of local shop time that is passed in. The axis counts wall-clock
minutes of local time;
a day on which the clocks change is taken as 24 hours, as a shift plan on paper does.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from functools import lru_cache

from quoting.core import InputError
from scheduler.sequence import Staffing, Window

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_CLOSED = Decimal(-1)
"""Stands for a price where nobody works."""


@dataclass(frozen=True, slots=True)
class DayShift:
    """Work on one weekday (0 = Monday) from `start` to `end`, past midnight when end <= start, less the
    breaks.

    `people` is the crew that is there; `overtime_cost_per_min` makes it an overtime shift that is worked
    only when it pays.
    """

    weekday: int
    start: time
    end: time
    breaks: tuple[tuple[time, time], ...] = ()
    people: int = 1
    overtime_cost_per_min: Decimal | None = None

    def __post_init__(self) -> None:
        if not 0 <= self.weekday <= 6:
            raise InputError("A weekday is 0 (Monday) to 6 (Sunday)", read=str(self.weekday))
        if self.people < 0:
            raise InputError(f"{self} has fewer than no people", read=str(self.people))
        length = _minutes_from(self.start, self.end) or 1440
        for begin, finish in self.breaks:
            offset = _minutes_from(self.start, begin)
            if offset + _minutes_from(begin, finish) > length or begin == finish:
                raise InputError(
                    f"Break {begin:%H:%M} to {finish:%H:%M} does not lie inside {self}",
                    would_do="give breaks that start and end within the shift",
                )

    def __str__(self) -> str:
        """Say which shift: `Monday shift 06:00 to 14:30`."""
        kind = "shift" if self.overtime_cost_per_min is None else "overtime"
        return f"{WEEKDAYS[self.weekday]} {kind} {self.start:%H:%M} to {self.end:%H:%M}"


@dataclass(frozen=True, slots=True)
class ClosedTime:
    """A time without work from `start` to `end`: maintenance of one machine, or of all with an empty
    name."""

    start: datetime
    end: datetime
    machine: str = ""
    why: str = "closed"

    def __post_init__(self) -> None:
        if self.end <= self.start:
            raise InputError(
                f"{self.why}: ends {self.end:%Y-%m-%d %H:%M}, before it starts {self.start:%Y-%m-%d %H:%M}"
            )


@dataclass(frozen=True, slots=True)
class WorkedWeek:
    """The shop's week with its exceptions. `days_off` drop whole days of every shift that starts on
    them."""

    shifts: tuple[DayShift, ...]
    days_off: frozenset[date] = field(default_factory=frozenset)
    closures: tuple[ClosedTime, ...] = ()

    def __post_init__(self) -> None:
        if not self.shifts:
            raise InputError("The shop has no shift at all", would_do="enter at least one shift in the week")


@dataclass(frozen=True, slots=True)
class MinuteAxis:
    """The minute axis of one plan: minute 0 at `start`, ending before `end`. Both without time zone."""

    start: datetime
    end: datetime

    def __post_init__(self) -> None:
        if self.start.tzinfo is not None or self.end.tzinfo is not None:
            raise InputError("The plan's start and end are local times without a time zone")
        if self.start.second or self.start.microsecond:
            raise InputError("The plan must start on a whole minute", read=str(self.start))
        if self.end <= self.start:
            raise InputError(
                f"The plan ends on {self.end:%Y-%m-%d}, before it starts on {self.start:%Y-%m-%d}"
            )

    @property
    def horizon(self) -> int:
        """Minutes from start to end."""
        return self.minute(self.end)

    def minute(self, moment: datetime) -> int:
        """Whole minutes from the plan's start; negative before it.

        >>> MinuteAxis(datetime(2024, 1, 1), datetime(2024, 1, 8)).minute(datetime(2024, 1, 2, 6, 30))
        1830
        """
        return (moment - self.start) // timedelta(minutes=1)

    def moment(self, minute: int) -> datetime:
        """Date and time of a minute of the axis.

        >>> MinuteAxis(datetime(2024, 1, 1), datetime(2024, 1, 8)).moment(1830)
        datetime.datetime(2024, 1, 2, 6, 30)
        """
        return self.start + timedelta(minutes=minute)

    def days(self) -> Iterable[date]:
        """Yield every date on which a shift may touch the plan, from the day before its start."""
        day = self.start.date() - timedelta(days=1)
        while datetime.combine(day, time()) < self.end:
            yield day
            day += timedelta(days=1)


@lru_cache(maxsize=64)  # a plan, its repair and a promise ask for the same calendars
def windows(working: WorkedWeek, axis: MinuteAxis, machine: str = "") -> tuple[Window, ...]:
    """Return the working windows of a machine on the axis, in order, touching ones of the same price
    joined.

    Where two shifts cover the same minute, regular time wins over overtime and the cheaper overtime over
    the dearer.
    Raises `InputError` when nothing of any shift falls into the plan.
    """
    changes: list[tuple[int, Decimal | None, int]] = []
    for shift in working.shifts:
        for start, end in _worked(working, axis, shift):
            changes += [(start, shift.overtime_cost_per_min, 1), (end, shift.overtime_cost_per_min, -1)]
    for closure in working.closures:
        if closure.machine in ("", machine):
            start, end = max(0, axis.minute(closure.start)), min(axis.horizon, axis.minute(closure.end))
            if start < end:
                changes += [(start, _CLOSED, 1), (end, _CLOSED, -1)]
    found = _runs(sorted(changes, key=lambda change: change[0]))
    if not found:
        raise InputError(
            f"There is no shift{' on ' + machine if machine else ''}"
            f" between {axis.start:%Y-%m-%d} and {axis.end:%Y-%m-%d}",
            would_do="plan more days, or look at the days off and closures",
        )
    return found


@lru_cache(maxsize=16)
def staffing(working: WorkedWeek, axis: MinuteAxis) -> tuple[Staffing, ...]:
    """Return how many people are there over the axis: shifts at the same time add up, breaks have
    nobody."""
    changes = sorted(
        change
        for shift in working.shifts
        for start, end in _worked(working, axis, shift)
        for change in ((start, shift.people), (end, -shift.people))
    )
    levels: list[Staffing] = []
    people = since = 0
    for minute, step in changes:
        if minute > since and people:
            if levels and levels[-1].end == since and levels[-1].people == people:
                since = levels.pop().start
            levels.append(Staffing(since, minute, people))
        since, people = minute, people + step
    return tuple(levels)


def _worked(working: WorkedWeek, axis: MinuteAxis, shift: DayShift) -> Iterable[tuple[int, int]]:
    """Yield from when to when the shift works on the axis, between its breaks."""
    length = _minutes_from(shift.start, shift.end) or 1440
    pauses = sorted((_minutes_from(shift.start, a), _minutes_from(a, b)) for a, b in shift.breaks)
    pieces, at = [], 0
    for offset, minutes in [*pauses, (length, 0)]:
        if offset > at:
            pieces.append((at, offset))
        at = max(at, offset + minutes)
    horizon = axis.horizon
    for day in axis.days():
        if day.weekday() != shift.weekday or day in working.days_off:
            continue
        begin = axis.minute(datetime.combine(day, shift.start))
        for a, b in pieces:
            if max(0, begin + a) < min(horizon, begin + b):
                yield max(0, begin + a), min(horizon, begin + b)


def _runs(changes: Iterable[tuple[int, Decimal | None, int]]) -> tuple[Window, ...]:
    """Return the windows between what begins (1) and ends (-1) at a minute, in order of time."""
    found: list[Window] = []
    on: Counter[Decimal | None] = Counter()
    since = 0
    for minute, price, step in changes:
        if minute > since:
            _add(found, since, minute, on)
            since = minute
        on[price] += step
        if not on[price]:
            del on[price]
    return tuple(found)


def _add(found: list[Window], start: int, end: int, on: Collection[Decimal | None]) -> None:
    """Add a window at the lowest of the prices that are on, joined to one that ends there."""
    if not on or _CLOSED in on:
        return
    price = None if None in on else min(one for one in on if one is not None)
    if found and found[-1].end == start and found[-1].overtime_cost_per_min == price:
        start = found.pop().start
    found.append(Window(start, end, price))


def _minutes_from(a: time, b: time) -> int:
    """Minutes from one time of day to the next time it is b, 0 when they are the same."""
    return (b.hour * 60 + b.minute - a.hour * 60 - a.minute) % 1440
