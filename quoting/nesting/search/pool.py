"""Filled plates that any step of a search has come up with, kept for the exact combination."""

from __future__ import annotations

from collections.abc import Iterable

from quoting.nesting.plate import Filled, PackingProblem

MOST = 6000
"""So many layouts are kept at most, about 20 MB; then the least promising third is forgotten."""

Key = tuple[int, tuple[int, ...]]


class Pool:
    """The cheapest layout known of each set of pieces, on each limited plate and on any size to buy."""

    def __init__(self, work: PackingProblem, most: int = MOST) -> None:
        self._limited = [plate.limit is not None for plate in work.bins]
        self._area = sum(item.count * item.area for item in work.items)
        self._most = most
        self._best: dict[Key, Filled] = {}
        self._per_area = 0.0

    def __len__(self) -> int:
        return len(self._best)

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
