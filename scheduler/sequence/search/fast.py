"""Hands a problem to the compiled local search and takes its order back."""

from __future__ import annotations

import time
from typing import Any

import numpy as np

from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.search.local import Search
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import NEVER, Tables, Timed, time_order

WARM, COOL = 0.1, 0.01  # first and last temperature as shares of the mean value of one operation, by trial
LONG_SEARCH = 400  # candidates an operation from which on the full temperature pays, by trial
CHUNK_WORK = 500_000  # operations timed between two looks at the clock


def can_go_fast(t: Tables) -> bool:
    """Whether the compiled timing knows every rule of the problem: all but pinned starts."""
    return t.size > 1 and all(s is None for s in t.fixed_start)


def fast_search(t: Tables, start: Timed, stop: Stop, seed: int = 0) -> Search:
    """Late acceptance with compiled timing: `stop.iterations` candidates, or `stop.seconds`."""
    from scheduler.sequence.search.row_kernel import search  # noqa: PLC0415 - compiled, so only when used

    packed = pack(t)
    able, ables = _machines(t)
    found = Search(start, [(0, start.total)])
    order = np.array(_running_first(t, start.order()), dtype=np.int64)
    machine = np.array(start.machine, dtype=np.int64)
    chunk = max(200, CHUNK_WORK // t.size)
    value = _value(t, order, machine, packed)
    # few candidates an operation leave no time to recover from a hot start
    calm = min(1.0, stop.iterations / (LONG_SEARCH * t.size))
    warm, cool = (max(1.0, share * calm * value / t.size) for share in (WARM, COOL))
    clock = _Cooling(stop)
    for first in range(0, stop.iterations, chunk):
        steps = min(chunk, stop.iterations - first)
        begin, end = clock.stretch(first, steps)
        if begin >= 1.0:
            break
        heat, colder = (warm * (cool / warm) ** x for x in (begin, end))
        best, best_machine, new = search(
            order, machine, able, ables, steps, heat, colder, seed * 7919 + first, *packed
        )
        if new < value:
            value = int(new)
            timed = time_order(t, best.tolist(), best_machine.tolist())
            if timed.score < found.best.score:
                found.best = timed
                found.steps.append((first + steps, timed.total))
    return found


class _Cooling:
    """How far the search is, 0 to 1: by candidates, or by wall time where that runs out first."""

    def __init__(self, stop: Stop) -> None:
        self.stop = stop
        self.began = None if stop.seconds is None else time.monotonic()
        self.before = 0.0

    def stretch(self, first: int, steps: int) -> tuple[float, float]:
        """Where the next `steps` candidates begin and, judged by the last stretch, are likely to end."""
        begin, end = first / self.stop.iterations, (first + steps) / self.stop.iterations
        if self.began is not None and self.stop.seconds is not None:
            spent = (time.monotonic() - self.began) / max(self.stop.seconds, 1e-9)
            begin = max(begin, spent)
            end = max(end, begin + (begin - self.before))
            self.before = begin
        return begin, min(1.0, end)


def _value(t: Tables, order: Any, machine: Any, packed: tuple[Any, ...]) -> int:
    from scheduler.sequence.search.row_kernel import evaluate  # noqa: PLC0415

    start = np.zeros(t.size, dtype=np.int64)
    return int(evaluate(order, machine, start, np.iinfo(np.int64).max, *packed))


def _running_first(t: Tables, order: list[int]) -> list[int]:
    return sorted(order, key=lambda i: not t.running[i])


def _machines(t: Tables) -> tuple[Any, Any]:
    able = np.zeros((t.size, len(t.calendars)), dtype=np.int64)
    for i, modes in enumerate(t.minutes):
        able[i, : len(modes)] = sorted(modes)
    return able, np.array([len(m) for m in t.minutes], dtype=np.int64)


def pack(t: Tables) -> tuple[Any, ...]:
    """Arrays in the shape the kernel wants: calendars, operations, jobs, rules and working space."""
    horizon = t.problem.horizon
    longest = max((len(c.at) for c in t.calendars), default=0) + 1

    def rows(lists: list[Any], width: int, kind: Any = np.int32) -> Any:
        made = np.zeros((len(lists), width), dtype=kind)
        for k, values in enumerate(lists):
            made[k, : len(values)] = values
        return made

    cal = (
        rows([c.at for c in t.calendars], longest),
        rows([c.before for c in t.calendars], horizon + 2),
        rows([c.resume for c in t.calendars], longest),
        rows([c.paid for c in t.calendars], longest, np.int64),
        np.array([len(c.at) for c in t.calendars], dtype=np.int64),
    )
    people = np.full(horizon + 1, 10_000, dtype=np.int16) if t.people is None else np.array(t.people)
    space = (
        np.zeros(horizon + 1, dtype=np.int16),
        np.zeros(horizon + 1, dtype=np.int16),
        people.astype(np.int16),
        np.full(horizon + 1, t.problem.cranes, dtype=np.int16),
        np.zeros(len(t.calendars), dtype=np.int64),
        np.zeros(len(t.calendars), dtype=np.int64),
        np.zeros(t.size, dtype=np.int64),
        np.zeros(len(t.due), dtype=np.int64),
        np.zeros(len(t.due), dtype=np.int64),
        np.zeros(t.size + 1, dtype=np.int64),
    )
    hard = [NEVER // 2 if m is None else m for m in t.must_ship]
    jobs = (
        np.array(t.due, dtype=np.int64),
        np.array(t.weight, dtype=np.int64),
        np.array(hard, dtype=np.int64),
    )
    crew = t.problem.setup_crew if t.people is not None else 0
    factor = 1000 if t.problem.aim is Aim.DATES_FIRST else 1
    return cal, _operations(t), jobs, (t.setup_rate, t.wip_rate, crew, factor, horizon), space


def _operations(t: Tables) -> tuple[Any, ...]:
    n, m = t.size, len(t.calendars)
    minutes, running_cost = np.zeros((2, m, n), dtype=np.int64)
    for i, modes in enumerate(t.minutes):
        for k, p in modes.items():
            minutes[k, i] = p
            running_cost[k, i] = t.running_cost[i][k]
    matrices: list[Any] = [np.zeros((n + 1, n), dtype=np.int32)]
    matrix_of = []
    seen: dict[int, int] = {}
    for machine in t.problem.machines:
        given = t.problem.setups.get(machine.id)
        if given is not None and id(given) not in seen:
            seen[id(given)] = len(matrices)
            matrices.append(given.astype(np.int32))
        matrix_of.append(0 if given is None else seen[id(given)])
    waits = [pair for pairs in t.before for pair in pairs]
    first = np.concatenate(([0], np.cumsum([len(pairs) for pairs in t.before])))
    return (
        minutes,
        running_cost,
        np.stack(matrices),
        np.array(matrix_of, dtype=np.int64),
        np.arange(m, dtype=np.int64),
        np.array(t.release, dtype=np.int64),
        np.array(t.crew, dtype=np.int64),
        np.array(t.crane, dtype=np.int64),
        np.array(t.may_pause, dtype=np.bool_),
        np.array([j for j, _ in waits], dtype=np.int64),
        np.array([lag for _, lag in waits], dtype=np.int64),
        first.astype(np.int64),
        np.array(t.running, dtype=np.bool_),
        np.array(t.job, dtype=np.int64),
    )
