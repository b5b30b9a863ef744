"""What a foreman does by hand, minute by minute: whenever a machine is free it takes, of the jobs that are
ready there, the first by one rule, on the quoted roll and without overtime; and what any plan costs, counted
again.

No code of the scheduler is used: a plan that this file finds sound and as dear as the tool says has been
counted twice.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from tests.benchmarks.honest.book import ShopBook
from tests.benchmarks.honest.work import Task

Rule = Callable[[Task], tuple[float, ...]]
LAST = 1 << 30

RULES: Mapping[str, Rule] = {
    "due-day order": lambda task: (LAST if task.due is None else task.due, task.first_come),
    "thickness order": lambda task: (task.thickness, LAST if task.due is None else task.due, task.first_come),
    "first-come order": lambda task: (task.first_come,),
}


@dataclass(frozen=True)
class Done:
    """A task on its machine: the set-up begins, how long it is, the work starts, and has ended."""

    task: Task
    machine: str
    setup_start: int
    setup: int
    start: int
    end: int


@dataclass(frozen=True)
class Money:
    """What a plan costs, and of what."""

    setup: Decimal
    lateness: Decimal
    overtime: Decimal
    running: Decimal

    @property
    def total(self) -> Decimal:
        """All of it."""
        return self.setup + self.lateness + self.overtime + self.running


def dispatch(tasks: Sequence[Task], book: ShopBook, rule: Rule) -> list[Done]:
    """Return the week as the rule gives it. Raises ValueError when the book's weeks are too short for it."""
    return _Floor(tasks, book).run(rule)


class _Floor:
    def __init__(self, tasks: Sequence[Task], book: ShopBook) -> None:
        self.book = book
        self.waiting: dict[str, list[Task]] = {}
        for task in tasks:
            self.waiting.setdefault(next(iter(task.minutes)), []).append(task)
        self.open = {machine: book.open_minutes(machine, overtime=False) for machine in self.waiting}
        self.free = dict.fromkeys(self.waiting, 0)
        self.state = {roll: book.first_state(roll) for roll in book.rolls}
        self.people = list(book.people)
        self.cranes = [book.cranes] * book.minutes
        self.ended: dict[str, int] = {}

    def run(self, rule: Rule) -> list[Done]:
        done: list[Done] = []
        while any(self.waiting.values()):
            at, machine = min(self._next_turns())
            ready = [task for task in self.waiting[machine] if self._ready(task) <= at]
            task = min(ready, key=lambda one: (rule(one), one.id))
            self.waiting[machine].remove(task)
            done.append(self._do(task, machine, at))
        return done

    def _next_turns(self) -> Iterable[tuple[int, str]]:
        """Yield when each machine can begin something next: it is free, open, and a job is ready there."""
        for machine, tasks in self.waiting.items():
            ready = min((self._ready(task) for task in tasks), default=LAST)
            if ready < LAST:
                minutes = self.open[machine]
                at = bisect_left(minutes, max(ready, self.free[machine]))
                if at == len(minutes):
                    raise ValueError(f"{machine} has no time left")
                yield minutes[at], machine

    def _ready(self, task: Task) -> int:
        if any(before not in self.ended for before, _ in task.after):
            return LAST
        return max([task.ready, *(self.ended[before] + lag for before, lag in task.after)])

    def _do(self, task: Task, machine: str, at: int) -> Done:
        setup, begin, ready = 0, at, at
        if task.state is not None:
            setup = self.book.setup(self.state[machine], task.state)
            self.state[machine] = task.state
            begin, ready = self._take(machine, at, setup, 1, False)
        start, end = self._take(machine, ready, task.minutes[machine], task.crew, task.crane)
        self.free[machine] = self.ended[task.id] = end
        return Done(task, machine, begin if setup else start, setup, start, end)

    def _take(self, machine: str, at: int, length: int, crew: int, crane: bool) -> tuple[int, int]:
        """Take the first stretch of working minutes in which people and crane are there throughout."""
        minutes = self.open[machine]
        first = bisect_left(minutes, at)
        while True:
            taken = minutes[first : first + length]
            if len(taken) < length:
                raise ValueError(f"{machine} has no time left")
            short = [k for k, m in enumerate(taken) if self.people[m] < crew or self.cranes[m] < crane]
            if not short:
                break
            first += short[-1] + 1
        for minute in taken:
            self.people[minute] -= crew
            self.cranes[minute] -= crane
        return (taken[0], taken[-1] + 1) if taken else (at, at)


class Count:
    """A plan counted again from its starts and ends: its money, and every rule that it breaks.

    `extra` holds the stretches of overtime that each machine is worked in.
    """

    def __init__(
        self,
        done: Sequence[Done],
        book: ShopBook,
        extra: Mapping[str, Iterable[tuple[int, int]]] | None = None,
    ) -> None:
        self.done, self.book = done, book
        self.overtime: dict[str, set[int]] = {}
        self.open: dict[str, list[int]] = {}
        for machine in {one.machine for one in done}:
            offered = set(book.open_minutes(machine, overtime=True))
            worked = {m for begin, end in (extra or {}).get(machine, ()) for m in range(begin, end)}
            self.overtime[machine] = offered & worked
            self.open[machine] = sorted(
                {*book.open_minutes(machine, overtime=False), *self.overtime[machine]}
            )

    def money(self) -> Money:
        """Return what the plan costs."""
        ends: dict[str, int] = {}
        due: dict[str, int] = {}
        for one in self.done:
            if one.task.line and one.task.due is not None:
                ends[one.task.line] = max(one.end, ends.get(one.task.line, 0))
                due[one.task.line] = one.task.due
        minutes = ((one.machine, {*self._work(one), *self._setup(one)}) for one in self.done)
        extra = sum(len(self.overtime[machine] & taken) for machine, taken in minutes)
        return Money(
            setup=sum(one.setup for one in self.done) * self.book.setup_minute,
            lateness=sum(max(0, ends[line] - due[line]) for line in ends) * self.book.late_minute,
            overtime=extra * self.book.overtime_minute,
            running=sum((one.task.dearer.get(one.machine, Decimal(0)) for one in self.done), Decimal(0)),
        )

    def faults(self, tasks: Sequence[Task]) -> list[str]:
        """Return in words what is left out or breaks a rule."""
        by_id = {one.task.id: one for one in self.done}
        found = [f"{task.id} is not planned" for task in tasks if task.id not in by_id]
        for machine in self.open:
            found += self._row_faults(
                sorted((o for o in self.done if o.machine == machine), key=lambda o: o.start)
            )
        for one in self.done:
            if len(self._work(one)) != one.task.minutes[one.machine]:
                found.append(f"{one.task.id} does not work {one.task.minutes[one.machine]} min")
            if one.start < one.task.ready:
                found.append(f"{one.task.id} starts before its plate is there")
            found += [
                f"{one.task.id} starts before {before} is through"
                for before, lag in one.task.after
                if before in by_id and by_id[before].end + lag > one.start
            ]
        return found + self._shortages()

    def _work(self, one: Done) -> list[int]:
        minutes = self.open[one.machine]
        return minutes[bisect_left(minutes, one.start) : bisect_left(minutes, one.end)]

    def _setup(self, one: Done) -> list[int]:
        minutes = self.open[one.machine]
        first = bisect_left(minutes, one.setup_start)
        return minutes[first : min(first + one.setup, bisect_left(minutes, one.start))]

    def _row_faults(self, row: Sequence[Done]) -> Iterable[str]:
        book = self.book
        free, state = 0, book.first_state(row[0].machine) if row[0].machine in book.rolls else None
        for one in row:
            if state is not None and one.task.state is not None:
                needed = book.setup(state, one.task.state)
                if needed != one.setup:
                    yield f"{one.task.id} is set up in {one.setup} min, needs {needed}"
                state = one.task.state
            if min(one.setup_start, one.start) < free:
                yield f"{one.task.id} begins while the work before it still runs"
            if len(self._setup(one)) < one.setup:
                yield f"{one.task.id} starts before it is set up"
            free = one.end

    def _shortages(self) -> list[str]:
        people, cranes = list(self.book.people), [self.book.cranes] * self.book.minutes
        for one in self.done:
            for minute in self._work(one):
                people[minute] -= one.task.crew
                cranes[minute] -= one.task.crane
            for minute in self._setup(one):
                people[minute] -= 1
        short = [sum(left < 0 for left in level) for level in (people, cranes)]
        if not any(short):
            return []
        return [f"{short[0]} minutes without enough people, {short[1]} without a crane"]
