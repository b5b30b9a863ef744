"""What the board shows, as plain values: machines, jobs in running order, set-up sheets."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from typing import Any

from quoting.drawings import sketch_values
from quoting.shop import Shop
from scheduler.calendar import day_short
from scheduler.jobs import RE_ROUND
from scheduler.papers import (
    PINCH_HOW,
    STANDING,
    JobSheet,
    Sizes,
    blank_picture,
    job_sheets,
    roll_pictures,
)
from scheduler.week import PlannedOperation, WeekPlan, begin_of

_BLANK_MM, _ROLLS_MM = (98.0, 55.0), (45.0, 50.0)


def board_values(week: WeekPlan, shop: Shop) -> dict[str, Any]:
    """Return the values of a week. Times are minutes from midnight of the plan's first day, shop time."""
    machines = (*week.rolls, *week.stations)
    slots = [slot for machine in machines for slot in week.on(machine)]
    sheets: dict[str, JobSheet] = {}
    for sheet in job_sheets(week, shop):
        sheets.setdefault(sheet.slot.work.operation.id, sheet)
    late = {item.line.id for item in week.late}
    sizes = Sizes(shop.inch)
    return {
        "start": [week.start.year, week.start.month - 1, week.start.day],
        "made": day_short(week.start),
        "unit": sizes.unit,
        "days": _days(week, slots),
        "machines": [_machine(week, name) for name in machines],
        "jobs": [
            _job(slot, machines.index(slot.machine), week, late)
            | {"sheet": _sheet(sheets.get(slot.work.operation.id), sizes)}
            for slot in slots
        ],
        "pinch": PINCH_HOW,
        "standing": STANDING,
    }


def minute_of(week: WeekPlan, moment: datetime) -> int:
    """Return the minutes from midnight of the plan's first day."""
    return round((moment - datetime.combine(week.start, time())) / timedelta(minutes=1))


def what_of(slot: PlannedOperation) -> tuple[str, str]:
    """Return what a job is called and what it is: a line and its part, or a plate and its material."""
    line, plate = slot.line, slot.work.plate
    if line is not None:
        again = "re-round: " if slot.work.kind == RE_ROUND else ""
        return line.name, f"{again}{line.part}"
    assert plate is not None
    return plate.id, f"cut plate, {plate.material}"


def _days(week: WeekPlan, slots: list[PlannedOperation]) -> list[str]:
    last = max((slot.end.date() for slot in slots), default=week.start)
    days = (last - week.start).days + 1
    return [day_short(week.start + timedelta(days=day)) for day in range(days)]


def _machine(week: WeekPlan, name: str) -> dict[str, Any]:
    used = [slot.end for slot in week.on(name)]
    last = max(used, default=datetime.combine(week.start, time())) + timedelta(days=1)
    return {
        "name": name,
        "loads": [
            [(load.monday - week.start).days, f"{load.share:.0%}" if load.open_minutes else "closed"]
            for load in week.loads
            if load.machine == name
        ],
        "open": [
            [minute_of(week, stretch.start), minute_of(week, stretch.end)]
            for stretch in week.open_times.get(name, ())
            if stretch.start < last
        ],
    }


def _job(slot: PlannedOperation, machine: int, week: WeekPlan, late: set[str]) -> dict[str, Any]:
    line = slot.line
    name, what = what_of(slot)
    times: Mapping[str, datetime] = {
        "s": begin_of(slot),
        "e": slot.setup_end,
        "r": slot.start,
        "f": slot.end,
    }
    return {
        "id": name,
        "m": machine,
        **{key: minute_of(week, moment) for key, moment in times.items()},
        "setup": slot.setup_minutes,
        "waits": waits_words(slot),
        "why": [why for why, _ in slot.setup.parts] if slot.setup and slot.setup_minutes else [],
        "qty": line.quantity if line else 1,
        "part": what,
        "who": line.customer if line else "",
        "due": due_words(line.due if line else None, rolled=line is not None),
        "late": bool(line and line.id in late),
    }


def waits_words(slot: PlannedOperation) -> str:
    """Return what a job waits for when it is set up; empty when it starts at once."""
    if slot.start <= slot.setup_end or not slot.waits_for:
        return ""
    return f"waits for {slot.waits_for}"


def due_words(due: date | None, *, rolled: bool) -> str:
    """Return the due day of a line in words; empty for a plate."""
    if not rolled:
        return ""
    return f"due {day_short(due)}" if due else "no due day"


def _sheet(sheet: JobSheet | None, sizes: Sizes) -> dict[str, Any] | None:
    if sheet is None:
        return None
    pictures = roll_pictures(sheet, _ROLLS_MM)
    if not sheet.re_round:
        pictures = (blank_picture(sheet, sizes, _BLANK_MM), *pictures)
    return {
        "asked": sheet.asked,
        "identity": sheet.identity,
        "pictures": [sketch_values(picture) for picture in pictures],
        "steps": [[step.name, step.leads, step.shows, step.loaded, step.free] for step in sheet.steps],
        "pinch": sheet.pinch,
        "ends": sheet.ends,
        "checks": sheet.checks,
        "springback": sheet.springback,
        "lift": sheet.lift,
        "cautions": sheet.cautions,
        "remarks": (*sheet.asked_for, *sheet.remarks),
    }
