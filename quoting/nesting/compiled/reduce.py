"""Cheaper sets of plates with the compiled search: one plate fewer, or one plate of a cheaper kind.

For groups of rectangles only. The pieces of the plate that goes are settled on the others by the ejection
search; a change is kept when the money after drops is less. Imports numba: import this module lazily.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quoting.nesting.bounds import bin_bound, single_sizes
from quoting.nesting.compiled.assignment import (
    PlateKind,
    PlateLoad,
    Rect,
    Settings,
    Spot,
    fewest,
    first_fit,
    layout,
    packing,
    rehouse,
)
from quoting.nesting.compiled.oracle import WORK, Packing
from quoting.nesting.plate import (
    SLACK,
    Bin,
    Filled,
    MaxRects,
    PackingProblem,
    Put,
    drops_value,
    keepable,
    metal,
)
from quoting.nesting.search import Pool, Solution, Stop, layouts_of, solution

ATTEMPTS = 40


@dataclass(slots=True)
class Reduction:
    """The compiled search over one group: its arrays, which item each rectangle is a copy of, and what is
    known."""

    work: PackingProblem
    packing: Packing
    item_of: list[int]
    known: dict[tuple[int, tuple[int, ...]], Filled]

    def to_loads(self, plates: Sequence[Filled]) -> list[PlateLoad]:
        """Return filled plates with their copies numbered."""
        waiting: dict[int, list[int]] = {}
        for number, item in enumerate(self.item_of):
            waiting.setdefault(item, []).append(number)
        loads = []
        for one in plates:
            spots = tuple(self._spot(waiting[put.item].pop(), put) for put in one.puts)
            loads.append(PlateLoad(one.bin, tuple(spot.piece for spot in spots), spots))
        return loads

    def _spot(self, number: int, put: Put) -> Spot:
        turned = put.variant is not self.work.items[put.item].variants[0]
        return Spot(number, put.x, put.y, turned)

    def to_filled(self, load: PlateLoad) -> Filled:
        """Return the plate laid out so that its drops fetch most."""
        counts = [0] * len(self.work.items)
        for number in load.members:
            counts[self.item_of[number]] += 1
        key = (load.kind, tuple(counts))
        if key not in self.known:
            self.known[key] = self._best_layout(load, counts)
        return self.known[key]

    def _best_layout(self, load: PlateLoad, counts: list[int]) -> Filled:
        work = self.work
        puts = tuple(self._put(spot) for spot in layout(self.packing, load))
        best = _filled(work, load.kind, puts, counts)
        if work.drop_share:
            for one in layouts_of(work, load.kind, counts):
                if one.net < best.net - 1e-9:
                    best = one
        return best

    def _put(self, spot: Spot) -> Put:
        item = self.item_of[spot.piece]
        variants = self.work.items[item].variants
        return Put(item, variants[1 if spot.turned and len(variants) > 1 else 0], spot.x, spot.y)

    def price(self, loads: Sequence[PlateLoad]) -> Solution:
        """Return the plates laid out, with their money."""
        return solution(self.work, [self.to_filled(load) for load in loads])


def _filled(work: PackingProblem, bin_index: int, puts: tuple[Put, ...], counts: Sequence[int]) -> Filled:
    plate = work.bins[bin_index]
    drops: tuple[tuple[int, int, int, int], ...] = ()
    if work.problem.cutting.method == "thermal" and work.drop_share:
        free = MaxRects(plate.w, plate.h, plate.blocked, 0)
        for put in puts:
            free.take(put.x, put.y, put.x + put.variant.w, put.y + put.variant.h)
        drops = keepable(work, plate, free.leftovers())
    net = plate.price - drops_value(work, plate, drops)
    return Filled(bin_index, puts, tuple(counts), metal(work, counts), drops, net)


def reduction(work: PackingProblem, seed: int) -> Reduction:
    """Return the arrays for a group of rectangles."""
    item_of = [index for index, item in enumerate(work.items) for _ in range(item.count)]
    rects = []
    for index in item_of:
        item = work.items[index]
        flat = item.variants[0]
        rects.append(Rect(flat.w, flat.h, len(item.variants) > 1, tuple(sorted(item.plates))))
    cutting = work.problem.cutting
    shear = (cutting.stages, work.longest_cut, SLACK) if cutting.method == "shear" else None
    kinds = [_kind(plate, shear is not None) for plate in work.bins]
    return Reduction(work, packing(rects, kinds, Settings(seed, shear)), item_of, {})


def _kind(plate: Bin, shear: bool) -> PlateKind:
    if plate.blocked is None:
        return PlateKind(((0, 0, plate.w, plate.h, 0, 0),), plate.w * plate.h)
    x, y = min(plate.blocked[0], plate.w), min(plate.blocked[1], plate.h)
    area = plate.w * plate.h - (plate.w - x) * (plate.h - y)
    if not shear:
        return PlateKind(((0, 0, x, plate.h, 0, 0), (0, 0, plate.w, y, 0, 0)), area)
    if x * plate.h >= y * plate.w:
        return PlateKind(((0, 0, x, plate.h, 1, 1), (x, 0, plate.w, y, 1, 2)), area)
    return PlateKind(((0, 0, plate.w, y, 1, 2), (0, y, x, plate.h, 1, 1)), area)


def one_kind(work: PackingProblem) -> bool:
    """Return whether there is one kind of plate, in any number, for everything."""
    return len(work.bins) == 1 and work.bins[0].limit is None


def fewest_of_one_kind(work: PackingProblem, *, budget: int, floor: float, seed: int, stop: Stop) -> Solution:
    """Return as few plates of the only kind as found; none when the shear cannot free some piece from it.

    `floor` is the money bound.
    """
    search = reduction(work, seed)
    if not search.packing.alone.all():
        return solution(work, ())
    plate = work.bins[0]
    bound = bin_bound(single_sizes(work), plate.w, plate.h)
    loads = fewest(search.packing, first_fit(search.packing, 0), bound=bound, budget=budget, stop=stop)
    return search.price(loads)


def cheaper(
    work: PackingProblem, start: Solution, *, budget: int, floor: float, seed: int, stop: Stop, pool: Pool
) -> Solution:
    """Return the start or cheaper: plates taken away or swapped for cheaper kinds, one at a time.

    Every plate laid out on the way goes into the pool.
    """
    search = reduction(work, seed)
    best = _cheaper(search, start, budget=budget, floor=floor, stop=stop)
    pool.add_all(search.known.values())
    return best


def _cheaper(search: Reduction, start: Solution, *, budget: int, floor: float, stop: Stop) -> Solution:
    loads = search.to_loads(start.plates)
    best = search.price(loads)
    if start.better_than(best):
        best = start
    share = max(budget // ATTEMPTS, 1)
    improved = True
    while improved and not best.reaches(floor) and not stop():
        improved = False
        for gone, kind in _changes(search, loads):
            if search.packing.state[WORK] >= budget or stop():
                return best
            rest = [load for k, load in enumerate(loads) if k != gone]
            if kind >= 0:
                rest.append(PlateLoad(kind, ()))
            found = rehouse(search.packing, rest, loads[gone].members, budget=share, stop=stop)
            if found is None:
                continue
            priced = search.price([load for load in found if load.members])
            if priced.better_than(best):
                best, improved = priced, True
                loads = search.to_loads(best.plates)
                break
    return best


def _changes(search: Reduction, loads: Sequence[PlateLoad]) -> list[tuple[int, int]]:
    """Return (plate to take away, cheaper kind to put in or -1), the largest saving per area to settle
    first."""
    work, p = search.work, search.packing
    used = [0] * len(work.bins)
    for load in loads:
        used[load.kind] += 1
    spare = sum(int(p.room[load.kind]) - _area(p, load) for load in loads)
    changes: list[tuple[float, int, int]] = []
    for k, load in enumerate(loads):
        here = work.bins[load.kind]
        room = int(p.room[load.kind])
        if spare >= room:
            changes.append((here.price, k, -1))
        for kind, plate in enumerate(work.bins):
            if (
                plate.is_left(used[kind])
                and plate.price < here.price
                and spare - room + int(p.room[kind]) >= 0
            ):
                changes.append((here.price - plate.price, k, kind))
    changes.sort(key=lambda change: (-change[0] / (1 + _area(p, loads[change[1]])), change))
    return [(k, kind) for _, k, kind in changes]


def _area(p: Packing, load: PlateLoad) -> int:
    return sum(int(p.area[number]) for number in load.members)
