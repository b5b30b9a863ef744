"""A published plan repaired: kept where it can be, its neighbours tried where that pays for the disturbance.

The search runs over orders timed by `scheduler.sequence`; what it makes small is the plan's money and
ten times `move_cost` for every job that is on another roll or day than published without being forced to, a
hundred times for each beyond a tenth of them: a plan of which much moves is a new plan to everybody. Money
beyond two per cent more than the plan from scratch counts ten times as well: a plan that is good enough is
left alone, a dear one is changed where a move saves more than `move_cost`. A job that is forced is away from
where it was too, so it counts in part: what was pushed is taken back where that is cheap. One that begins
within the frozen hours weighs as much as all money, unless the event itself pushes it by more than it may
slide: then its hour is lost anyhow, and only its roll and day are held.

It begins from the published plan pushed only as far as it must, and from the one from scratch. Both are
searched on and mixed, first where a move costs little, so that some jobs go from their places, then where it
costs ever more, so that those stay away whose absence saves most and the others come home. A floor too large
for that, and a plan that is then still much dearer than from scratch, is searched by a few long searches from
the published plan, at what a move counts where a plan is dear, and all that is found is mixed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import partial

from quoting.core import worked_ahead
from scheduler.jobs import CUT, DAY_MIN, ROLL
from scheduler.replanning.published import Published
from scheduler.replanning.right_shift import both_right_shifted, overtime_worked, was_in
from scheduler.sequence import (
    Aim,
    HeldPlaces,
    Mixing,
    Places,
    Plan,
    Stop,
    Tables,
    Timed,
    Wanted,
    fast_search,
    mixed_from,
    opened_in,
    tables,
    time_order,
    timed_again,
)
from scheduler.week import WeekProblem

Rank = tuple[int, int, int, int]

TICKS = 10_000
CHEAP_SHARE, TOO_MANY = 0.1, 100
"""More moves than this share of the jobs that nothing forces cost so many times `move_cost` each."""
DEAR = 10
ENOUGH = 0.02
"""Money beyond so much more, as a share, than from scratch counts `DEAR` times, and so does every move."""
OF_FORCED = 0.3
"""What it counts that a forced job is not where it was, as a share of what it counts of others: by trial."""
Prices = tuple[tuple[float, float], ...]
PRICES: Prices = ((0.2, 0), (1, 0), (DEAR, 0))
"""Times `move_cost` that a move costs in each of the searches, and what one too many costs besides: by trial.

Each begins from what those before found.
"""
LONG = ((0.5, 5), (1, 10))
"""The same in each half of a long search: a move counts a tenth where money counts `DEAR` times."""
LONG_WAYS, LONG_PARTS = 2, 12
"""So many long searches, which together time so many times the orders of a mixing: by trial."""
HOT = 3
"""A long search begins so many times as hot as others, since to leave a place costs much: by trial."""
WAYS = 4
MIXED = 400
"""With so many orders for each operation a search goes several ways, which are then mixed: by trial.

With fewer it would not bring home what went away while moves were cheap.
"""
FROZEN_WEIGHT = 1_000_000
FROZEN_SLIP_MIN = 60
"""How far the begin of a frozen job may slide, since what stands before it may take other minutes."""


class Repair:
    """One repair of a published plan in the problem of `week`; `scratch` is a plan that looks at none.

    `days` has by line a minute of its pinned day.
    """

    def __init__(
        self,
        week: WeekProblem,
        scratch: Plan,
        published: Published,
        move_cost: Decimal,
        frozen_until: int,
        changed: frozenset[str],
        days: Mapping[str, int],
    ) -> None:
        works, axis = week.works, week.axis
        problem = week.problem
        self.problem, self.works, self.days = problem, works, days
        self.move_cost = int(move_cost * TICKS)
        self.was = was_in(problem, works, axis, published)
        self.opened = overtime_worked(problem, axis, published)
        self.t = tables(problem, self.opened)
        own = tables(problem, opened_in(scratch))
        self.scratch = (own, timed_again(own, scratch))
        self.lines = {
            index: work.line.id for index, work in enumerate(works) if work.line and work.kind != CUT
        }
        self.running = {self.lines[index] for index in self.lines if self.t.running[index]}
        both = {line for index, line in self.lines.items() if index in self.was}
        new = {line for index, line in self.lines.items() if index not in self.was}
        self.subjects = frozenset(both - new - self.running)
        """The lines of both plans that have not begun."""
        shifted = (time_order(self.t, *one) for one in both_right_shifted(self.t, self.was))
        self.reference = min(shifted, key=self._off)
        self.forced = self._forced(changed)
        self.held = [i for i, line in self.lines.items() if line in self.subjects - self.forced]
        """The operations of subjects that nothing forces to move."""
        self.pushed = [i for i, line in self.lines.items() if line in self.forced]
        """Those of the others."""
        self._cheap = int(CHEAP_SHARE * len(self.subjects - self.forced))
        self.frozen = [
            i
            for i in self.held
            if self.was[i].start < frozen_until
            and abs(self.reference.start[i] - self.was[i].start) <= FROZEN_SLIP_MIN
        ]
        """Those inside the frozen hours that the event lets begin at about their hour."""

    def _off(self, timed: Timed) -> tuple[int, int, int]:
        """Return how far a plan that holds the published order is from the published one."""
        moved = sum(self._is_moved(timed, index) for index in self.lines if index in self.was)
        return timed.broken, moved, self.deviation(timed)

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

    def _pushed_away(self, timed: Timed) -> frozenset[str]:
        return frozenset(self.lines[index] for index in self.pushed if self._is_moved(timed, index))

    def thawed(self, timed: Timed) -> frozenset[str]:
        """Return the lines inside the frozen hours, not forced, that did not stay."""
        return frozenset(
            self.lines[index]
            for index in self.frozen
            if self._is_moved(timed, index)
            or abs(timed.start[index] - self.reference.start[index]) > FROZEN_SLIP_MIN
        )

    def off_day(self, timed: Timed) -> frozenset[str]:
        """Return the lines whose rolling does not begin on the day that they are pinned to."""
        return frozenset(
            line
            for index, line in self._on_days().items()
            if timed.start[index] // DAY_MIN != self.days[line] // DAY_MIN
        )

    def _on_days(self) -> dict[int, str]:
        """Return the rolling of the lines that are pinned to a day."""
        return {
            index: line
            for index, line in self.lines.items()
            if line in self.days and self.works[index].kind == ROLL
        }

    def deviation(self, timed: Timed) -> int:
        """Return the sum of the moves of all published starts of rolling, minutes."""
        return sum(
            abs(timed.start[index] - was.start)
            for index, was in self.was.items()
            if self.lines.get(index) in self.subjects
        )

    def _price_of_moves(self, timed: Timed, each: int, too_many: int) -> int:
        """Return what moves cost, in times `move_cost` by job; forced ones cost a part of it."""
        moved = len(self.moved(timed))
        over = max(0, moved - self._cheap)
        away = len(self._pushed_away(timed))
        return self.move_cost * (each * moved + (too_many - each) * over) + self._of_forced(each) * away

    def _of_forced(self, price: float) -> int:
        return int(self.move_cost * price * OF_FORCED)

    def _price_of_dearness(self, timed: Timed) -> int:
        return (DEAR - 1) * max(0, timed.total - int((1 + ENOUGH) * self.scratch[1].total))

    def rank(self, timed: Timed) -> Rank:
        """Return what the repair makes small: broken rules, frozen jobs moved, money, deviation."""
        moves = self._price_of_moves(timed, DEAR, TOO_MANY)
        return self._ranked(timed, moves + self._price_of_dearness(timed))

    def _rank_on_the_way(self, timed: Timed) -> Rank:
        """Return what is made small in single steps, where a move too many may still be taken back."""
        dear = self._price_of_moves(timed, 1, DEAR) + self._price_of_dearness(timed)
        return self._ranked(timed, dear)

    def _ranked(self, timed: Timed, stay: int) -> Rank:
        frozen = FROZEN_WEIGHT * (len(self.thawed(timed)) + len(self.off_day(timed)))
        if self.problem.aim is Aim.DATES_FIRST:
            return (timed.broken, frozen + timed.lateness, timed.total + stay, self.deviation(timed))
        return (timed.broken, frozen, timed.total + stay, self.deviation(timed))

    def repaired(self, orders: int, seed: int) -> tuple[Tables, Timed]:
        """Return the best plan found in timing so many orders, with its tables."""
        if not self.t.size:
            return self.t, self.reference  # all that is open is done
        t, scratch = self.scratch
        starts = [
            (self.t, self._new_ones_in(self.t, self.reference)),
            (t, self._new_ones_in(t, self._put_back(t, scratch))),
        ]
        found = [(self.t, self.reference), *starts, self.scratch]
        each = orders // len(PRICES)
        mixes = each >= MIXED * self.t.size
        if mixes:
            for step, price in enumerate(PRICES):
                found += self._mixed_at(price, found, each, 10 * seed + step)
        if not mixes or not self._cheap_enough(found):
            found += self._searched_long(starts[0], each, seed)
            price = LONG[-1] if not self._cheap_enough(found) else (DEAR, TOO_MANY)
            found += self._mixed_at(price, found, each, 10 * seed + len(PRICES))
        t, timed = min(found, key=lambda one: self.rank(one[1]))
        return t, min(timed, self._put_back(t, timed), key=self.rank)

    def _mixed_at(
        self, price: tuple[float, float], found: Sequence[tuple[Tables, Timed]], orders: int, seed: int
    ) -> list[tuple[Tables, Timed]]:
        least = max(1, min(timed.total for _, timed in found))
        return mixed_from(found, Stop(iterations=orders), seed, Mixing(WAYS, least, self.held_in(*price)))

    def _cheap_enough(self, found: Sequence[tuple[Tables, Timed]]) -> bool:
        """Return whether the best plan is hardly dearer than the one from scratch."""
        return not self._price_of_dearness(min((timed for _, timed in found), key=self.rank))

    def _searched_long(
        self, start: tuple[Tables, Timed], orders: int, seed: int
    ) -> list[tuple[Tables, Timed]]:
        """Return what is found from a plan where moves are cheap, and from there at what they count."""
        each = LONG_PARTS * orders // (LONG_WAYS * len(LONG))
        first, last = LONG
        ways = range(10 * seed, 10 * seed + LONG_WAYS)
        begun = list(worked_ahead([partial(self._annealed, start, each, way, first) for way in ways]))
        price = last if not self._cheap_enough(begun) else (DEAR, TOO_MANY)
        on = [
            partial(self._annealed, one, each, way + LONG_WAYS, price)
            for one, way in zip(begun, ways, strict=True)
        ]
        return begun + list(worked_ahead(on))

    def _annealed(
        self, start: tuple[Tables, Timed], orders: int, seed: int, price: tuple[float, float]
    ) -> tuple[Tables, Timed]:
        """Return what the compiled search makes of a plan when moving a held operation costs money too."""
        t, timed = start
        wanted = Wanted(held=self.held_in(*price), scale=HOT * max(1, self.scratch[1].total))
        found = fast_search(t, timed, Stop(iterations=orders), seed, wanted)
        return found.tables or t, found.best

    def held_in(self, price: float, more: float = 0) -> HeldPlaces:
        """Return what holds published operations: roll and day, in the frozen hours the hour.

        Those of forced lines are held a little, but where moves too many cost `more`: they are no such moves.
        """
        costs = dict.fromkeys(self.held, int(self.move_cost * price))
        if not more:
            costs |= dict.fromkeys(self.pushed, self._of_forced(price))
        places = {}
        for index, cost in costs.items():
            was = self.was[index]
            if was.machine not in self.t.minutes[index]:
                continue
            first = was.start // DAY_MIN * DAY_MIN
            places[index] = (was.machine, first, first + DAY_MIN - 1, cost)
            if index in self.frozen:
                near = self.reference.start[index]
                places[index] = (
                    was.machine, near - FROZEN_SLIP_MIN, near + FROZEN_SLIP_MIN, TICKS * FROZEN_WEIGHT,
                )  # fmt: skip
        for index, line in self._on_days().items():
            day = self.days[line] // DAY_MIN * DAY_MIN
            places[index] = (len(self.problem.machines), day, day + DAY_MIN - 1, TICKS * FROZEN_WEIGHT)
        return HeldPlaces(places, self._cheap, int(self.move_cost * more))

    def _new_ones_in(self, t: Tables, timed: Timed) -> Timed:
        """Put in each operation that was not published, and each forced line's, where it is best."""
        free = [
            index
            for index, line in self.lines.items()
            if not t.running[index] and (index not in self.was or line in self.forced)
        ]
        places = Places(t, self.held_in(1))
        order, machine = list(timed.placed), list(timed.machine)
        for index in sorted(free, key=lambda i: (t.due[t.job[i]], i)):
            order = self._best_place(t, places, order, machine, index)
        return min(timed, time_order(t, order, machine), key=self._rank_on_the_way)

    def _best_place(
        self, t: Tables, places: Places, order: list[int], machine: list[int], index: int, tries: int = 24
    ) -> list[int]:
        """Return the order with an operation and its cutting where they are best, its roll in `machine`."""
        block = [*(j for j, _ in t.before[index] if self.works[j].kind == CUT and j not in self.was), index]
        rest = [i for i in order if i not in set(block)]
        at = list(range(0, len(rest) + 1, max(1, len(rest) // tries)))
        found = []
        for able in t.minutes[index]:
            chosen = [*machine[:index], able, *machine[index + 1 :]]
            puts = places.scan(rest, block, at, t.job[index], chosen)
            found += [(put.score, put.end, place, able) for put, place in zip(puts, at, strict=True)]
        _, _, place, machine[index] = min(found)
        return [*rest[:place], *block, *rest[place:]]

    def _put_back(self, t: Tables, timed: Timed) -> Timed:
        """Put each line that moved back to where it was, one after the other, where that is better."""
        for line in sorted(self.moved(timed) | self._pushed_away(timed)):
            for index in (i for i, name in self.lines.items() if name == line and i in self.was):
                was = self.was[index]
                if was.machine not in t.minutes[index]:
                    continue
                machines = list(timed.machine)
                machines[index] = was.machine
                rest = [i for i in timed.placed if i != index]
                at = sum(timed.start[i] < was.start for i in rest)
                found = time_order(t, [*rest[:at], index, *rest[at:]], machines)
                timed = min(timed, found, key=self._rank_on_the_way)
        return timed
