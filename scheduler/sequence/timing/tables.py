"""The problem as plain lists of integers, the form the timing code and the searches read.

Operations, machines and jobs are numbers in the order of the problem. Money is whole ticks, 10,000 to the
unit of
currency, so that sums are exact.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal
from functools import lru_cache
from itertools import accumulate, chain, repeat

import numpy as np

from quoting.core import InputError
from scheduler.sequence.problem import SequenceProblem
from scheduler.sequence.problem_parts import Machine, Pin, Window

TICKS = 10_000
NEVER = 2**62
Opened = frozenset[tuple[str, int]]  # machine and first minute of each overtime window that is worked


def ticks(money: Decimal) -> int:
    """Whole ten-thousandths of the currency's unit.

    >>> ticks(Decimal("1.5"))
    15000
    """
    return int((money * TICKS).to_integral_value(ROUND_HALF_EVEN))


def money(amount: int) -> Decimal:
    """Ticks back to money, four decimals."""
    return Decimal(amount).scaleb(-4)


@dataclass(frozen=True)
class Calendar:
    """Working minutes of one machine, numbered 0, 1, 2, ... over all its open windows.

    `at[w]`: the minute of working minute w. `before[t]`: working minutes before minute t. `resume[w]`: the
    working minute
    at which the next stretch without a gap starts. `paid[w]`: overtime ticks of all working minutes before
    w.
    """

    at: Sequence[int]
    before: Sequence[int]
    resume: Sequence[int]
    paid: Sequence[int]
    has_overtime: bool


@dataclass(frozen=True)
class Tables:
    """One problem with a choice of opened overtime windows, as integers."""

    problem: SequenceProblem
    opened: Opened
    calendars: Sequence[Calendar]
    minutes: Sequence[dict[int, int]]
    running_cost: Sequence[dict[int, int]]
    setups: Sequence[Sequence[Sequence[int]] | None]
    release: Sequence[int]
    crew: Sequence[int]
    crane: Sequence[bool]
    may_pause: Sequence[bool]
    before: Sequence[tuple[tuple[int, int], ...]]
    fixed_start: Sequence[int | None]
    running: Sequence[bool]
    job: Sequence[int]
    due: Sequence[int]
    weight: Sequence[int]
    must_ship: Sequence[int | None]
    people: Sequence[int] | None
    setup_rate: int
    wip_rate: int

    @property
    def size(self) -> int:
        """Number of operations."""
        return len(self.release)

    def setup(self, machine: int, before: int, operation: int) -> int:
        """Set-up minutes on a machine, `before` = -1 for its initial state."""
        matrix = self.setups[machine]
        return 0 if matrix is None or self.running[operation] else matrix[before + 1][operation]


def tables(problem: SequenceProblem, opened: Opened = frozenset()) -> Tables:
    """Turn the problem into integers, with the overtime windows of `opened` worked and the others
    closed."""
    index = {o.id: i for i, o in enumerate(problem.operations)}
    machine_index = {m.id: k for k, m in enumerate(problem.machines)}
    jobs = {j.id: k for k, j in enumerate(problem.jobs)}
    pins: dict[str, list[Pin]] = {}
    for pin in problem.pins:
        pins.setdefault(pin.operation, []).append(pin)
    minutes, running_cost, release, before, fixed, running = [], [], [], [], [], []
    for operation in problem.operations:
        own = pins.get(operation.id, [])
        kept = [m for m in operation.modes if all(p.machine in (None, m.machine) for p in own)]
        if not kept:
            raise InputError(f"{operation.id} is pinned to two machines at once")
        minutes.append({machine_index[m.machine]: m.minutes for m in kept})
        running_cost.append({machine_index[m.machine]: ticks(m.cost) for m in kept})
        release.append(max([operation.release, *(p.not_before or 0 for p in own)]))
        fixed.append(next((p.start for p in own if p.start is not None), None))
        running.append(any(p.running for p in own))
        before.append(_before(problem, operation.id, index))
    return Tables(
        problem,
        opened,
        calendars=_calendars(problem.machines, opened, problem.horizon),
        minutes=minutes,
        running_cost=running_cost,
        setups=[problem.setups[m.id].tolist() if m.id in problem.setups else None for m in problem.machines],
        release=release,
        crew=[o.crew if problem.staffing else 0 for o in problem.operations],
        crane=[o.crane for o in problem.operations],
        may_pause=[o.may_pause for o in problem.operations],
        before=before,
        fixed_start=fixed,
        running=running,
        job=[jobs[o.job] for o in problem.operations],
        due=[j.due for j in problem.jobs],
        weight=[ticks(j.weight) for j in problem.jobs],
        must_ship=[j.must_ship for j in problem.jobs],
        people=_people(problem),
        setup_rate=ticks(problem.rates.setup),
        wip_rate=ticks(problem.rates.wip),
    )


def _before(problem: SequenceProblem, name: str, index: dict[str, int]) -> tuple[tuple[int, int], ...]:
    own = [(index[a.operation], a.lag) for a in problem.operations[index[name]].after]
    pinned = [(index[p.operation], 0) for p in problem.pins if p.before == name]
    return tuple(own + pinned)


def open_windows(machine: Machine, opened: Opened) -> list[Window]:
    """Return the regular windows and the opened overtime windows, in order of time."""
    return [w for w in machine.windows if w.overtime_cost_per_min is None or (machine.id, w.start) in opened]


def overtime_windows(problem: SequenceProblem) -> list[tuple[str, Window]]:
    """All overtime windows on offer, by time."""
    found = [(m.id, w) for m in problem.machines for w in m.windows if w.overtime_cost_per_min is not None]
    return sorted(found, key=lambda mw: (mw[1].start, mw[0]))


def _calendars(machines: Iterable[Machine], opened: Opened, horizon: int) -> list[Calendar]:
    made: dict[tuple[Window, ...], Calendar] = {}
    result = []
    for machine in machines:
        windows = tuple(open_windows(machine, opened))
        if windows not in made:
            made[windows] = _calendar(windows, horizon)
        result.append(made[windows])
    return result


@lru_cache(maxsize=64)  # one search asks for the same few calendars again and again
def _calendar(windows: tuple[Window, ...], horizon: int) -> Calendar:
    at = np.array([t for window in windows for t in range(window.start, window.end)], dtype=np.int64)
    rates = (
        repeat(ticks(window.overtime_cost_per_min or Decimal(0)), window.end - window.start)
        for window in windows
    )
    before = np.zeros(horizon + 2, dtype=np.int64)
    before[at + 1] = 1
    gaps = np.flatnonzero(np.diff(at) != 1) + 1
    resume = np.append(gaps, len(at))[np.searchsorted(gaps, np.arange(len(at)), side="right")]
    return Calendar(
        at.tolist(),
        before.cumsum().tolist(),
        resume.tolist(),
        list(accumulate(chain.from_iterable(rates), initial=0)),
        any(w.overtime_cost_per_min is not None for w in windows),
    )


def _people(problem: SequenceProblem) -> list[int] | None:
    if not problem.staffing:
        return None
    people = [0] * (problem.horizon + 1)
    for level in problem.staffing:
        for t in range(level.start, min(level.end, problem.horizon)):
            people[t] = level.people
    return people
