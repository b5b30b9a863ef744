"""Changes of order, wishes, roll and plate: each yields the plans found with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from quoting.core import first_few
from scheduler.calendar import day_short
from scheduler.cures.late_case import Case, Trial
from scheduler.jobs import CUT, DAY_MIN
from scheduler.sequence import MustShip, Pin, SequenceProblem, Tables, Timed, Wish
from scheduler.wishes import wish_words

MOST_WISHES = 6
"""Wishes that are dropped one by one for one late line."""

MOST_NAMED = 4
"""Lines that are named in one sentence."""


def put_ahead(case: Case) -> Iterator[Trial]:
    """Yield the present problem with the line as early as it goes."""
    t, timed = case.solved(case.problem)
    yield Trial("order", _ahead_words(case, t, timed), t, timed)


def _ahead_words(case: Case, t: Tables, timed: Timed) -> str:
    """Say which lines on its roll it then comes before."""
    index = {operation.id: i for i, operation in enumerate(t.problem.operations)}
    rolling = case.operations[0]
    had = case.plan.of(rolling)
    passed = [
        other.operation
        for other in case.plan.on(had.machine)
        if other.start < had.start and timed.start[index[other.operation]] > timed.start[index[rolling]]
    ]
    names = list(dict.fromkeys(t.problem.operation(operation).job for operation in passed))
    ahead = (
        f"put it ahead of {first_few(names, MOST_NAMED)} on {had.machine}"
        if names
        else "put it and its plates ahead"
    )
    if case.late_in(t, timed):
        return ahead
    due = case.week.axis.moment(t.due[case.job] - 1)
    return f"{ahead} (wish: must ship {day_short(due)})"


def drop_wish(case: Case) -> Iterator[Trial]:
    """Yield the problem without one wish, for each wish about the line or about work on its machines."""
    wishes = sorted(case.problem.wishes, key=lambda wish: not _about(case, wish))
    able = [wish for wish in wishes if _in_the_way(case, wish)]
    for wish in able[:MOST_WISHES]:
        t, timed = case.solved(case.problem.without((wish,)))
        yield Trial("wish", f"drop the wish: {wish_words(wish, case.week.axis)}", t, timed)


def _about(case: Case, wish: Wish) -> bool:
    return isinstance(wish, Pin) and bool({wish.operation, wish.before} & set(case.operations))


def _in_the_way(case: Case, wish: Wish) -> bool:
    """Whether dropping the wish could help: what runs already and the line's own hard date cannot."""
    if isinstance(wish, MustShip):
        jobs, names = {wish.job} - {case.line.id}, set[str]()
    else:
        jobs, names = set(), set() if wish.running else {wish.operation}
    return _about(case, wish) or any(
        operation.id in names or operation.job in jobs
        for operation in case.problem.operations
        if case.plan.of(operation.id).machine in case.machines
    )


def other_roll(case: Case) -> Iterator[Trial]:
    """Yield the problem with the line on each other roll that can do it and that no pin forbids."""
    if case.line.lot is not None:
        return
    rolling = case.problem.operation(case.operations[0])
    had = case.plan.of(rolling.id).machine
    pins = [pin for pin in case.problem.pins if pin.operation == rolling.id]
    if any(pin.machine is not None or pin.running for pin in pins):
        return
    for mode in rolling.modes:
        if mode.machine != had:
            forced = (*case.problem.pins, Pin(rolling.id, mode.machine))
            t, timed = case.solved(replace(case.problem, pins=forced))
            yield Trial("roll", f"roll it on {mode.machine} instead of {had}", t, timed)


def plate_sooner(case: Case) -> Iterator[Trial]:
    """Yield the problem with the line's plates in the house on the last day that helps as much as any."""
    cuts = {f"{CUT} {plate}" for plate in case.line.plates}
    last = max((o.release for o in case.problem.operations if o.id in cuts), default=0)
    days = [day for day in case.workdays if day * DAY_MIN < last]
    if not days:
        return
    found = {0: case.solved(_in_house_by(case.problem, cuts, days[0]))}
    least = case.late_in(*found[0])
    if least < case.late:
        low, high = 0, len(days)  # days[low] helps as much as any, days[high] is not known to
        while high - low > 1:
            middle = (low + high) // 2
            found[middle] = case.solved(_in_house_by(case.problem, cuts, days[middle]))
            enough = case.late_in(*found[middle]) <= least
            low, high = (middle, high) if enough else (low, middle)
    else:
        low = 0
    yield Trial("plate", _plate_words(case, cuts, days[low]), *found[low])


def _in_house_by(problem: SequenceProblem, cuts: set[str], day: int) -> SequenceProblem:
    operations = tuple(
        replace(o, release=min(o.release, day * DAY_MIN)) if o.id in cuts else o for o in problem.operations
    )
    return replace(problem, operations=operations)


def _plate_words(case: Case, cuts: set[str], day: int) -> str:
    axis = case.week.axis
    late = [o for o in case.problem.operations if o.id in cuts and o.release > day * DAY_MIN]
    last = max(o.release for o in late)
    sooner = sum(day <= workday < last // DAY_MIN for workday in case.workdays)
    names = first_few([o.id.removeprefix(f"{CUT} ") for o in late], MOST_NAMED)
    return (
        f"have plate{'s' if len(late) > 1 else ''} {names} in by {day_short(axis.moment(day * DAY_MIN))} "
        f"instead of {day_short(axis.moment(last))}, {sooner} working day{'s' if sooner != 1 else ''} sooner"
    )
