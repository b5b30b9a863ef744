"""Filled plates that any step of a search has come up with, kept for the exact combination."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from quoting.nesting.plate import Filled, PackingProblem, fill

MOST = 6000
"""So many layouts are kept at most, about 20 MB; then the least promising third is forgotten."""

MOST_PUTS = 100_000
"""Pieces on all plates that are remembered as they were filled, about 20 MB; beyond, they are forgotten."""

Key = tuple[int, tuple[int, ...]]
Given = tuple[int, tuple[int, ...], tuple[int, ...]]


class Pool:
    """The cheapest layout known of each set of pieces, on each limited plate and on any size to buy.

    It also remembers what came of filling a plate: with few kinds of piece more than half of all fillings
    of a search were done before.
    """

    def __init__(self, work: PackingProblem, most: int = MOST) -> None:
        self._work = work
        self._limited = [plate.limit is not None for plate in work.bins]
        self._area = sum(item.count * item.area for item in work.items)
        self._most = most
        self._best: dict[Key, Filled] = {}
        self._per_area = 0.0
        self._filled: dict[Given, dict[int, Filled]] = {}
        self._puts = 0

    def __len__(self) -> int:
        return len(self._best)

    def filled(
        self, bins: Iterable[int], left: Sequence[int], order: Sequence[int], rule: int
    ) -> list[Filled]:
        """Return each of these plates filled greedily, as `fill` does, and keep the layouts."""
        given = (rule, tuple(left), tuple(index for index in order if left[index]))
        known = self._filled.setdefault(given, {})
        found = []
        for index in bins:
            if index not in known:
                known[index] = fill(self._work, index, left, given[2], rule)
                self._puts += 1 + len(known[index].puts)
            found.append(known[index])
            self.add(known[index])
        if self._puts > MOST_PUTS:
            self._filled.clear()
            self._puts = 0
        return found

    def add(self, one: Filled) -> None:
        """Keep the layout if it is the cheapest of its pieces; an empty plate is not kept."""
        if not one.puts:
            return
        key = (one.bin if self._limited[one.bin] else -1, one.counts)
        known = self._best.get(key)
        if known is None or one.net < known.net - 1e-9:
            self._best[key] = one
            if len(self._best) > self._most:
                self._forget()

    def add_all(self, plates: Iterable[Filled]) -> None:
        """Keep the layouts of a solution."""
        for one in plates:
            self.add(one)

    def aim(self, cost: float) -> None:
        """Say what all pieces cost in the best solution: layouts are judged by what they save against it."""
        self._per_area = cost / self._area if self._area else 0.0

    def layouts(self) -> list[Filled]:
        """Return the layouts in the order they came in."""
        return list(self._best.values())

    def _forget(self) -> None:
        dearness = {key: one.net - self._per_area * one.area for key, one in self._best.items()}
        kept = sorted(dearness, key=dearness.__getitem__)[: 2 * self._most // 3]
        chosen = set(kept)
        self._best = {key: one for key, one in self._best.items() if key in chosen}
