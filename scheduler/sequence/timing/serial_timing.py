"""From an order to minutes: the one timing code that every rule, search and comparison uses.

Operations are taken in the order given. Each goes to the end of its machine's row at the earliest minute
at which
the machine is set up, the job is released, what it waits for has ended, and people and crane are free
(serial
schedule generation; Kolisch 1996, European Journal of Operational Research 90). Any plan whose rows cannot
be moved earlier can be reached by
some order, so nothing good is lost.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.timing.tables import NEVER, Calendar, Tables

Score = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Timed:
    """A timed order. `broken` counts minutes by which hard rules are missed: 0 is a plan that can be
    run. `placed` is the order in which the operations were placed: it gives exactly this plan again, which
    their starts alone do not where people are short."""

    machine: Sequence[int]
    setup_start: Sequence[int]
    setup_minutes: Sequence[int]
    start: Sequence[int]
    end: Sequence[int]
    broken: int
    setup: int
    lateness: int
    overtime: int
    wip: int
    running: int
    dates_first: bool
    unplaced: tuple[int, ...] = ()
    placed: tuple[int, ...] = ()

    @property
    def score(self) -> Score:
        """What the searches make small: broken rules first, then the aim (ticks)."""
        rest = self.setup + self.overtime + self.wip + self.running
        if self.dates_first:
            return (self.broken, self.lateness, rest)
        return (self.broken, self.lateness + rest, 0)

    @property
    def total(self) -> int:
        """All money, ticks."""
        return self.setup + self.lateness + self.overtime + self.wip + self.running

    @property
    def goal(self) -> int:
        """The money that a bound is about, ticks: all of it, or with dates first the late money."""
        return self.lateness if self.dates_first else self.total

    def order(self) -> list[int]:
        """Operations by start: the order that gives this plan again."""
        return sorted(range(len(self.start)), key=lambda i: (self.start[i], self.end[i], i))


def time_order(tables: Tables, order: Sequence[int], machine: Sequence[int]) -> Timed:
    """Time the operations in this order on these machines; what must come first is put first."""
    return Timer(tables, list(machine)).run(order)


class Timer:
    """The state of one timing run: how far each machine is, and who is still free in each minute."""

    def __init__(self, tables: Tables, machine: list[int]) -> None:
        n, m = tables.size, len(tables.calendars)
        self.t = tables
        self.machine = machine
        self.ready = [0] * m
        self.last = [-1] * m
        self.state = bytearray(n)  # 0 waiting, 1 being placed, 2 placed
        self.setup_start, self.setup_minutes = [0] * n, [0] * n
        self.start, self.end = [0] * n, [0] * n
        self.broken = 0
        self.overtime = 0
        self.unplaced: list[int] = []
        self.placed: list[int] = []
        self.people = None if tables.people is None else list(tables.people)
        needs_crane = any(tables.crane)
        self.cranes = [tables.problem.cranes] * (tables.problem.horizon + 1) if needs_crane else None
        self.fixed: list[list[int]] = [[] for _ in range(m)]
        self._reserve_fixed()

    def _reserve_fixed(self) -> None:
        t = self.t
        for i in sorted(range(t.size), key=lambda i: t.fixed_start[i] or 0):
            start = t.fixed_start[i]
            if start is None:
                continue
            m = self.machine[i]
            self.fixed[m].append(i)
            calendar = t.calendars[m]
            if 0 <= start < len(calendar.before) - 1:
                self._take(calendar, calendar.before[start], t.minutes[i][m], t.crew[i], t.crane[i])

    def run(self, order: Sequence[int]) -> Timed:
        """Place what runs already, then all in order."""
        self.place_running()
        for i in order:
            if not self.state[i]:
                self.place(i)
        return self.result()

    def place_running(self) -> None:
        """Place the operations that are on their machines already."""
        for i in range(self.t.size):
            if self.t.running[i]:
                self.place(i)

    def end_on(self, i: int, m: int) -> int:
        """Return the minute at which an operation would end if it came next on machine m (NEVER: does not
        fit)."""
        t = self.t
        earliest = max([t.release[i], *(self.end[j] + lag for j, lag in t.before[i])])
        placed = self._try(i, m, earliest)
        if placed is None:
            return NEVER
        at, end = t.calendars[m].at, placed[4]
        return at[end - 1] + 1 if end > placed[3] else at[min(end, len(at) - 1)]

    def place(self, i: int) -> None:
        """Place an operation now, after what it waits for and any pinned start it would run into."""
        t, m = self.t, self.machine[i]
        self.state[i] = 1
        earliest = t.release[i]
        for j, lag in t.before[i]:
            if not self.state[j]:
                self.place(j)
            if self.state[j] == 1:
                self.broken += 1_000_000
            earliest = max(earliest, self.end[j] + lag)
        fixed = t.fixed_start[i] is not None
        while True:
            placed = self._try(i, m, earliest)
            following = None if fixed else self._next_fixed(i, m)
            if following is None or self._leaves_room(i, following, m, placed):
                break
            self.place(following)
        self._commit(i, m, placed, fixed)

    def _next_fixed(self, i: int, m: int) -> int | None:
        return next((f for f in self.fixed[m] if not self.state[f] and f != i), None)

    def _leaves_room(self, i: int, f: int, m: int, placed: tuple[int, int, int, int, int] | None) -> bool:
        start = self.t.fixed_start[f]
        if placed is None or start is None:
            return False
        before = self.t.calendars[m].before
        free = before[min(start, len(before) - 1)] - placed[4]
        return placed[3] + self.t.minutes[i][m] <= placed[4] and free >= self.t.setup(m, i, f)

    def _try(self, i: int, m: int, earliest: int) -> tuple[int, int, int, int, int] | None:
        """Return set-up's first working minute and length, its end, the work's first working minute and
        end."""
        t, calendar = self.t, self.t.calendars[m]
        minutes = t.minutes[i][m]
        setup = t.setup(m, self.last[m], i)
        horizon = len(calendar.before) - 1
        if max(self.ready[m], earliest) > horizon:
            return None
        begin = calendar.before[self.ready[m]]
        if setup:
            crew = t.problem.setup_crew if self.people is not None else 0
            begin = self._fit(calendar, begin, setup, crew, False, True)
            if begin >= NEVER:
                return None
        setup_end = begin + setup
        fixed = t.fixed_start[i]
        if fixed is not None:
            work = self._fixed_minute(calendar, fixed, setup_end, earliest)
            if work + minutes > len(calendar.at):
                return None
        else:
            work = max(setup_end, calendar.before[earliest])
            work = self._fit(calendar, work, minutes, t.crew[i], t.crane[i], t.may_pause[i])
            if work >= NEVER:
                return None
        return begin, setup, setup_end, work, work + minutes

    def _fixed_minute(self, calendar: Calendar, fixed: int, setup_end: int, earliest: int) -> int:
        if fixed >= len(calendar.before):
            return NEVER
        return max(calendar.before[fixed], setup_end, calendar.before[earliest])

    def _fit(
        self, calendar: Calendar, first: int, minutes: int, crew: int, crane: bool, may_pause: bool
    ) -> int:
        """Return the first working minute from `first` on where the work fits, NEVER when there is none."""
        at, total = calendar.at, len(calendar.at)
        w = first
        while w + minutes <= total:
            if w == total:
                return w if minutes == 0 else NEVER
            last = w + max(minutes, 1) - 1
            if not may_pause and at[last] - at[w] != last - w:
                w = calendar.resume[w]
                continue
            if minutes == 0 or ((not crew or self.people is None) and (not crane or self.cranes is None)):
                return w
            blocked = self._blocked(calendar, w, last, crew, crane)
            if blocked < 0:
                return w
            w = calendar.before[blocked] + 1
        return NEVER

    def _blocked(self, calendar: Calendar, first: int, last: int, crew: int, crane: bool) -> int:
        """Return the last minute without enough people or crane of the first stretch that has one, or
        -1."""
        at = calendar.at
        while first <= last:
            stop = min(calendar.resume[first] - 1, last)
            a, b = at[first], at[stop] + 1
            if crew and self.people is not None and min(self.people[a:b]) < crew:
                return max(t for t in range(a, b) if self.people[t] < crew)
            if crane and self.cranes is not None and min(self.cranes[a:b]) < 1:
                return max(t for t in range(a, b) if self.cranes[t] < 1)
            first = stop + 1
        return -1

    def _take(self, calendar: Calendar, first: int, minutes: int, crew: int, crane: bool) -> None:
        people = self.people if crew else None
        cranes = self.cranes if crane else None
        if people is None and cranes is None:
            return
        for t in calendar.at[first : first + minutes]:
            if people is not None:
                people[t] -= crew
            if cranes is not None:
                cranes[t] -= 1

    def _commit(self, i: int, m: int, placed: tuple[int, int, int, int, int] | None, fixed: bool) -> None:
        t, calendar = self.t, self.t.calendars[m]
        self.state[i] = 2
        self.placed.append(i)
        if placed is None:
            self.broken += 1_000_000
            self.unplaced.append(i)
            self.start[i] = self.end[i] = self.setup_start[i] = t.problem.horizon
            return
        begin, setup, _, work, end = placed
        at, horizon = calendar.at, t.problem.horizon
        self.start[i] = at[work] if work < len(at) else horizon
        self.end[i] = at[end - 1] + 1 if end > work else self.start[i]
        self.setup_start[i] = at[begin] if setup else self.start[i]
        self.setup_minutes[i] = setup
        if setup:
            self._take(calendar, begin, setup, t.problem.setup_crew, False)
        if fixed:
            self._judge_fixed(i, calendar, work, end)
        else:
            self._take(calendar, work, end - work, t.crew[i], t.crane[i])
        if calendar.has_overtime:
            paid = calendar.paid
            self.overtime += paid[begin + setup] - paid[begin] + paid[end] - paid[work]
        self.ready[m], self.last[m] = self.end[i], i

    def _judge_fixed(self, i: int, calendar: Calendar, work: int, end: int) -> None:
        self.broken += abs(self.start[i] - (self.t.fixed_start[i] or 0))
        if (
            not self.t.may_pause[i]
            and end > work
            and calendar.at[end - 1] - calendar.at[work] != end - 1 - work
        ):
            self.broken += 1

    def result(self) -> Timed:
        """Sum up once all are placed."""
        t = self.t
        lateness = wip = 0
        first, done = [NEVER] * len(t.due), [0] * len(t.due)
        for i, k in enumerate(t.job):
            first[k] = min(first[k], self.start[i])
            done[k] = max(done[k], self.end[i])
        for k, due in enumerate(t.due):
            if first[k] == NEVER:
                continue
            lateness += t.weight[k] * max(0, done[k] - due)
            wip += t.wip_rate * (done[k] - first[k])
            hard = t.must_ship[k]
            if hard is not None:
                self.broken += max(0, done[k] - hard)
        return Timed(
            list(self.machine),
            self.setup_start,
            self.setup_minutes,
            self.start,
            self.end,
            self.broken + self._overbooked(),
            sum(self.setup_minutes) * t.setup_rate,
            lateness,
            self.overtime,
            wip,
            sum(t.running_cost[i][m] for i, m in enumerate(self.machine)),
            t.problem.aim is Aim.DATES_FIRST,
            tuple(self.unplaced),
            tuple(self.placed),
        )

    def _overbooked(self) -> int:
        """Minutes in which pinned starts book more people or cranes than there are."""
        if not any(self.fixed):
            return 0
        return sum(sum(1 for free in level if free < 0) for level in (self.people, self.cranes) if level)
