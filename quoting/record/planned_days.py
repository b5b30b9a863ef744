"""The day each planned line is ready."""

from __future__ import annotations

from datetime import date

from quoting.record.schema import ScheduleRecord


def planned_days(schedule: ScheduleRecord | None) -> dict[str, date]:
    """Return the day each planned line is finished, by its id; empty without a schedule."""
    ready: dict[str, date] = {}
    for operation in schedule.operations if schedule else ():
        if operation.line is not None:
            day = operation.end.date()
            ready[operation.line] = max(day, ready.get(operation.line, day))
    return ready
