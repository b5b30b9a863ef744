"""The linear relaxation of choosing layouts, its prices, and layouts that those prices ask for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import nlargest
from random import Random
from typing import Any

from quoting.nesting.plate import Filled, PackingProblem, fill, rules

_EPS = 1e-6
_GAIN = 1e-4


@dataclass(frozen=True, slots=True)
class Prices:
    """Duals of the relaxation: its value, what one more copy of each item costs, what each plate saves."""

    value: float
    item: tuple[float, ...]
    plate: tuple[float, ...]

    def reduced(self, one: Filled) -> float:
        """Return what a layout costs beyond what its pieces are worth."""
        worth = sum(one.counts[k] * self.item[k] for k in sorted({put.item for put in one.puts}))
        return one.net - worth - self.plate[one.bin]


class Relaxation:
    """Layouts in fractions: every item covered, limited plates not used up, least money."""

    def __init__(self, work: PackingProblem, layouts: Sequence[Filled]) -> None:
        from ortools.linear_solver import pywraplp  # noqa: PLC0415 - only when used

        self.layouts: list[Filled] = []
        self._lp: Any = pywraplp.Solver.CreateSolver("GLOP")
        self._uses: list[Any] = []
        self._cover = [self._lp.Constraint(item.count, self._lp.infinity()) for item in work.items]
        self._limit = [
            None if plate.limit is None else self._lp.Constraint(-self._lp.infinity(), plate.limit)
            for plate in work.bins
        ]
        self._limits = [plate.limit for plate in work.bins]
        self._lp.Objective().SetMinimization()
        self.add(layouts)

    def add(self, layouts: Sequence[Filled]) -> None:
        """Take in more layouts."""
        for one in layouts:
            var = self._lp.NumVar(0, self._lp.infinity(), "")
            self._lp.Objective().SetCoefficient(var, one.net)
            for row, count in zip(self._cover, one.counts, strict=True):
                if count:
                    row.SetCoefficient(var, count)
            limit = self._limit[one.bin]
            if limit is not None:
                limit.SetCoefficient(var, 1)
            self._uses.append(var)
        self.layouts.extend(layouts)

    def solve(self, left: Sequence[int], used: Sequence[int]) -> Prices | None:
        """Return the prices when so many copies are left and so many plates used; None if there are none."""
        for row, count in zip(self._cover, left, strict=True):
            row.SetBounds(count, self._lp.infinity())
        for row, most, gone in zip(self._limit, self._limits, used, strict=True):
            if row is not None and most is not None:
                row.SetBounds(-self._lp.infinity(), most - gone)
        if self._lp.Solve() != self._lp.OPTIMAL:
            return None
        return Prices(
            self._lp.Objective().Value(),
            tuple(row.dual_value() for row in self._cover),
            tuple(0.0 if row is None else row.dual_value() for row in self._limit),
        )

    def most_used(self, noise: float, random: Random, most: int) -> list[Filled]:
        """Return the layouts of the largest shares in the last solution, at most so many, the largest first;
        shares are blurred by noise."""
        shares: list[tuple[float, int]] = []
        for k, var in enumerate(self._uses):
            share = var.solution_value()
            if share > _EPS:
                shares.append((share * (1 + noise * random.random()), -k))
        return [self.layouts[-k] for _, k in nlargest(most, shares)]


def asked_for(
    work: PackingProblem,
    prices: Prices,
    left: Sequence[int],
    used: Sequence[int],
    *,
    spreads: Sequence[float],
    random: Random,
) -> tuple[list[Filled], int]:
    """Return layouts that cost less than the prices of their pieces, and how many plates were filled.

    Every plate is filled by every rule with the pieces that bring more than their metal would fetch in a
    drop, the highest price per area first; `spreads` blur that order.
    """
    found: list[Filled] = []
    tried = 0
    for index, plate in enumerate(work.bins):
        if not plate.is_left(used[index]):
            continue
        credit = plate.drop_share * plate.price / plate.area
        density = {
            k: prices.item[k] / item.area - credit
            for k, item in enumerate(work.items)
            if left[k] and index in item.plates
        }
        worth = [k for k, gain in density.items() if gain > 1e-12]
        if not worth:
            continue
        for rule in range(rules(work)):
            for spread in spreads:
                keys = {k: density[k] * (1 + spread * random.random()) for k in worth}
                one = fill(work, index, left, sorted(worth, key=lambda k: (-keys[k], k)), rule)
                tried += 1
                if one.puts and prices.reduced(one) < -_GAIN:
                    found.append(one)
    return found, tried
