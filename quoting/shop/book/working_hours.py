"""Shifts, days off, overtime and people: `[working_time]`, `[[shift]]` and `[[closed]]`."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, time
from decimal import Decimal

from quoting.shop.book.settings_table import SettingsTable
from quoting.shop.findings import Rule
from quoting.shop.model import Closure, Shift, WorkingTime
from quoting.shop.quantities import DAYS, HOURS

_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def read_working_time(
    table: SettingsTable,
    shifts: Iterable[SettingsTable],
    closures: Iterable[SettingsTable],
    machines: tuple[str, ...],
) -> WorkingTime:
    """Return the working time; `machines` are the roll names that a closure may name."""
    read: list[Shift] = []
    for shift_table in shifts:
        shift = _shift(shift_table)
        if shift and any(_overlap(shift, other) for other in read):
            shift_table.flawed("two shifts overlap on one day", "let one end where the next starts")
        if shift:
            read.append(shift)
    return WorkingTime(
        shifts=tuple(read),
        closures=tuple(one for one in (_closure(t, machines) for t in closures) if one),
        overtime_hours_per_day=table.quantity("overtime_per_day", HOURS, least=0.0),
        overtime_factor=table.share("overtime_factor", most=Decimal(10)),
        cranes=table.whole("cranes", most=100),
        plate_lead_days=int(table.quantity("plate_lead", DAYS, least=0.0)),
        weld_days=int(table.quantity("weld", DAYS, least=0.0)),
        late_cost_per_day=table.money("late_cost_per_day"),
        horizon_weeks=table.whole("horizon_weeks", least=1, most=260),
        batches_may_split=table.flag("batches_may_split", default=False),
        least_split_saving=table.money("least_split_saving"),
        slack_worth_per_day=table.money("slack_worth_per_day"),
        slack_days=table.whole("slack_days", most=260),
    )


def hours_a_week(working_time: WorkingTime) -> float:
    """Return the plain hours that one machine is open in a week without days off, breaks taken off."""
    minutes = 0
    for shift in working_time.shifts:
        worked = _minutes(shift.start, shift.end) - sum(_minutes(*rest) for rest in shift.breaks)
        minutes += worked * len(shift.weekdays)
    return minutes / 60


def _minutes(start: time, end: time) -> int:
    return (end.hour - start.hour) * 60 + end.minute - start.minute


def _shift(table: SettingsTable) -> Shift | None:
    weekdays = _weekdays(table)
    start, end = _clock(table, "start", table.raw("start")), _clock(table, "end", table.raw("end"))
    table.note(Rule("clock"), "start", "end")
    breaks = _breaks(table)
    crew = table.whole("crew", least=1, most=1_000)
    table.close()
    if start is None or end is None or not table.sound:
        return None
    if not start < end:
        table.wrong("end", "must be later than start", "write a night shift as two shifts, split at midnight")
        return None
    if any(not start <= first < last <= end for first, last in breaks):
        table.wrong("breaks", "each break must lie inside the shift", 'for example ["09:30-09:45"]')
        return None
    return Shift(weekdays, start, end, breaks, crew)


def _overlap(one: Shift, other: Shift) -> bool:
    share_a_day = bool(set(one.weekdays) & set(other.weekdays))
    return share_a_day and one.start < other.end and other.start < one.end


def _weekdays(table: SettingsTable) -> tuple[int, ...]:
    names = table.texts("days")
    numbers = [_DAYS.index(name[:3].casefold()) for name in names if name[:3].casefold() in _DAYS]
    if not numbers or len(numbers) != len(names):
        table.wrong("days", "must be weekdays", 'for example days = ["Mon", "Tue"]')
    return tuple(sorted(set(numbers)))


def _breaks(table: SettingsTable) -> tuple[tuple[time, time], ...]:
    read: list[tuple[time, time]] = []
    for text in table.texts("breaks"):
        first, _, last = text.partition("-")
        start, end = _clock(table, "breaks", first), _clock(table, "breaks", last)
        if start is not None and end is not None:
            read.append((start, end))
    return tuple(sorted(read))


def _clock(table: SettingsTable, key: str, value: object) -> time | None:
    if isinstance(value, time):
        return value
    if isinstance(value, str):
        try:
            return time.fromisoformat(value.strip())
        except ValueError:
            pass
    if value is not None:
        table.wrong(key, "must be a time of day", 'write "07:00"')
    return None


def _closure(table: SettingsTable, machines: tuple[str, ...]) -> Closure | None:
    first = table.raw("first")
    last = table.raw("last", needed=False)
    last = first if last is None else last
    table.note(Rule("day"), "first", "last")
    machine = table.text("machine", default="")
    reason = table.text("reason")
    table.close()
    for key, value in (("first", first), ("last", last)):
        if not isinstance(value, date) or isinstance(value, datetime):
            table.wrong(key, "must be a date", "write 2026-12-25 without quotation marks")
            return None
        if not 2000 <= value.year < 2100:
            table.wrong(key, "must be a day from 2000 to 2099")
            return None
    if last < first:
        table.wrong("last", "must not be before first")
    if machine and machine not in machines:
        table.wrong("machine", "is no roll of this shop", f"rolls: {', '.join(machines)}")
    return Closure(first, last, reason, machine)
