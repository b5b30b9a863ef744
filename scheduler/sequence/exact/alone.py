"""What each work costs at the least, begun on a machine at a given minute, all else out of the way."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.timing import Tables, process_order, soonest_end

Ints = NDArray[np.int64]

FAR = 1 << 50
"""Ticks of work that does not fit into the horizon."""


class Alone:
    """The works of a problem with all overtime open, one by one.

    Late money of a job is charged to one of its works, the longest: what follows it is done at once. Minutes
    here are working minutes of the machine.
    """

    def __init__(self, t: Tables) -> None:
        self.t = t
        self.dates_first = t.problem.aim is Aim.DATES_FIRST
        self.order = process_order(t)
        self.start = self._heads()
        longest: dict[int, int] = {}
        for i in range(t.size):
            k = t.job[i]
            if k not in longest or min(t.minutes[i].values()) > min(t.minutes[longest[k]].values()):
                longest[k] = i
        self.charged = set(longest.values())

    def _heads(self) -> list[int]:
        """First minute of the clock at which each work can begin."""
        t, start, end = self.t, [0] * self.t.size, [0] * self.t.size
        for i in self.order:
            start[i] = max([t.release[i], *(end[j] + lag for j, lag in t.before[i])])
            end[i] = min(soonest_end(t.calendars[m], start[i], p) for m, p in t.minutes[i].items())
        return start

    def in_rows(self) -> tuple[list[int], list[int]]:
        """Return the works that queue, and their machines: all that need set-ups or decide what is late."""
        t = self.t
        machines = {m for m, matrix in enumerate(t.setups) if matrix is not None}
        machines |= {m for i in self.charged if t.weight[t.job[i]] for m in t.minutes[i]}
        works: set[int] = set()
        while True:
            found = {i for i in range(t.size) if not machines.isdisjoint(t.minutes[i])}
            reached = {m for i in found for m in t.minutes[i]}
            if found == works and reached <= machines:
                return sorted(works), sorted(m for m in machines if m in reached)
            works, machines = found, machines | reached

    def besides(self, works: list[int]) -> int:
        """Ticks of what those works do not cost: the cheapest machine of all others."""
        own = set(works)
        if self.dates_first:
            return 0
        return sum(min(cost.values()) for i, cost in enumerate(self.t.running_cost) if i not in own)

    def least(self, i: int) -> int:
        """Ticks of work i at the least, wherever and whenever it is done."""
        return int(min(self.cost(i, m)[self.first(i, m) :].min(initial=FAR) for m in self.t.minutes[i]))

    def first(self, i: int, m: int) -> int:
        """Return the working minute at which work i can begin on machine m."""
        before = self.t.calendars[m].before
        return before[min(self.start[i], len(before) - 1)]

    def cost(self, i: int, m: int) -> Ints:
        """Ticks of work i begun at each working minute of machine m, FAR where it does not fit any more."""
        t, p = self.t, self.t.minutes[i][m]
        at = self._at(m)
        fits = max(0, len(at) - max(p, 1) + 1)
        found = np.full(len(at), FAR)
        found[:fits] = 0 if self.dates_first else self._overtime(m, p)[:fits] + t.running_cost[i][m]
        k = t.job[i]
        if i in self.charged and t.weight[k]:
            end = self._job_end(i, at[max(p, 1) - 1 :][:fits] + (p > 0))
            found[:fits] += t.weight[k] * np.maximum(0, end - t.due[k])
        return found

    def _job_end(self, i: int, end: Ints) -> Ints:
        """Return when the job of work i can end when that ends then, its other works done at once."""
        t = self.t
        ends: dict[int, Ints] = {i: end}
        for j in self.order:
            before = [(ends[b], lag) for b, lag in t.before[j] if b in ends]
            if not before or j == i or t.job[j] != t.job[i]:
                continue
            ready = np.maximum.reduce([at + lag for at, lag in before])
            ready = np.maximum(ready, self.start[j])
            ends[j] = np.minimum.reduce([self._ended(m, ready, p) for m, p in t.minutes[j].items()])
        latest: Ints = np.maximum.reduce(list(ends.values()))
        return latest

    def _ended(self, m: int, ready: Ints, minutes: int) -> Ints:
        """Return when work is done that begins as soon as it can, by the clock where it does not fit."""
        at, before = self._at(m), np.asarray(self.t.calendars[m].before, np.int64)
        last = before[np.minimum(ready, len(before) - 1)] + max(minutes, 1) - 1
        fits = (ready < len(before)) & (last < len(at)) & (minutes > 0)
        return np.where(fits, at[np.minimum(last, len(at) - 1)] + 1, ready + minutes)

    def _overtime(self, m: int, minutes: int) -> Ints:
        """Ticks of the overtime that work begun at each minute cannot avoid: that of its first window."""
        t = self.t
        machine = t.problem.machines[m]
        paid = np.asarray(t.calendars[m].paid, np.int64)
        windows = machine.windows
        lengths = [w.end - w.start for w in windows]
        stop = np.repeat(np.cumsum(lengths), lengths)
        extra = np.repeat([w.overtime_cost_per_min is not None for w in windows], lengths)
        begin = np.arange(len(stop))
        return np.where(extra, paid[np.minimum(begin + minutes, stop)] - paid[begin], 0)

    @cache  # noqa: B019 - lives as long as one bound
    def _at(self, m: int) -> Ints:
        return np.asarray(self.t.calendars[m].at, np.int64)
