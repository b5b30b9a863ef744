"""Splitting a few pieces over plates at the least cost, when the cost of every set on every plate is given.

A set is a number of copies of each item, numbered in mixed radix, so that the number of a difference is the
difference of the numbers. Dynamic programming over all sets: first with plates that can be bought in any
number (the set that holds the first piece left), then one limited plate after the other.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from math import inf

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]

MOST_SETS = 2500
MOST_PAIRS = 1_500_000


def small_enough(counts: Sequence[int]) -> bool:
    """Return whether there are few enough sets and pairs (set, set within it)."""
    sets, pairs = 1, 1
    for count in counts:
        sets *= count + 1
        pairs *= (count + 1) * (count + 2) // 2
    return sets <= MOST_SETS and pairs <= MOST_PAIRS


class Partition:
    """All sets of so many copies, and the cheapest way to split the whole of them.

    >>> two = Partition([2], [None])
    >>> two.solve(np.array([[0.0, 3.0, 5.0]]))
    (5.0, [(0, 2)])
    """

    def __init__(self, counts: Sequence[int], limits: Sequence[int | None]) -> None:
        """`limits` are the numbers of plates of each kind, None for any number."""
        self.sets: Ints = np.array(list(product(*(range(count + 1) for count in counts))), np.int64)
        self.sets = self.sets.reshape(-1, len(counts))
        self._limits = limits
        self._within = [np.flatnonzero((self.sets <= one).all(axis=1)) for one in self.sets]
        self._above = [np.flatnonzero((self.sets >= one).all(axis=1)) for one in self.sets]
        first = (self.sets > 0).argmax(axis=1)
        self._with_first = [within[self.sets[within, first[q]] > 0] for q, within in enumerate(self._within)]

    def above(self, index: int) -> Ints:
        """Return the numbers of the sets that this one is part of."""
        return self._above[index]

    def number(self, counts: Sequence[int]) -> int:
        """Return the number of a set."""
        most = self.sets[-1]
        index = 0
        for count, top in zip(counts, most, strict=True):
            index = index * (int(top) + 1) + count
        return index

    def solve(self, cost: Floats) -> tuple[float, list[tuple[int, int]]]:
        """Return the least cost of splitting everything, and (plate, set) of one way to do it.

        `cost` is plates x sets; infinity where a set does not fit. The cost is infinite when there is no
        way.
        """
        open_ended = [k for k, limit in enumerate(self._limits) if limit is None]
        table, chosen = self._any_number(cost[open_ended])
        layers: list[tuple[int, Floats]] = []
        for k, limit in enumerate(self._limits):
            useful = np.flatnonzero(np.isfinite(cost[k]))[1:]
            for _ in range(0 if limit is None else int(limit)):
                layers.append((k, table))
                table = self._one_more(table, cost[k], useful)
        if not np.isfinite(table[-1]):
            return inf, []
        return float(table[-1]), self._way(cost, open_ended, layers, table, chosen)

    def _any_number(self, cost: Floats) -> tuple[Floats, Ints]:
        n = len(self.sets)
        best = cost.min(axis=0) if len(cost) else np.full(n, inf)
        table, chosen = np.full(n, inf), np.zeros(n, np.int64)
        table[0] = 0.0
        for q in range(1, n):
            parts = self._with_first[q]
            total = best[parts] + table[q - parts]
            least = int(total.argmin())
            table[q], chosen[q] = total[least], parts[least]
        return table, chosen

    def _one_more(self, table: Floats, cost: Floats, useful: Ints) -> Floats:
        new = table.copy()
        for s in useful:
            above = self._above[s]
            new[above] = np.minimum(new[above], cost[s] + table[above - s])
        return new

    def _way(
        self,
        cost: Floats,
        open_ended: Sequence[int],
        layers: Sequence[tuple[int, Floats]],
        table: Floats,
        chosen: Ints,
    ) -> list[tuple[int, int]]:
        way: list[tuple[int, int]] = []
        q = len(self.sets) - 1
        for k, before in reversed(layers):
            if table[q] < before[q]:
                parts = self._within[q][1:]
                total = cost[k][parts] + before[q - parts]
                s = int(parts[int(total.argmin())])
                way.append((k, s))
                q -= s
            table = before
        while q:
            s = int(chosen[q])
            k = min(open_ended, key=lambda k: (cost[k][s], k))
            way.append((k, s))
            q -= s
        return way
