"""The weeks as tables: a machine a row, a day a column, its jobs in order with the time that each begins."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from html import escape
from itertools import groupby

from scheduler.calendar import day_short, week_number
from scheduler.week import PlannedOperation, WeekPlan, begin_of


def week_tables(week: WeekPlan) -> str:
    """Return a table for every calendar week in which something is planned."""
    machines = (*week.rolls, *week.stations)
    slots = [slot for machine in machines for slot in week.on(machine)]
    days = sorted({begin_of(slot).date() for slot in slots})
    late = frozenset(item.line.id for item in week.late)
    found = []
    for monday, group in groupby(days, key=_monday):
        heads = tuple(group)
        rows = "".join(_row(week, number, heads, late) for number in range(len(machines)))
        days_named = "".join(f'<th scope="col">{escape(day_short(day))}</th>' for day in heads)
        found.append(
            f'<section class="week"><h2>Week {week_number(monday)}</h2><table class="week"><thead><tr>'
            f'<th scope="col">Machine</th>{days_named}</tr></thead><tbody>{rows}</tbody></table></section>'
        )
    return "\n".join(found)


def _monday(day: date) -> date:
    return day - timedelta(days=day.weekday())


def _row(week: WeekPlan, number: int, days: Sequence[date], late: frozenset[str]) -> str:
    machine = (*week.rolls, *week.stations)[number]
    cells = []
    for day in days:
        slots = [slot for slot in week.on(machine) if begin_of(slot).date() == day]
        rolled = [slot for slot in slots if slot.line is not None]
        told = [_job(slot, late) for slot in rolled] or _plates(slots)
        cells.append(f"<td>{''.join(f'<p>{words}</p>' for words in told)}</td>")
    return f'<tr data-m="{number}"><th scope="row">{escape(machine)}</th>{"".join(cells)}</tr>'


def _job(slot: PlannedOperation, late: frozenset[str]) -> str:
    line = slot.line
    assert line is not None
    tag = ' <span class="tag">LATE</span>' if line.id in late else ""
    return f"{begin_of(slot):%H:%M} <strong>{escape(line.name)}</strong>{tag}"


def _plates(slots: Sequence[PlannedOperation]) -> list[str]:
    if not slots:
        return []
    count = f"{len(slots)} plate{'s' if len(slots) > 1 else ''}"
    return [f"{begin_of(slots[0]):%H:%M} to {slots[-1].end:%H:%M}", count]
