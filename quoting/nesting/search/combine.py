"""The cheapest multiset of pooled layouts that covers every piece, and new layouts that its prices ask for.

Set covering over patterns (Gilmore & Gomory 1961, "A linear programming approach to the cutting-stock
problem", Oper. Res. 9, 849-859): least net price of the plates, every piece covered as often as it is
wanted, limited plates used no more often than there are. The dual prices of the linear relaxation say what
a plate should carry: plates are filled anew with the pieces in the order of price per area and join the
pool while that helps. Dives fix the layout of the largest share and solve on for what is left; then a
mixed integer solver chooses among the layouts. What is covered too often is taken off again. The value of
the relaxation is over the layouts found, not over all there are: it is no bound on the cost.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from random import Random
from typing import Any

from quoting.nesting.plate import Filled, PackingProblem, rules
from quoting.nesting.search.pool import Pool
from quoting.nesting.search.relaxation import Prices, Relaxation, asked_for
from quoting.nesting.search.ruin_and_recreate import Solution, Stop, remaining, solution, wanted_again
from quoting.nesting.search.surplus import exactly

_EPS = 1e-6
_SPREADS = (0.0, 0.3, 0.6)
_BLURRED = (0.5, 1.0)
_BLURRED_ROUNDS = 5
_SPREADS_A_FIX = (0.0, 0.5)
_ROUNDS_A_FIX = 3
_FIXES = 1000  # a dive of more plates than this, or of fewer where work is short, fixes several at a time
_FEWEST_FIXES = 12
_ENTRIES_A_US = 14  # rows times columns that the relaxation gets through in a microsecond, as measured
_US_AN_ITEM = 2  # microseconds a plate is filled for each item that may go on it, as measured
_COLUMNS = 300
_MOST_ROWS = _COLUMNS // 2  # of more items, so few columns hardly hold a choice that covers all
_MOST_FREED = 6
_ALL_AT_ONCE = 3  # so few plates are chosen as well all at once
_PART_NODES = 10
_SCIP = "separating/maxroundsroot = 3\n"


@dataclass(frozen=True, slots=True)
class Combining:
    """How much to do: plates to fill anew, dives, nodes of the mixed integer search, parts of the best
    solution to settle anew, and at most about so many microseconds of work in all."""

    fills: int
    dives: int
    nodes: int
    parts: int
    work: int


@dataclass(frozen=True, slots=True)
class Proving:
    """How much to do: deterministic time of the solver, and rounds of splitting."""

    time: float
    rounds: int


def combined(
    work: PackingProblem,
    pool: Pool,
    best: Solution,
    *,
    effort: Combining,
    floor: float,
    seed: int,
    stop: Stop,
) -> Solution:
    """Return the best solution or a cheaper one out of the pool, which grows on the way."""
    if best.missing > _EPS or not best.plates:
        return best
    pool.aim(best.cost)
    pool.add_all(best.plates)
    search = _Combination(work, pool, Relaxation(work, pool.layouts()), Random(seed))
    search.enrich(effort.fills, effort.work // 2, stop)
    tries: list[Callable[[], Solution | None]] = []
    if fixes := search.fixes(effort.work // 2, effort.dives):
        at_once = -(-len(best.plates) // fixes)
        tries += [partial(search.dive, float(number > 0), at_once) for number in range(effort.dives)]
    if len(work.items) <= _MOST_ROWS:
        tries.append(partial(search.chosen, effort.nodes))
    for step in tries:
        if stop() or best.reaches(floor):
            return best
        best = _better(best, step())
    for _ in range(effort.parts if len(best.plates) > _ALL_AT_ONCE else 0):
        if stop() or best.reaches(floor) or search.spent > effort.work:
            return best
        best = _better(best, search.part(best, _PART_NODES))
    return best


def _better(best: Solution, found: Solution | None) -> Solution:
    return found if found is not None and found.better_than(best) else best


@dataclass(slots=True)
class _Combination:
    """The pool and the relaxation over it, which grow together. `spent` is work in microseconds, about."""

    work: PackingProblem
    pool: Pool
    relaxation: Relaxation
    random: Random
    spent: int = 0

    def solve(self, left: Sequence[int], used: Sequence[int]) -> Prices | None:
        """Return the prices of what is left over the layouts there are."""
        self.spent += self.a_solution()
        return self.relaxation.solve(left, used)

    def a_solution(self) -> int:
        """Return what solving the relaxation costs."""
        return len(self.work.items) * len(self.relaxation.layouts) // _ENTRIES_A_US

    def fixes(self, budget: int, dives: int) -> int:
        """Return how often a dive may fix layouts within the budget; 0 when that is not worth a dive."""
        plates = len(self.work.bins) * rules(self.work) * len(_SPREADS_A_FIX)
        asking = plates * len(self.work.items) * _US_AN_ITEM
        most = budget // max(1, dives * (_ROUNDS_A_FIX * asking + (_ROUNDS_A_FIX + 1) * self.a_solution()))
        return min(most, _FIXES) if most >= _FEWEST_FIXES else 0

    def ask(
        self, prices: Prices, left: Sequence[int], used: Sequence[int], spreads: Sequence[float]
    ) -> tuple[bool, int]:
        """Fill plates as the prices ask for; return whether that gave new layouts, and the plates filled."""
        found, tried = asked_for(self.work, prices, left, used, spreads=spreads, random=self.random)
        self.spent += tried * sum(map(bool, left)) * _US_AN_ITEM
        self.pool.add_all(found)
        self.relaxation.add(found)
        return bool(found), tried

    def enrich(self, fills: int, budget: int, stop: Stop) -> None:
        """Ask until that brings nothing new several times, so many plates are filled, or so much is spent."""
        left, used = remaining(self.work, ())
        prices = self.solve(left, used)
        stale = 0
        while prices and fills > 0 and self.spent <= budget and stale < _BLURRED_ROUNDS and not stop():
            new, tried = self.ask(prices, left, used, _BLURRED if stale else _SPREADS)
            fills -= max(tried, 1)
            stale = 0 if new else stale + 1
            if new:
                prices = self.solve(left, used)

    def priced(self, left: Sequence[int], used: Sequence[int]) -> Prices | None:
        """Return the prices of what is left, after asking for layouts of it a few times."""
        prices = self.solve(left, used)
        for _ in range(_ROUNDS_A_FIX):
            if prices is None or not self.ask(prices, left, used, _SPREADS_A_FIX)[0]:
                break
            prices = self.solve(left, used)
        return prices

    def dive(self, noise: float, at_once: int) -> Solution | None:
        """Return what comes from fixing the layouts of the largest shares, new ones asked for in between.

        `at_once` layouts are fixed at a time: the first one, and more of them that leave nothing over.
        """
        left, used = remaining(self.work, ())
        fixed: list[Filled] = []
        while any(left):
            if self.priced(left, used) is None:
                return None
            most = self.relaxation.most_used(noise, self.random, at_once)
            if not most or not any(map(min, most[0].counts, left)):
                return None
            for number, one in enumerate(most):
                if number and not wanted_again(self.work, one, left, used):
                    continue
                fixed.append(one)
                used[one.bin] += 1
                left = [max(have - took, 0) for have, took in zip(left, one.counts, strict=True)]
        return self.trimmed(fixed)

    def chosen(self, nodes: int) -> Solution | None:
        """Return the best choice of layouts that a mixed integer search finds."""
        left, used = remaining(self.work, ())
        prices = self.solve(left, used)
        if prices is None:
            return None
        plates = choose(self.work, prices, self.pool.layouts(), left, used, nodes)
        return None if plates is None else self.trimmed(plates)

    def part(self, best: Solution, nodes: int) -> Solution | None:
        """Return the best solution with a few of its plates chosen anew."""
        plates = list(best.plates)
        self.random.shuffle(plates)
        free = self.random.randint(2, max(2, min(len(plates), _MOST_FREED)))
        kept = plates[free:]
        left, used = remaining(self.work, kept)
        prices = self.priced(left, used)
        if prices is None:
            return None
        chosen = choose(self.work, prices, self.relaxation.layouts, left, used, nodes)
        return None if chosen is None else self.trimmed(chosen, kept)

    def trimmed(self, plates: Sequence[Filled], kept: Sequence[Filled] = ()) -> Solution:
        """Return what is kept and the plates without surplus copies; they join the pool."""
        left, used = remaining(self.work, kept)
        found = solution(self.work, [*kept, *exactly(self.work, plates, left, used)])
        self.pool.add_all(found.plates)
        self.relaxation.add(found.plates)
        return found


def choose(
    work: PackingProblem,
    prices: Prices,
    layouts: Sequence[Filled],
    left: Sequence[int],
    used: Sequence[int],
    nodes: int,
) -> list[Filled] | None:
    """Return the cheapest cover of what is left that a mixed integer search of so many nodes finds, or None.

    The layouts of least reduced cost take part.
    """
    from ortools.linear_solver import pywraplp  # noqa: PLC0415 - only when used

    costs = sorted((prices.reduced(one), k) for k, one in enumerate(layouts))
    columns = [layouts[k] for _, k in costs[:_COLUMNS]]
    mip: Any = pywraplp.Solver.CreateSolver("SCIP")
    pairs = [(one, mip.IntVar(0, _most(one, left), "")) for one in columns]
    # row by row: the solver's own expressions make the same model and take as long as a fifth of solving it
    for index, count in enumerate(left):
        if count:
            row = mip.Constraint(count, mip.infinity())
            for one, var in pairs:
                if one.counts[index]:
                    row.SetCoefficient(var, one.counts[index])
    for index, plate in enumerate(work.bins):
        of_plate = [var for one, var in pairs if one.bin == index]
        if plate.limit is not None and of_plate:
            row = mip.Constraint(-mip.infinity(), plate.limit - used[index])
            for var in of_plate:
                row.SetCoefficient(var, 1)
    mip.Objective().SetMinimization()
    for one, var in pairs:
        mip.Objective().SetCoefficient(var, one.net)
    mip.SetSolverSpecificParametersAsString(f"limits/nodes = {nodes}\n{_SCIP}")
    if mip.Solve() not in (mip.OPTIMAL, mip.FEASIBLE):
        return None
    return [one for one, var in pairs for _ in range(round(var.solution_value()))]


def _most(one: Filled, left: Sequence[int]) -> int:
    """Return how often a layout can be of use."""
    return max(-(-count // c) for count, c in zip(left, one.counts, strict=True) if c)
