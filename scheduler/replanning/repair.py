"""A published plan repaired: kept where it can be, its neighbours tried where that pays for the disturbance.

The search runs over orders timed by `scheduler.sequence`; what it makes small is the plan's money and
`move_cost` for every job that is on another roll or day than published without being forced to, ten times as
much for each beyond a tenth of them: a plan of which much moves is a new plan to everybody. A job that
begins within the frozen hours weighs as much as all money.
"""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from scheduler.calendar import MinuteAxis
from scheduler.jobs import CUT, DAY_MIN, ShopOperation
from scheduler.replanning.published import Published
from scheduler.sequence import (
    Aim,
    Opened,
    SequenceProblem,
    Stop,
    Tables,
    Timed,
    fast_search,
    job_end,
    tables,
    time_order,
)

Rank = tuple[int, int, int, int]

TICKS = 10_000
CHEAP_SHARE, DEAR = 0.1, 10
"""More moves than this share of the jobs that nothing forces cost so many times `move_cost` each."""
FROZEN_WEIGHT = 1_000_000
FROZEN_SLIP_MIN = 60
"""How far the begin of a frozen job may slide, since what stands before it may take other minutes."""


@dataclass(frozen=True)
class Was:
    """Where the published plan has an operation: machine and minute on the new axis."""

    machine: int
    start: int


class Repair:
    """One repair of a published plan in a new problem. `works` are the problem's operations in its order."""

    def __init__(
        self,
        problem: SequenceProblem,
        works: Sequence[ShopOperation],
        axis: MinuteAxis,
        published: Published,
        move_cost: Decimal,
        frozen_until: int,
        changed: frozenset[str],
    ) -> None:
        self.problem, self.works = problem, works
        self.move_cost = int(move_cost * TICKS)
        self.frozen_until = frozen_until
        number = {machine.id: index for index, machine in enumerate(problem.machines)}
        self.was: dict[int, Was] = {}
        for index, work in enumerate(works):
            old = published.works.get(work.operation.id)
            if old is not None and old.machine in number:
                self.was[index] = Was(number[old.machine], axis.minute(old.start))
        self.opened: Opened = frozenset(
            (machine.id, window.start)
            for machine in problem.machines
            for window in machine.windows
            if window.overtime_cost_per_min is not None
            and _was_worked(machine.id, window.start, published, axis)
        )
        self.t = tables(problem, self.opened)
        self.lines = {
            index: work.line.id for index, work in enumerate(works) if work.line and work.kind != CUT
        }
        self.running = {self.lines[index] for index in self.lines if self.t.running[index]}
        self.reference = self._right_shifted()
        both = {line for index, line in self.lines.items() if index in self.was}
        new = {line for index, line in self.lines.items() if index not in self.was}
        self.subjects = frozenset(both - new - self.running)
        """The lines of both plans that have not begun."""
        self.forced = self._forced(changed)
        self.held = [i for i, line in self.lines.items() if line in self.subjects - self.forced]
        """The operations of subjects that nothing forces to move."""

    def _right_shifted(self) -> Timed:
        machine = [min(modes, key=modes.__getitem__) for modes in self.t.minutes]
        for index, was in self.was.items():
            if was.machine in self.t.minutes[index]:
                machine[index] = was.machine
        never = self.problem.horizon + 1
        due = [self.t.due[self.t.job[index]] for index in range(self.t.size)]
        order = sorted(
            range(self.t.size),
            key=lambda i: (max(self.was[i].start, self._soonest(i)) if i in self.was else never, due[i], i),
        )
        return time_order(self.t, order, machine)

    def _soonest(self, index: int) -> int:
        """Return the minute before which an operation cannot begin, by its own release and what it waits for.

        A job whose plate is late goes in there, and does not hold up those that came after it.
        """
        t = self.t
        waits = [self._soonest(j) + min(t.minutes[j].values()) + lag for j, lag in t.before[index]]
        return max([t.release[index], *waits])

    def _forced(self, changed: frozenset[str]) -> frozenset[str]:
        """Return the lines that move even when the published order is kept, and those that changed."""
        pushed = {
            self.lines[index]
            for index in self.lines
            if index in self.was and self._is_moved(self.reference, index)
        }
        return (frozenset(pushed) | changed) & self.subjects

    def _is_moved(self, timed: Timed, index: int) -> bool:
        was = self.was[index]
        return timed.machine[index] != was.machine or timed.start[index] // DAY_MIN != was.start // DAY_MIN

    def moved(self, timed: Timed) -> frozenset[str]:
        """Return the lines, not forced, that are on another roll or day than published."""
        return frozenset(self.lines[index] for index in self.held if self._is_moved(timed, index))

    def thawed(self, timed: Timed) -> frozenset[str]:
        """Return the lines inside the frozen hours, not forced, that did not stay."""
        return frozenset(
            self.lines[index]
            for index in self.held
            if self.was[index].start < self.frozen_until
            and (
                self._is_moved(timed, index)
                or abs(timed.start[index] - self.reference.start[index]) > FROZEN_SLIP_MIN
            )
        )

    def deviation(self, timed: Timed) -> int:
        """Return the sum of the moves of all published starts of rolling, minutes."""
        return sum(
            abs(timed.start[index] - was.start)
            for index, was in self.was.items()
            if self.lines.get(index) in self.subjects
        )

    def _price_of_moves(self, moved: int) -> int:
        over = max(0, moved - int(CHEAP_SHARE * len({self.lines[index] for index in self.held})))
        return self.move_cost * (moved + (DEAR - 1) * over)

    def rank(self, timed: Timed) -> Rank:
        """Return what the repair makes small: broken rules, frozen jobs moved, money, deviation."""
        stay = self._price_of_moves(len(self.moved(timed)))
        frozen = FROZEN_WEIGHT * len(self.thawed(timed))
        if self.problem.aim is Aim.DATES_FIRST:
            return (timed.broken, frozen + timed.lateness, timed.total + stay, self.deviation(timed))
        return (timed.broken, frozen, timed.total + stay, self.deviation(timed))

    def repaired(
        self, tries: int, seed: int, compiled: int = 0, also: Sequence[tuple[Opened, Timed]] = ()
    ) -> tuple[Tables, Timed]:
        """Return the best plan found from the right-shifted one and from those of `also`, with its tables.

        `compiled` are the candidates of the compiled search, 0 for none.
        """
        best_t, best = self._improved(self.t, self._new_ones_in(self.t, self.reference), tries, seed)
        for opened in dict.fromkeys([self.opened, *(other for other, _ in also)]):
            t = tables(self.problem, opened)
            start = self._new_ones_in(t, time_order(t, best.placed, best.machine))
            if compiled:
                start = min(start, self._annealed(t, start, compiled, seed), key=self.rank)
            found_t, found = self._improved(t, start, tries, seed + 1)
            if self.rank(found) < self.rank(best):
                best_t, best = found_t, found
        for opened, timed in also:
            t = tables(self.problem, opened)
            start = self._put_back(t, time_order(t, timed.placed, timed.machine))
            found_t, found = self._improved(t, start, tries, seed + 2)
            if self.rank(found) < self.rank(best):
                best_t, best = found_t, found
        return best_t, best

    def _annealed(self, t: Tables, start: Timed, candidates: int, seed: int) -> Timed:
        """Return what the compiled search makes of a plan when a held job costs more elsewhere.

        It knows no price of another day: a held job is released on its own day, and another roll costs it
        `move_cost`. The rest is judged by `rank`.
        """
        held = set(self.held)
        names = {index: machine.id for index, machine in enumerate(self.problem.machines)}
        dear = Decimal(self.move_cost) / TICKS
        operations = []
        for index, operation in enumerate(self.problem.operations):
            if index in held:
                was = self.was[index]
                modes = tuple(
                    mode if mode.machine == names[was.machine] else replace(mode, cost=mode.cost + dear)
                    for mode in operation.modes
                )
                release = max(operation.release, was.start // DAY_MIN * DAY_MIN)
                operation = replace(operation, modes=modes, release=release)  # noqa: PLW2901
            operations.append(operation)
        stay = tables(replace(self.problem, operations=tuple(operations)), t.opened)
        held_start = time_order(stay, start.placed, start.machine)
        found = fast_search(stay, held_start, Stop(iterations=candidates), seed).best
        return time_order(t, found.placed, found.machine)

    def _new_ones_in(self, t: Tables, timed: Timed) -> Timed:
        """Put in each operation that was not published, and each forced line's, where it is best."""
        free = [
            index
            for index, line in self.lines.items()
            if not t.running[index] and (index not in self.was or line in self.forced)
        ]
        for index in sorted(free, key=lambda i: (t.due[t.job[i]], i)):
            timed = self._best_place(t, timed, index)
        return timed

    def _best_place(self, t: Tables, timed: Timed, index: int, places: int = 24) -> Timed:
        block = [*(j for j, _ in t.before[index] if self.works[j].kind == CUT and j not in self.was), index]
        rest = [i for i in timed.placed if i not in set(block)]
        best = timed
        for machine in t.minutes[index]:
            machines = list(timed.machine)
            machines[index] = machine
            step = max(1, len(rest) // places)
            for at in range(0, len(rest) + 1, step):
                found = time_order(t, [*rest[:at], *block, *rest[at:]], machines)
                best = min(best, found, key=self.rank)
        return best

    def _put_back(self, t: Tables, timed: Timed) -> Timed:
        """Put each line that moved back to where it was, one after the other, where that is better."""
        for line in sorted(self.moved(timed)):
            for index in (i for i, name in self.lines.items() if name == line and i in self.was):
                was = self.was[index]
                if was.machine not in t.minutes[index]:
                    continue
                machines = list(timed.machine)
                machines[index] = was.machine
                rest = [i for i in timed.placed if i != index]
                at = sum(timed.start[i] < was.start for i in rest)
                found = time_order(t, [*rest[:at], index, *rest[at:]], machines)
                timed = min(timed, found, key=self.rank)
        return timed

    def _improved(self, t: Tables, start: Timed, tries: int, seed: int) -> tuple[Tables, Timed]:
        chance = random.Random(seed)
        best, rank = start, self.rank(start)
        for _ in range(tries):
            found = self._neighbour(t, best, chance)
            found_rank = self.rank(found)
            if found_rank <= rank:
                best, rank = found, found_rank
        return t, best

    def _neighbour(self, t: Tables, timed: Timed, chance: random.Random) -> Timed:
        order, machines = list(timed.placed), timed.machine
        late = [i for i in self.lines if job_end(t, timed, t.job[i]) > t.due[t.job[i]]]
        hot = [i for i in (*late, *(i for i in self.lines if i not in self.was)) if not t.running[i]]
        index = chance.choice(hot) if hot and chance.random() < 0.4 else chance.choice(order)
        others = [m for m in t.minutes[index] if m != machines[index]]
        if others and chance.random() < 0.25:
            machines = list(machines)
            machines[index] = chance.choice(others)
        at = order.index(index)
        order.pop(at)
        reach = 12 if chance.random() < 0.7 else len(order)
        to = max(0, min(len(order), at + chance.randint(-reach, reach)))
        order.insert(to, index)
        return time_order(t, order, machines)


def _was_worked(machine: str, start: int, published: Published, axis: MinuteAxis) -> bool:
    return (machine, axis.moment(start)) in published.overtime
