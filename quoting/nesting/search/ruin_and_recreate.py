"""The cheapest set of plates: greedy building by money per area, then ruin and recreate.

A solution is a list of filled plates. Building takes, again and again, the plate whose net price per area
of pieces placed is least, or one that finishes the job when that costs less than going on. Improving
empties a few plates and builds them anew in another order (Schrimpf et al. 2000, "Record breaking
optimization results using the ruin and recreate principle", J. Comput. Phys. 159). Only counted iterations
end it, never the clock.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from random import Random

from quoting.nesting.plate import Filled, PackingProblem, fill, metal, rules
from quoting.nesting.search.pool import Pool

Stop = Callable[[], bool]


@dataclass(frozen=True, slots=True)
class Solution:
    """Filled plates, the area of pieces that found none (mm2), and the money."""

    plates: tuple[Filled, ...]
    missing: float
    cost: float

    def better_than(self, other: Solution) -> bool:
        """Return whether it places more, or as much for less money."""
        if abs(self.missing - other.missing) > 1e-6:
            return self.missing < other.missing
        return self.cost < other.cost - 1e-9

    def reaches(self, floor: float) -> bool:
        """Return whether it places all and costs no more than the bound: there is nothing better."""
        return self.missing < 1e-6 and self.cost <= floor + 1e-9


def solution(work: PackingProblem, plates: Sequence[Filled]) -> Solution:
    """Return the plates with their sums."""
    missing = sum(item.count * item.area for item in work.items) - sum(one.area for one in plates)
    return Solution(tuple(plates), missing, sum(one.net for one in plates))


def orders(work: PackingProblem, indices: Sequence[int] | None = None) -> list[list[int]]:
    """Return the usual orders of some items, or of all: by area, longest side, width, perimeter; pieces that
    need a heat number first."""
    keys: list[Callable[[int], float]] = [
        lambda k: work.items[k].area,
        lambda k: max(_box(work, k)),
        lambda k: _box(work, k)[1],
        lambda k: sum(_box(work, k)),
    ]
    if indices is None:
        indices = range(len(work.items))
    return [sorted(indices, key=lambda k: (not work.items[k].needs_heat, -key(k), k)) for key in keys]


def _box(work: PackingProblem, index: int) -> tuple[int, int]:
    single = work.items[index].variants[-1]
    return single.w, single.h


def layouts_of(work: PackingProblem, index: int, counts: Sequence[int]) -> Iterator[Filled]:
    """Yield every layout of exactly these copies on a plate that the usual orders and the rules give."""
    wanted = tuple(counts)
    for order in dict.fromkeys(map(tuple, orders(work, [k for k, count in enumerate(wanted) if count]))):
        for rule in range(rules(work)):
            one = fill(work, index, wanted, order, rule)
            if one.counts == wanted:
                yield one


def remaining(work: PackingProblem, kept: Sequence[Filled]) -> tuple[list[int], list[int]]:
    """Return how many copies of each item are left and how many plates of each bin are used when these
    plates are cut."""
    left = [item.count for item in work.items]
    used = [0] * len(work.bins)
    for one in kept:
        used[one.bin] += 1
        _take_off(left, one)
    return left, used


def _take_off(left: list[int], one: Filled) -> None:
    """Take a plate's pieces off what is left; a plate holds few of the items that there are."""
    for put in one.puts:
        left[put.item] -= len(put.variant.members)


def build(
    work: PackingProblem,
    order: Sequence[int],
    rule: int,
    left: Sequence[int],
    used: Sequence[int],
    *,
    noise: Callable[[], float] = lambda: 1.0,
    pool: Pool | None = None,
) -> list[Filled]:
    """Return plates filled until nothing is left or no plate takes more. `used` counts plates already cut
    by bin; every plate tried on the way goes into the pool."""
    left = list(left)
    used = list(used)
    out: list[Filled] = []
    while any(left):
        chosen = _next_plate(work, order, rule, left, used, noise=noise, pool=pool)
        if chosen is None:
            break
        times = _times_wanted(work, chosen, left, used)
        out += [chosen] * times
        used[chosen.bin] += times
        for put in chosen.puts:
            left[put.item] -= times * len(put.variant.members)
    return out


def _times_wanted(work: PackingProblem, one: Filled, left: Sequence[int], used: Sequence[int]) -> int:
    """Return how often all of a layout is wanted, and as many of its plates are there; at least once."""
    times = min(left[item] // one.counts[item] for item in {put.item for put in one.puts})
    limit = work.bins[one.bin].limit
    return times if limit is None else min(times, limit - used[one.bin])


def wanted_again(work: PackingProblem, one: Filled, left: Sequence[int], used: Sequence[int]) -> bool:
    """Return whether all of a layout is still wanted and its plate still there."""
    return work.bins[one.bin].is_left(used[one.bin]) and all(
        one.counts[put.item] <= left[put.item] for put in one.puts
    )


def _next_plate(
    work: PackingProblem,
    order: Sequence[int],
    rule: int,
    left: Sequence[int],
    used: Sequence[int],
    *,
    noise: Callable[[], float],
    pool: Pool | None,
) -> Filled | None:
    total = metal(work, left)
    best: Filled | None = None
    best_ratio = 0.0
    finish: Filled | None = None
    bins = [index for index, plate in enumerate(work.bins) if plate.is_left(used[index])]
    if pool is not None:
        filled = pool.filled(bins, left, order, rule)
    else:
        filled = [fill(work, index, left, order, rule) for index in bins]
    for one in filled:
        if not one.puts:
            continue
        ratio = one.net / one.area * noise()
        if best is None or ratio < best_ratio or (ratio == best_ratio and one.area > best.area):
            best, best_ratio = one, ratio
        if one.area >= total * (1 - 1e-12) and (finish is None or one.net < finish.net):
            finish = one
    if best is None or finish is None:
        return best
    return finish if finish.net <= best.net + (total - best.area) * best_ratio else best


def first_solutions(work: PackingProblem, most: int, stop: Stop, pool: Pool | None = None) -> Solution:
    """Return the best of the usual orders with every rule, of the first `most` of them (at least two)."""
    best: Solution | None = None
    left, used = remaining(work, ())
    usual = orders(work)
    for rule, order in list(product(range(rules(work)), usual))[: max(most, 2)]:
        found = solution(work, build(work, order, rule, left, used, pool=pool))
        if best is None or found.better_than(best):
            best = found
        if stop():
            break
    return best if best is not None else solution(work, ())


def improve(
    work: PackingProblem,
    start: Solution,
    iterations: int,
    *,
    floor: float,
    seed: int,
    stop: Stop,
    pool: Pool | None = None,
) -> Solution:
    """Return the best solution after so many ruin-and-recreate steps; ends early at the bound `floor`."""
    random = Random(seed)
    best = current = start
    if not start.plates:
        return best
    scale = max(best.cost, 1e-9)
    usual = orders(work)
    for step in range(iterations):
        if best.reaches(floor) or stop():
            break
        found = _rebuilt(work, current, usual, random, pool)
        allowance = 0.01 * scale * (1 - step / iterations) / len(current.plates)
        if (
            found.missing <= current.missing + 1e-6
            and _merit(work, found) <= _merit(work, current) + allowance
        ):
            current = found
        if found.better_than(best):
            best = current = found
    return best


def _merit(work: PackingProblem, found: Solution) -> float:
    """Return the cost less a reward for uneven filling: a nearly empty plate is the next one to go."""
    squares = sum(one.net * (one.area / work.bins[one.bin].area) ** 2 for one in found.plates)
    return found.cost - 0.3 * squares


def _rebuilt(
    work: PackingProblem, current: Solution, usual: Sequence[Sequence[int]], random: Random, pool: Pool | None
) -> Solution:
    plates = list(current.plates)
    emptied = min(len(plates), random.choice((1, 2, 2, 3, 3, 4)))
    random.shuffle(plates)
    if random.random() < 0.6:
        emptiest = min(range(len(plates)), key=lambda k: plates[k].area / work.bins[plates[k].bin].area)
        plates[0], plates[emptiest] = plates[emptiest], plates[0]
    kept = plates[emptied:]
    left, used = remaining(work, kept)
    order = _shuffled(random.choice(usual), random)
    spread = random.choice((0.0, 0.05, 0.2))
    rule = random.randrange(rules(work))
    rebuilt = build(work, order, rule, left, used, noise=lambda: 1 + spread * random.random(), pool=pool)
    return solution(work, kept + rebuilt)


def _shuffled(order: Sequence[int], random: Random) -> list[int]:
    """Return the order with neighbours mixed up: each key is its rank plus noise."""
    spread = random.choice((0.1, 0.3, 1.0)) * len(order)
    keys = {index: rank + random.random() * spread for rank, index in enumerate(order)}
    return sorted(order, key=keys.__getitem__)
