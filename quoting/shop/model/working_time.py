"""Shifts, days off, overtime and people."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Shift:
    """One shift on the named weekdays (0 = Monday), with breaks inside it."""

    weekdays: tuple[int, ...]
    start: time
    end: time
    breaks: tuple[tuple[time, time], ...] = ()
    crew: int = 2


@dataclass(frozen=True, slots=True)
class Closure:
    """A stretch of whole days, or of one machine's time, that is not worked."""

    first: date
    last: date
    reason: str
    machine: str = ""


@dataclass(frozen=True, slots=True)
class WorkingTime:
    """Shifts, days off, overtime and people.

    When `batches_may_split` a line of several parts is rolled in two lots where the plan then costs at least
    `least_split_saving` less. Of plans that cost the same the one with more slack is taken: a day between the
    end of a line and its due day is worth `slack_worth_per_day`, up to `slack_days` days a line.
    """

    shifts: tuple[Shift, ...]
    closures: tuple[Closure, ...]
    overtime_hours_per_day: float
    overtime_factor: Decimal
    cranes: int
    plate_lead_days: int
    weld_days: int
    late_cost_per_day: Decimal
    horizon_weeks: int
    batches_may_split: bool = False
    least_split_saving: Decimal = Decimal(0)
    slack_worth_per_day: Decimal = Decimal(0)
    slack_days: int = 0

    def open_on(self, day: date) -> bool:
        """Return whether the shop as a whole works on a day."""
        weekdays = {weekday for shift in self.shifts for weekday in shift.weekdays}
        shut = any(closed.first <= day <= closed.last and not closed.machine for closed in self.closures)
        return day.weekday() in weekdays and not shut
