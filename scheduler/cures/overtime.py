"""Overtime: all that is offered before the late line ends, then shut again window by window where it does
without."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from scheduler.calendar import (
    SATURDAY,
    DayShift,
    WorkedWeek,
    day_short,
    overtime_price,
    staffing,
    windows,
    working_time,
)
from scheduler.cures.late_case import Case, Trial
from scheduler.jobs import DAY_MIN
from scheduler.sequence import (
    Opened,
    SequenceProblem,
    Tables,
    Timed,
    Window,
    opened_in,
    overtime_windows,
    ranked,
    tables,
    time_order,
)

MOST_DAYS = 5
"""Days of overtime that are offered at most: the last ones before the line ends."""


def overtime(case: Case) -> Iterator[Trial]:
    """Yield the plan with the overtime that the shop's book offers and the line needs."""
    yield from _with_windows(case, case.problem, "overtime", "work overtime")


def saturday(case: Case) -> Iterator[Trial]:
    """Yield the plan with work on a Saturday, which the shop's book does not offer by itself."""
    calendar = _with_saturdays(case)
    if calendar is None:
        return
    machines = tuple(
        replace(machine, windows=windows(calendar, case.week.axis, machine.id))
        for machine in case.problem.machines
    )
    people = staffing(calendar, case.week.axis)
    problem = replace(case.problem, machines=machines, staffing=people)
    yield from _with_windows(case, problem, "Saturday", "beyond the shop's book, work")


def _with_saturdays(case: Case) -> WorkedWeek | None:
    """Return the calendar with a Saturday like the last weekday's shifts, at the overtime price.

    None when the shop works no overtime at all or has Saturday shifts already.
    """
    book = working_time(case.shop)
    plain = [shift for shift in book.shifts if shift.overtime_cost_per_min is None]
    last = max(shift.weekday for shift in plain)
    if case.shop.working_time.overtime_hours_per_day <= 0 or last >= SATURDAY:
        return None
    price = overtime_price(case.shop)
    extra = [
        DayShift(SATURDAY, s.start, s.end, s.breaks, s.people, price) for s in plain if s.weekday == last
    ]
    return replace(book, shifts=(*book.shifts, *extra))


def _with_windows(case: Case, problem: SequenceProblem, kind: str, words: str) -> Iterator[Trial]:
    before = opened_in(case.plan)
    offered = _offered(case, problem, kind)
    fresh = frozenset(offered) - before
    if not fresh:
        return
    t, timed = case.solved(problem, before | fresh)
    if case.late_in(t, timed) < case.late:
        t, timed = _shut_again(case, t, timed, fresh)
    worked = [key for key in t.opened & fresh if _works_in(t, timed, key, offered[key])]
    days = {(machine, start // DAY_MIN) for machine, start in worked}
    used = {key: offered[key] for key in sorted(t.opened & fresh) if (key[0], key[1] // DAY_MIN) in days}
    yield Trial(kind, f"{words} {_when(case, used)}", t, timed)


def _offered(case: Case, problem: SequenceProblem, kind: str) -> Mapping[tuple[str, int], Window]:
    """Return the overtime windows on the line's machines on the last days before it ends."""
    axis = case.week.axis
    found = [
        (machine, window)
        for machine, window in overtime_windows(problem)
        if machine in case.machines
        and window.start < case.end
        and (axis.moment(window.start).weekday() == SATURDAY) == (kind == "Saturday")
    ]
    days = sorted({axis.moment(window.start).date() for _, window in found})[-MOST_DAYS:]
    return {(m, w.start): w for m, w in found if axis.moment(w.start).date() in days}


def _shut_again(case: Case, t: Tables, timed: Timed, fresh: Opened) -> tuple[Tables, Timed]:
    """Shut each machine's new windows of a day again unless the line is then later or the plan dearer."""
    days: dict[tuple[int, str], set[tuple[str, int]]] = {}
    for machine, start in fresh:
        days.setdefault((start // DAY_MIN, machine), set()).add((machine, start))
    for day in sorted(days):
        fewer = tables(t.problem, t.opened - days[day])
        shut = time_order(fewer, timed.placed, timed.machine)
        if ranked(fewer, shut, case.job) <= ranked(t, timed, case.job):
            t, timed = fewer, shut
    return t, timed


def _works_in(t: Tables, timed: Timed, key: tuple[str, int], window: Window) -> bool:
    number = next(k for k, machine in enumerate(t.problem.machines) if machine.id == key[0])
    return any(
        timed.machine[i] == number and timed.setup_start[i] < window.end and timed.end[i] > window.start
        for i in range(t.size)
    )


def _when(case: Case, used: Mapping[tuple[str, int], Window]) -> str:
    """Say days, clock times and machines, windows that touch on one machine as one."""
    stretches: dict[tuple[int, int], list[str]] = {}
    for machine in sorted({name for name, _ in used}):
        for start, end in _joined([window for key, window in used.items() if key[0] == machine]):
            stretches.setdefault((start, end), []).append(machine)
    told = []
    for (start, end), names in sorted(stretches.items()):
        first, last = case.week.axis.moment(start), case.week.axis.moment(end)
        clock = f"{day_short(first)} {first:%H:%M} to {last:%H:%M}"
        told.append(f"{clock} on {' and '.join(names)}")
    return "; ".join(told)


def _joined(found: list[Window]) -> list[tuple[int, int]]:
    """Return stretches from the first to the last window of a day: breaks do not divide a shift."""
    stretches: dict[int, tuple[int, int]] = {}
    for window in found:
        start, end = stretches.get(window.start // DAY_MIN, (window.start, window.end))
        stretches[window.start // DAY_MIN] = (min(start, window.start), max(end, window.end))
    return list(stretches.values())
