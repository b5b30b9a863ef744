"""Orders that a person could make by hand: by date, by slack, and by apparent tardiness cost.

The index of the last one is that of Lee, Bhaskaran & Pinedo 1997, "A heuristic to minimize the total
weighted tardiness
with sequence-dependent setups", IIE Transactions 29:
I_j(t, l) = w_j / p_j * exp(-max(d_j - p_j - t, 0) / (k1 p)) * exp(-s_lj / (k2 s)) with p and s the means.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.typing import NDArray

from scheduler.sequence.timing import Tables, Timed, Timer, time_order

LOOK_AHEAD = (0.5, 1.0, 2.0, 4.0, 8.0)
SETUP_SCALE = (0.2, 0.6, 2.0)
FEW_SCALES = (1.0, 4.0, 12.0), (0.6, 2.0)


def first_machines(tables: Tables) -> list[int]:
    """Return for each operation its quickest machine, of equals the cheapest."""
    return [
        min(modes, key=lambda m: (modes[m], cost[m], m))
        for modes, cost in zip(tables.minutes, tables.running_cost, strict=True)
    ]


def tails(tables: Tables) -> list[int]:
    """Minutes of work and waiting that must follow each operation before its job can ship."""
    after: list[list[tuple[int, int]]] = [[] for _ in range(tables.size)]
    for i, waits in enumerate(tables.before):
        for j, lag in waits:
            if tables.job[i] == tables.job[j]:
                after[j].append((i, lag))
    tail: dict[int, int] = {}

    def of(i: int) -> int:
        if i not in tail:
            tail[i] = 0
            tail[i] = max((lag + min(tables.minutes[k].values()) + of(k) for k, lag in after[i]), default=0)
        return tail[i]

    return [of(i) for i in range(tables.size)]


def wanted_by(tables: Tables) -> tuple[list[int], list[int]]:
    """Return the minute by which each operation is to have ended, and the ticks of a minute after it.

    What others wait for, such as cutting that belongs to no dated job, is wanted as they are.
    """
    tail = tails(tables)
    due = [tables.due[tables.job[i]] - tail[i] for i in range(tables.size)]
    weight = [max(1, tables.weight[k]) for k in tables.job]
    for i in range(tables.size):
        for j, lag in tables.before[i]:
            due[j] = min(due[j], due[i] - min(tables.minutes[i].values()) - lag)
            weight[j] = max(weight[j], weight[i])
    return due, weight


def in_order(tables: Tables, order: Iterable[int]) -> Timed:
    """Take the operations in this order, each on the machine where it ends first."""
    machine = first_machines(tables)
    timer = Timer(tables, machine)
    timer.place_running()

    def place(i: int) -> None:
        for j, _ in tables.before[i]:
            if not timer.state[j]:
                place(j)
        if not timer.state[i]:
            if tables.fixed_start[i] is None and len(tables.minutes[i]) > 1:
                cost = tables.running_cost[i]
                machine[i] = min(tables.minutes[i], key=lambda m: (timer.end_on(i, m), cost[m], m))
            timer.place(i)

    for i in order:
        if not timer.state[i]:
            place(i)
    return timer.result()


def date_order(tables: Tables) -> list[int]:
    """Earliest due date first; inside a job in process order."""
    tail = tails(tables)
    return sorted(range(tables.size), key=lambda i: (tables.due[tables.job[i]], tables.job[i], -tail[i], i))


def slack_order(tables: Tables) -> list[int]:
    """Earliest date of the operation itself first: the due date less what must still follow."""
    tail = tails(tables)
    return sorted(range(tables.size), key=lambda i: (tables.due[tables.job[i]] - tail[i], i))


def apparent_tardiness_cost(
    tables: Tables,
    look_ahead: Sequence[float] = LOOK_AHEAD,
    setup_scale: Sequence[float] = SETUP_SCALE,
) -> Timed:
    """Best plan of the index over a small grid of its two scales."""
    dispatch = _Dispatch(tables)
    timed = [dispatch.run(k1, k2) for k1 in look_ahead for k2 in setup_scale]
    return min(timed, key=lambda t: t.score)


def best_rule(t: Tables) -> tuple[str, Timed]:
    """Return the name and plan of the best rule."""
    found = [
        ("apparent tardiness cost", apparent_tardiness_cost(t, *FEW_SCALES)),
        ("date order", in_order(t, date_order(t))),
        ("slack order", in_order(t, slack_order(t))),
    ]
    return min(found, key=lambda nt: nt[1].score)


class _Dispatch:
    """Lets the machine that is free first take the waiting operation with the highest index."""

    def __init__(self, tables: Tables) -> None:
        self.t = tables
        n, m = tables.size, len(tables.calendars)
        self.minutes = np.full((m, n), -1, dtype=np.int64)
        for i, modes in enumerate(tables.minutes):
            for k, p in modes.items():
                self.minutes[k, i] = p
        due, weight = wanted_by(tables)
        self.due, self.weight = np.array(due, np.float64), np.array(weight, np.float64)
        self.after: list[list[tuple[int, int]]] = [[] for _ in range(n)]
        for i, waits in enumerate(tables.before):
            for j, lag in waits:
                self.after[j].append((i, lag))
        self.setups = [None if s is None else np.array(s, dtype=np.int64) for s in tables.setups]
        self.mean_work = max(1.0, float(np.mean(self.minutes[self.minutes >= 0]))) if n else 1.0
        used = [s[1:][s[1:] > 0] for s in self.setups if s is not None]
        self.mean_setup = max(1.0, float(np.mean(np.concatenate(used)))) if any(u.size for u in used) else 1.0

    def run(self, k1: float, k2: float) -> Timed:
        t = self.t
        timer = Timer(t, first_machines(t))
        missing = [len(waits) for waits in t.before]
        earliest = np.array(t.release, dtype=np.int64)
        ready = np.array([not waits for waits in t.before])
        timer.place_running()
        seen = 0
        while True:
            for i in timer.placed[seen:]:
                ready[i] = False
                for j, lag in self.after[i]:
                    missing[j] -= 1
                    earliest[j] = max(earliest[j], timer.end[i] + lag)
                    ready[j] = missing[j] == 0 and not timer.state[j]
            seen = len(timer.placed)
            if seen == t.size:
                return timer.result()
            i, m = self._choose(timer, ready, earliest, k1, k2)
            if t.fixed_start[i] is None:
                timer.machine[i] = m
            timer.place(i)

    def _choose(
        self, timer: Timer, ready: NDArray[np.bool_], earliest: NDArray[np.int64], k1: float, k2: float
    ) -> tuple[int, int]:
        """Return operation and machine: the machine that can start something soonest, and its best
        operation."""
        best: tuple[int, int, int] | None = None
        for m in range(len(self.t.calendars)):
            able = np.flatnonzero((self.minutes[m] >= 0) & ready)
            if able.size:
                found = self._best_on(timer, m, able, earliest[able], k1, k2)
                if best is None or found < best:
                    best = found
        if best is None:  # only a circle closed by a pin leaves nothing ready
            i = timer.state.index(0)
            return i, timer.machine[i]
        return best[1], best[2]

    def _best_on(
        self,
        timer: Timer,
        m: int,
        able: NDArray[np.int64],
        earliest: NDArray[np.int64],
        k1: float,
        k2: float,
    ) -> tuple[int, int, int]:
        """Return start minute, operation and machine of the highest index among those that can start
        soonest."""
        matrix = self.setups[m]
        setup = (
            np.zeros(able.size, dtype=np.int64) if matrix is None else matrix[timer.last[m] + 1, able].copy()
        )
        start = np.maximum(timer.ready[m] + setup, earliest)
        work = self.minutes[m, able]
        soon = start <= np.min(start + work)
        slack = np.maximum(self.due[able] - work - start, 0.0)
        exponent = -slack / (k1 * self.mean_work) - setup / (k2 * self.mean_setup)
        wait = np.maximum(start - timer.ready[m] - setup, 0)
        exponent -= wait / self.mean_work
        index = np.log(self.weight[able] / np.maximum(work, 1)) + exponent
        index[~soon] = -np.inf
        pick = int(np.argmax(index))
        return int(start[pick]), int(able[pick]), m


def as_pinned(t: Tables) -> Timed:
    """Return the order of the pinned starts, what those wait for just before them, the rest by slack."""
    tail = tails(t)
    key = [
        t.due[t.job[i]] - tail[i] - min(t.minutes[i].values()) if start is None else start
        for i, start in enumerate(t.fixed_start)
    ]
    for i, start in enumerate(t.fixed_start):
        if start is not None:
            for j, lag in t.before[i]:
                key[j] = min(key[j], start - lag - min(t.minutes[j].values()))
    for i, waits in enumerate(t.before):
        if t.fixed_start[i] is None and any(t.fixed_start[j] is not None for j, _ in waits):
            key[i] = max(key[i], *(key[j] + lag for j, lag in waits))
    machine = first_machines(t)
    return time_order(t, sorted(range(t.size), key=lambda i: (key[i], i)), machine)
