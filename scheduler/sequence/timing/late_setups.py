"""Set-ups as late as they go: the roll is free and the crew's work fresh until just before the operation.

No operation moves and no money changes: a set-up only moves to later working minutes of its own machine, in
which the people are there and which cost the same overtime.
"""

from __future__ import annotations

from dataclasses import replace

from scheduler.sequence.timing.serial_timing import Timed
from scheduler.sequence.timing.tables import Calendar, Tables


def late_setups(t: Tables, timed: Timed) -> Timed:
    """Return the same plan with every set-up begun as late as crew and windows allow, the last ones first."""
    free = _free_people(t, timed)
    moved = list(timed.setup_start)
    for i in sorted(range(t.size), key=lambda i: (timed.start[i], i), reverse=True):
        minutes = timed.setup_minutes[i]
        if not minutes or i in timed.unplaced:
            continue
        calendar = t.calendars[timed.machine[i]]
        now = calendar.before[moved[i]]
        _take(calendar, now, minutes, -t.problem.setup_crew, free)
        begin = _latest(calendar, now, calendar.before[timed.start[i]], minutes, t.problem.setup_crew, free)
        _take(calendar, begin, minutes, t.problem.setup_crew, free)
        moved[i] = calendar.at[begin]
    return replace(timed, setup_start=moved)


def _latest(calendar: Calendar, now: int, end: int, minutes: int, crew: int, free: list[int] | None) -> int:
    """Return the last working minute, at least `now`, from which the set-up is done by minute `end`."""
    paid = calendar.paid
    price = paid[now + minutes] - paid[now]
    begin = end - minutes
    while begin > now:
        blocked = _first_blocked(calendar, begin, minutes, crew, free)
        if blocked is not None:
            begin = blocked - minutes
        elif paid[begin + minutes] - paid[begin] != price:
            begin -= 1
        else:
            return begin
    return now


def _first_blocked(
    calendar: Calendar, begin: int, minutes: int, crew: int, free: list[int] | None
) -> int | None:
    """Return the first working minute of the set-up without enough people, None when there is none."""
    if free is None:
        return None
    return next((w for w in range(begin, begin + minutes) if free[calendar.at[w]] < crew), None)


def _free_people(t: Tables, timed: Timed) -> list[int] | None:
    """People left in each minute when all operations and set-ups have theirs; None without a limit."""
    if t.people is None:
        return None
    free = list(t.people)
    for i in range(t.size):
        if i in timed.unplaced:
            continue
        m = timed.machine[i]
        calendar = t.calendars[m]
        _take(calendar, calendar.before[timed.start[i]], t.minutes[i][m], t.crew[i], free)
        begin = calendar.before[timed.setup_start[i]]
        _take(calendar, begin, timed.setup_minutes[i], t.problem.setup_crew, free)
    return free


def _take(calendar: Calendar, first: int, minutes: int, crew: int, free: list[int] | None) -> None:
    if free is not None:
        for minute in calendar.at[first : first + minutes]:
            free[minute] -= crew
