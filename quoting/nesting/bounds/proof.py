"""Small groups settled for good: the optimum proven, or the bound raised as far as the work allowed.

Logic-based Benders decomposition (Hooker & Ottosson 2003, "Logic-based Benders decomposition", Math.
Program. 96, 33-60; for packing: Cote, Haouari & Iori 2021, "Combinatorial Benders decomposition for the
two-dimensional bin packing problem", INFORMS J. Comput. 33, 963-978). Every set of pieces on every plate
starts with a cost it cannot be below: the price less the most that the unused area can fetch. The cheapest
split of all pieces at these costs is a lower bound; the sets it uses are then looked at closely - do they
fit, and what can the drops be at most - and their costs, and those of all sets that contain them, go up. One
piece or two on a plate are worked out at once, more are given to a constraint solver. When all sets in use
cost what a known layout costs, the split is the optimum. Page numbers from memory.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

import numpy as np

from quoting.nesting.bounds.area_bounds import bin_bound
from quoting.nesting.bounds.few_boxes import DROP, MOST_DROPS, MOST_PIECES, DropSize, Placed, most_of_drops
from quoting.nesting.bounds.one_plate import ask
from quoting.nesting.bounds.partition import Floats, Partition, small_enough
from quoting.nesting.plate import SLACK, UNIT, Filled, PackingProblem, Put, drops_value, metal
from quoting.nesting.search import Pool, Proving, Solution, Stop, cheapest_plate, solution
from quoting.nesting.shear import Area, shear_cuts, stages

_CENT = 0.01
_EPS = 1e-6
_A_CALL = 0.25


def provable(work: PackingProblem) -> bool:
    """Return whether the group is small enough and of single rectangles."""
    singles = all(v.copies == 1 and not v.covers for item in work.items for v in item.variants)
    return bool(work.items) and singles and small_enough([item.count for item in work.items])


def prove(
    work: PackingProblem, pool: Pool, best: Solution, *, effort: Proving, floor: float, stop: Stop
) -> tuple[Solution, float]:
    """Return the best solution or a cheaper one, and the least that plates less drops can cost.

    The solution must hold all pieces.
    """
    proof = _Proof(work, pool, effort.time)
    bound = floor
    for _ in range(effort.rounds):
        value, way = proof.cheapest_split()
        bound = max(bound, value)
        if value >= best.cost - _EPS or stop():
            break
        if not proof.closer(way):
            break
        plates = [proof.known.get(one) for one in way]
        found = solution(work, [one for one in plates if one is not None])
        if found.better_than(best):
            best = found
    return best, min(bound, best.cost)


class _Proof:
    """What is known of every set on every plate: a least cost, maybe a layout, maybe that this is final."""

    def __init__(self, work: PackingProblem, pool: Pool, time: float) -> None:
        self.work, self.pool, self.time = work, pool, time
        pieces = sum(item.count for item in work.items)
        limits = [None if plate.limit is None else min(plate.limit, pieces) for plate in work.bins]
        self.partition = Partition([item.count for item in work.items], limits)
        self.cost = np.array([self._first_costs(k) for k in range(len(work.bins))])
        self.known: dict[tuple[int, int], Filled] = {}
        self.final: set[tuple[int, int]] = set()
        self.settled: set[tuple[int, int]] = set()
        for one in pool.layouts():
            self._learn(one)

    def _first_costs(self, index: int) -> Floats:
        """Return the price less what the unused area can fetch; infinity where the area does not do."""
        work, plate = self.work, self.work.bins[index]
        sets = self.partition.sets
        grown = sets @ np.array([item.variants[0].w * item.variants[0].h for item in work.items], float)
        metal = sets @ np.array([item.area * 1e6 for item in work.items], float)
        barred = sets @ np.array([index not in item.plates for item in work.items], np.int64)
        room = self._room(index)
        free = np.maximum(room - grown, 0.0)
        drop = np.where(free >= self._least_drop(), (np.sqrt(free) - work.gap) ** 2, 0.0)
        drop = np.minimum(drop, np.maximum(plate.area * 1e6 - metal, 0.0))
        cost = plate.price - plate.drop_share * plate.price / (plate.area * 1e6) * drop
        costs: Floats = np.where((grown > room) | (barred > 0), inf, cost)
        costs[0] = 0.0
        return costs

    def _room(self, index: int) -> float:
        plate = self.work.bins[index]
        room = float(plate.w * plate.h)
        if plate.blocked:
            x, y = max(plate.blocked[0], 0), max(plate.blocked[1], 0)
            room -= max(plate.w - x, 0) * max(plate.h - y, 0)
        return room

    def _least_drop(self) -> float:
        gap = self.work.gap
        return float(self.work.drop_small + gap) * (self.work.drop_large + gap)

    def cheapest_split(self) -> tuple[float, list[tuple[int, int]]]:
        """Return the cheapest split at the costs known so far."""
        return self.partition.solve(self.cost)

    def closer(self, way: Iterable[tuple[int, int]]) -> bool:
        """Look closely at the sets of a split; return whether anything was learnt about them."""
        todo = [one for one in way if one not in self.final]
        learnt = [self._look(*one) for one in dict.fromkeys(todo)]
        if any(learnt):
            return True
        asked = [self._ask(*one) for one in dict.fromkeys(todo) if one not in self.settled]
        return any(asked)

    def _look(self, index: int, number: int) -> bool:
        """Return whether quick means tell more about the set: a bound that it fails, or a layout."""
        counts = self.partition.sets[number]
        plate = self.work.bins[index]
        if (index, number) not in self.settled and self._few(index, number):
            before = float(self.cost[index, number])
            self._settle(index, number)
            if float(self.cost[index, number]) > before or (index, number) in self.final:
                return True
        if (index, number) in self.known:
            return False
        sizes = [
            (item.variants[0].w, item.variants[0].h, int(count), len(item.variants) > 1)
            for item, count in zip(self.work.items, counts, strict=True)
            if count
        ]
        if bin_bound(sizes, plate.w, plate.h, 10) > 1:
            self._does_not_fit(index, number)
            return True
        used = [0 if k == index else plate.limit or 0 for k, plate in enumerate(self.work.bins)]
        wanted = tuple(int(count) for count in counts)
        found = cheapest_plate(self.work, wanted, used, None)
        if found is not None:
            self._learn(found)
        return (index, number) in self.final

    def _few(self, index: int, number: int) -> bool:
        """Return whether so few boxes are on the plate that the best is worked out at once."""
        few = int(self.partition.sets[number].sum()) <= MOST_PIECES
        return few and self.work.bins[index].blocked is None and self._drops() <= MOST_DROPS

    def _drops(self) -> int:
        return self.work.problem.drops.most_per_plate

    def _settle(self, index: int, number: int) -> None:
        """Know what a plate with one piece or two on it costs at the least."""
        self.settled.add((index, number))
        work, plate = self.work, self.work.bins[index]
        pieces = [
            [(variant.w, variant.h) for variant in item.variants]
            for item, count in zip(work.items, self.partition.sets[number], strict=True)
            for _ in range(count)
        ]
        per_area = plate.drop_share * plate.price / (plate.area * 1e6)
        cost = float(work.problem.drops.keep_cost) / per_area if per_area else 0.0
        size = DropSize(work.gap, work.drop_small + work.gap, work.drop_large + work.gap, cost)
        drops = self._drops() if per_area else 0
        found = most_of_drops((plate.w - SLACK, plate.h - SLACK), pieces, drops, size)
        if found is None:  # or it does, but for what sizes were rounded by
            found = most_of_drops((plate.w, plate.h), pieces, drops, size)
        if found is None:
            self._does_not_fit(index, number)
            return
        self._told(index, number, plate.price - per_area * found[0], self._filled(index, number, found[1]))

    def _filled(self, index: int, number: int, layout: Placed) -> Filled:
        """Return the plate with its pieces and drops where the layout has them."""
        work, plate = self.work, self.work.bins[index]
        counts = tuple(int(count) for count in self.partition.sets[number])
        items = [item for item, count in enumerate(counts) for _ in range(count)]
        puts, drops = [], []
        for which, (x, y, w, h) in layout:
            if which == DROP:
                drops.append((x, y, w - work.gap, h - work.gap))
                continue
            variants = work.items[items[which]].variants
            variant = next(one for one in variants if (one.w, one.h) == (w, h))
            puts.append(Put(items[which], variant, x, y))
        net = plate.price - drops_value(work, plate, drops)
        return Filled(index, tuple(puts), counts, metal(work, counts), tuple(drops), net)

    def _ask(self, index: int, number: int) -> bool:
        """Ask the solver about the set; return whether that told anything."""
        if self.time <= 0:
            return False
        plate = self.work.bins[index]
        counts = tuple(int(count) for count in self.partition.sets[number])
        per_area = plate.drop_share * plate.price / (plate.area * 1e6)
        before = float(self.cost[index, number])
        most = (plate.price - before) / per_area if per_area else 0.0
        answer = ask(self.work, index, counts, most=most, limit=min(_A_CALL, self.time))
        self.time -= max(answer.work, 0.001)
        if answer.most is None:
            self._does_not_fit(index, number)
            return True
        self._told(index, number, plate.price - per_area * answer.most, answer.layout)
        return (index, number) in self.final or float(self.cost[index, number]) > before + _CENT

    def _told(self, index: int, number: int, cost: float, layout: Filled | None) -> None:
        """Take the least cost of a set, and the layout that came with it where it can be cut."""
        self._costs_at_least(index, number, cost)
        if layout is not None and _can_be_cut(self.work, layout):
            self._learn(layout)

    def _learn(self, one: Filled) -> None:
        """Keep the layout, and know the cost of its set to be final when the layout costs no more."""
        number = self.partition.number(one.counts)
        key = (one.bin, number)
        if key not in self.known or one.net < self.known[key].net - 1e-9:
            self.known[key] = one
            self.pool.add(one)
        if self.known[key].net <= self.cost[key] + _EPS:
            self.final.add(key)

    def _does_not_fit(self, index: int, number: int) -> None:
        """Bar the set and all that contain it, on this plate and on those inside it."""
        above = self.partition.above(number)
        for k, other in enumerate(self.work.bins):
            here = self.work.bins[index]
            inside = here.blocked is None and other.w <= here.w and other.h <= here.h
            if k == index or inside:
                self.cost[k, above] = inf

    def _costs_at_least(self, index: int, number: int, cost: float) -> None:
        """Raise the cost of the set and of all that contain it: more pieces leave no larger drops."""
        above = self.partition.above(number)
        self.cost[index, above] = np.maximum(self.cost[index, above], cost)
        for s in above:
            key = (index, int(s))
            if key in self.known and self.known[key].net <= self.cost[key] + _EPS:
                self.final.add(key)


def _can_be_cut(work: PackingProblem, one: Filled) -> bool:
    """Return whether the shear can cut a layout that was made without regard to it."""
    cutting, plate = work.problem.cutting, work.bins[one.bin]
    if cutting.method == "thermal":
        return True
    boxes = [(put.x, put.y, put.variant.w, put.variant.h) for put in one.puts]
    wanted = [Area(x / UNIT, y / UNIT, (x + w) / UNIT, (y + h) / UNIT) for x, y, w, h in (*boxes, *one.drops)]
    part = Area(0.0, 0.0, plate.w / UNIT, plate.h / UNIT)
    cuts = None if plate.blocked else shear_cuts(part, wanted, cutting.longest_cut_mm)
    return cuts is not None and stages(cuts) <= cutting.stages
