"""What a good foreman does without a computer: whenever a machine is free it takes, of the jobs that are
ready there, the first one by a rule.

A machine never stands while a job waits in front of it (non-delay dispatch; Baker & Trietsch, Principles of
Sequencing and Scheduling, name from memory). Each job goes to the roll it was quoted on, the set-up begins
when the machine takes the job, and nobody works overtime. These plans are what every plan is held against,
and where searches begin.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence

from scheduler.sequence.timing import NEVER, Tables, Timed, Timer

DUE_ORDER = "due-day order"


def by_hand(t: Tables, key: Mapping[str, float] | None = None) -> Timed:
    """Return the plan of a rule: the smallest key of an operation's id first, without keys the earliest due.

    Equals go by due minute, then as they stand in the problem. An operation that belongs to no dated job
    counts as due when the first that waits for it is.
    """
    due = _needed(t)
    names = [operation.id for operation in t.problem.operations]
    keys = [due[i] if key is None else key.get(names[i], 0.0) for i in range(t.size)]
    return _Floor(t, [(keys[i], due[i], i) for i in range(t.size)]).run()


def _needed(t: Tables) -> list[int]:
    """Return the due minute of each operation: its job's, or that of the first that waits for it."""
    due = [t.due[k] if t.weight[k] else NEVER for k in t.job]
    for _ in range(2):  # what is cut is rolled, and may be re-rounded
        for i, waits in enumerate(t.before):
            for j, _lag in waits:
                due[j] = min(due[j], due[i])
    return due


class _Floor:
    def __init__(self, t: Tables, rank: Sequence[tuple[float, int, int]]) -> None:
        self.t, self.rank = t, rank
        self.timer = Timer(t, [next(iter(modes)) for modes in t.minutes])
        self.timer.place_running()
        self.waiting: list[list[int]] = [[] for _ in t.calendars]
        for i in range(t.size):
            if not self.timer.state[i]:
                self.waiting[self.timer.machine[i]].append(i)

    def run(self) -> Timed:
        """Let the machine that can begin something first take its first job, until all are placed."""
        timer = self.timer
        while any(self.waiting):
            at, m = min(self._turn(m) for m in range(len(self.waiting)))
            ready = [i for i in self.waiting[m] if at >= NEVER or self._ready(i) <= at]
            i = min(ready, key=self.rank.__getitem__)
            if at < NEVER:
                timer.ready[m] = max(timer.ready[m], at)
            timer.place(i)
            for row in self.waiting:
                row[:] = [j for j in row if not timer.state[j]]
        return timer.result()

    def _turn(self, m: int) -> tuple[int, int]:
        """Return when a machine can begin something next (NEVER: not known yet), and the machine."""
        soonest = min((self._ready(i) for i in self.waiting[m]), default=NEVER)
        if soonest >= NEVER:
            return (NEVER if self.waiting[m] else NEVER + 1), m
        at = self.t.calendars[m].at
        w = bisect_left(at, max(soonest, self.timer.ready[m]))
        return (at[w] if w < len(at) else NEVER), m

    def _ready(self, i: int) -> int:
        t, timer = self.t, self.timer
        if any(timer.state[j] != 2 for j, _ in t.before[i]):
            return NEVER
        return max([t.release[i], *(timer.end[j] + lag for j, lag in t.before[i])])
