"""Several hot searches from one plan, then searches from mixtures of what they found.

Which way one search goes is chance: plans of one week end some per cent apart and differ in a few operations
on other machines, with their set-ups. A child has some operations where one plan has them and the rest where
another one has them, and is searched from, so that good parts of both come together: a memetic algorithm
(Moscato 1989, Caltech Concurrent Computation Program report 826, from memory).
"""

from __future__ import annotations

import random
import time
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np

from quoting.core import worked_ahead
from scheduler.sequence.search.fast import (
    COOL,
    MOST,
    WARM,
    FastSearch,
    able_machines,
    opened_windows,
    running_first,
)
from scheduler.sequence.search.packing import NOTHING_HELD, HeldPlaces, pack
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing import Opened, Tables, Timed, tables, time_order

FIRST = 0.5  # share of the orders that the first searches time
CHILDREN, AT_ONCE = 24, 4
LUKEWARM = 0.4  # first temperature of a child's search, as a share of the mean value of one operation
MIXTURES = 12  # of which the one of least ticks becomes a child
LEAST = 200  # orders


@dataclass(frozen=True, slots=True)
class _Plan:
    """A plan as arrays: order, machine of each operation, windows that are worked, starts; its ticks."""

    value: int
    order: Any
    machine: Any
    opened: Any
    start: Any


@dataclass(frozen=True, slots=True)
class Mixing:
    """So many plans are kept and gone on from; `held` operations that go elsewhere cost their ticks.

    `hot` is the money in ticks that the first temperatures of the first searches are shares of.
    """

    ways: int
    hot: int
    held: HeldPlaces = NOTHING_HELD


def mixed_search(t: Tables, begun: Timed, stop: Stop, seed: int, mixing: Mixing) -> FastSearch:
    """Search several ways from a plan and from mixtures, in `stop.iterations` orders; it is never worse.

    With `stop.seconds` no child is begun after them. Results do not depend on how many cores there are.
    """
    whole = _Whole(t, begun.total, mixing.held)
    plans = _mixed(whole, [_Plans(whole).of(t.opened, begun)], stop, seed, mixing)
    return _as_found(t, begun, plans[0], stop.iterations)


def mixed_from(
    starts: Sequence[tuple[Tables, Timed]], stop: Stop, seed: int, mixing: Mixing
) -> list[tuple[Tables, Timed]]:
    """Return the plans that are kept, the best first, when it is begun from several plans of one problem.

    Best are those of least ticks, those of held operations counted.
    """
    t = starts[0][0]
    whole = _Whole(t, max(1, min(timed.total for _, timed in starts)), mixing.held)
    own = _Plans(whole)
    plans = _least([own.of(tt.opened, timed) for tt, timed in starts], mixing.ways)
    return [_timed(t, plan) for plan in _mixed(whole, plans, stop, seed, mixing)]


@dataclass(frozen=True, slots=True)
class _Whole:
    """A problem, money in ticks that the last temperatures are shares of, and what is to stay."""

    t: Tables
    money: int
    held: HeldPlaces


def _mixed(whole: _Whole, begun: Sequence[_Plan], stop: Stop, seed: int, mixing: Mixing) -> list[_Plan]:
    """Return the plans of least ticks of several hot searches and of the children of what they found."""
    ends_at = None if stop.seconds is None else time.monotonic() + stop.seconds
    ways = mixing.ways
    first = max(LEAST, int(stop.iterations * FIRST) // ways)
    each = max(LEAST, int(stop.iterations * (1 - FIRST)) // CHILDREN)
    warm = WARM * mixing.hot / whole.t.size
    several = [
        partial(_searched, whole, begun[way % len(begun)], (first, 100 * seed + way, warm))
        for way in range(ways)
    ]
    plans = _least([*begun, *worked_ahead(several)], ways)
    for number in range(0, CHILDREN, AT_ONCE):
        if len(plans) < 2 or (ends_at is not None and time.monotonic() > ends_at):
            break
        seeds = range(100 * seed + ways + number, 100 * seed + ways + number + AT_ONCE)
        found = list(worked_ahead([partial(_child, whole, plans, (each, own)) for own in seeds]))
        plans = _least([*plans, *found], ways)
    return plans


def _order_of(t: Tables, timed: Timed) -> tuple[Any, Any]:
    order = np.array(running_first(t, timed.placed), dtype=np.int64)
    return order, np.array(timed.machine, dtype=np.int64)


def _least(plans: Sequence[_Plan], most: int) -> list[_Plan]:
    """Return the plans of least ticks, of those with the same ticks one."""
    different = {plan.value: plan for plan in reversed(plans)}
    return [different[value] for value in sorted(different)[:most]]


def _searched(whole: _Whole, plan: _Plan, how: tuple[int, int, float]) -> _Plan:
    return _Plans(whole).searched(plan, *how)


def _child(whole: _Whole, plans: Sequence[_Plan], how: tuple[int, int]) -> _Plan:
    """Return what is found from the best of some mixtures of two plans."""
    orders, seed = how
    chance = random.Random(seed)
    own = _Plans(whole)
    one, other = chance.sample(plans, 2)
    mixed = min((own.mixed(one, other, chance) for _ in range(MIXTURES)), key=lambda plan: plan.value)
    return own.searched(mixed, orders, seed, LUKEWARM * min(whole.money, plans[0].value) / whole.t.size)


class _Plans:
    """Times and searches plans of one problem, in arrays of its own."""

    def __init__(self, whole: _Whole) -> None:
        from scheduler.sequence.search.row_kernel import (  # noqa: PLC0415 - compiled, so only when used
            evaluate,
            search,
        )

        self.t, self.evaluate, self.search = whole.t, evaluate, search
        self.packed = pack(whole.t, windows=True, held=whole.held)
        self.opened = self.packed[1][2][0]
        self.able = able_machines(whole.t)
        self.money = whole.money

    def of(self, opened: Opened, timed: Timed) -> _Plan:
        """Return a timed order as arrays, with these overtime windows worked."""
        worked = self.opened.copy()
        for k, machine in enumerate(self.t.problem.machines):
            for j, window in enumerate(machine.windows):
                if window.overtime_cost_per_min is not None:
                    worked[k, j] = (machine.id, window.start) in opened
        return self.timed(*_order_of(self.t, timed), worked)

    def timed(self, order: Any, machine: Any, opened: Any = None) -> _Plan:
        """Time an order with these windows worked, without them those worked last."""
        if opened is not None:
            self.opened[:] = opened
        start = np.zeros(self.t.size, dtype=np.int64)
        value = self.evaluate(order, machine, start, *self.packed)
        return _Plan(value, order, machine, self.opened.copy(), start)

    def searched(self, plan: _Plan, orders: int, seed: int, warm: float) -> _Plan:
        """Anneal from a plan, from the temperature `warm` in ticks on."""
        self.opened[:] = plan.opened
        cool = max(1.0, COOL * min(self.money, plan.value) / self.t.size)
        order, machine, opened, _ = self.search(
            plan.order.copy(), plan.machine.copy(), *self.able, orders, max(1.0, warm), cool,
            seed * 7919 % 2**31, MOST, *self.packed,
        )  # fmt: skip
        return min(plan, self.timed(order, machine, opened), key=lambda one: one.value)

    def mixed(self, one: _Plan, other: _Plan, chance: random.Random) -> _Plan:
        """Take some operations as one plan has them and the rest as the other, in order of their starts.

        Some are those of a stretch of the order, of a machine, or of half the jobs.
        """
        own = np.zeros(self.t.size, dtype=np.bool_)
        draw = chance.random()
        if draw < 0.4:
            at, size = chance.randrange(own.size), own.size
            own[one.order[at : at + chance.randint(max(1, size // 6), max(2, size // 2))]] = True
        elif draw < 0.7:
            own = one.machine == chance.randrange(len(self.t.calendars))
        else:
            jobs = [chance.random() < 0.5 for _ in self.t.due]
            own[:] = [jobs[job] for job in self.t.job]
        place = np.where(own, np.argsort(one.order), np.argsort(other.order))
        order = np.lexsort((place, np.where(own, one.start, other.start)))
        running = np.array(self.t.running, dtype=np.bool_)[order]
        order = np.concatenate((order[running], order[~running])).astype(np.int64)
        worked = chance.choice((one.opened, other.opened, one.opened | other.opened))
        return self.timed(order, np.where(own, one.machine, other.machine).astype(np.int64), worked)


def _as_found(t: Tables, begun: Timed, plan: _Plan, step: int) -> FastSearch:
    """Time the best plan as every plan is timed; take it when it is better than the first."""
    own, timed = _timed(t, plan)
    if timed.score >= begun.score:
        return FastSearch(begun, [(0, begun.total)], t)
    return FastSearch(timed, [(0, begun.total), (step, timed.total)], own)


def _timed(t: Tables, plan: _Plan) -> tuple[Tables, Timed]:
    windows = opened_windows(t, plan.opened)
    own = t if windows == t.opened else tables(t.problem, windows)
    return own, time_order(own, plan.order.tolist(), plan.machine.tolist())
