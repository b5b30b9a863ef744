"""Hands a problem to the compiled local search and takes its order back."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import Any

import numpy as np

from scheduler.sequence.search.packing import NOTHING_HELD, HeldPlaces, late_factor, pack
from scheduler.sequence.search.search_result import Search
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import Opened, Tables, Timed, tables, time_order

WARM, COOL = 0.3, 0.003  # first and last temperature as shares of the mean value of one operation, by trial
CHUNK_WORK = 3_000_000  # operations timed between two looks at the clock
MOST = 2**62


@dataclass
class FastSearch(Search):
    """A search that ended; `tables` are those of the best order, with the overtime that it opens."""

    tables: Tables | None = None


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the search may do besides changing order and machines: open and close overtime with `windows`.

    With `slack` it makes the slack before due dates large, among plans that are no dearer than the first.
    With `held` their ticks count too, and the best order by that is returned whatever the start was.
    `scale` is the money in ticks that temperatures are shares of, without it all of the first plan's.
    """

    windows: bool = True
    slack: bool = False
    held: HeldPlaces = NOTHING_HELD
    scale: int = 0


def fast_search(
    t: Tables, start: Timed, stop: Stop, seed: int = 0, wanted: Wanted | None = None
) -> FastSearch:
    """Annealing with compiled timing: `stop.iterations` candidates, or `stop.seconds`."""
    from scheduler.sequence.search.row_kernel import (  # noqa: PLC0415 - compiled, so only when used
        evaluate,
        search,
    )

    wanted = wanted or Wanted(windows=False)
    packed = pack(t, windows=wanted.windows, slack=wanted.slack, held=wanted.held)
    able, ables = able_machines(t)
    order = np.array(running_first(t, start.placed), dtype=np.int64)
    machine = np.array(start.machine, dtype=np.int64)
    begun, most, scale = np.zeros(t.size, dtype=np.int64), MOST, wanted.scale or start.total
    if wanted.slack:
        most = evaluate(order, machine, begun, *pack(t))
        scale = evaluate(order, machine, begun, *packed) - most
    chunk = max(200, CHUNK_WORK // t.size)
    # with dates first the late money counts more: at first it must be able to rise, too
    hottest = scale + (late_factor(t) - 1) * (0 if wanted.scale or wanted.slack else start.lateness)
    warm, cool = max(1.0, WARM * hottest / t.size), max(1.0, COOL * scale / t.size)
    clock = _Cooling(stop)
    best: tuple[int, int, Any, Any, Any] | None = None
    for first in range(0, stop.iterations, chunk):
        steps = min(chunk, stop.iterations - first)
        begin, end = clock.stretch(first, steps)
        if begin >= 1.0:
            break
        heat, colder = (warm * (cool / warm) ** x for x in (begin, end))
        *new, value = search(
            order, machine, able, ables, steps, heat, colder, seed * 7919 + first, most, *packed
        )
        if best is None or value < best[0]:
            best = (int(value), first + steps, *new)
    return _found(t, start, best, wanted)


def _found(
    t: Tables, start: Timed, best: tuple[int, int, Any, Any, Any] | None, wanted: Wanted
) -> FastSearch:
    """Time the best order of the kernel and take it when it is better than the start, or has more slack."""
    found = FastSearch(start, [(0, start.total)], t)
    if best is None or best[0] >= MOST:
        return found
    _, step, order, machine, opened = best
    windows = opened_windows(t, opened)
    own = t if windows == t.opened else tables(t.problem, windows)
    timed = time_order(own, order.tolist(), machine.tolist())
    if wanted.held.places or timed.score < start.score or (wanted.slack and timed.score == start.score):
        found.best, found.tables = timed, own
        found.steps.append((step, timed.total))
    return found


def opened_windows(t: Tables, opened: Any) -> Opened:
    """Return the overtime windows that are marked as worked, shape (machines, windows)."""
    return frozenset(
        (machine.id, window.start)
        for k, machine in enumerate(t.problem.machines)
        for j, window in enumerate(machine.windows)
        if window.overtime_cost_per_min is not None and opened[k, j]
    )


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


def running_first(t: Tables, order: Any) -> list[int]:
    """Return the order with what runs already before the rest."""
    return sorted(order, key=lambda i: not t.running[i])


def able_machines(t: Tables) -> tuple[Any, Any]:
    """Return for each operation the machines that can do it, shape (n, machines), and how many they are."""
    able = np.zeros((t.size, len(t.calendars)), dtype=np.int64)
    for i, modes in enumerate(t.minutes):
        able[i, : len(modes)] = sorted(modes)
    return able, np.array([len(m) for m in t.minutes], dtype=np.int64)
