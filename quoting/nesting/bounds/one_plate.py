"""What one plate can hold at best, by constraint programming: do these pieces fit, and the largest drops.

Pieces and drops are boxes that do not overlap (CP-SAT's two-dimensional no-overlap). Everything is counted
in a unit that divides all lengths, and then some best layout lies on whole units: with the order of the
boxes on both axes kept, the places on one axis are a linear program with a totally unimodular matrix, and
so are those on the other. Where no unit of at least `LEAST_UNIT` divides all of them, lengths are rounded
so that the answer stays a bound, and no layout comes with it. Guillotine cuts are not asked for: on a
shear, too, the answer is a bound. Imports ortools in the functions that need it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import gcd
from typing import Any

from quoting.nesting.plate import SLACK, Box, Filled, PackingProblem, Put, drops_value, metal

LEAST_UNIT = 100
_MOST_CHAINS = 60
_FEW = 2
_MOST_EXTENTS = 150
_MOST_EXTENTS_OF_MANY = 40


@dataclass(frozen=True, slots=True)
class PlateAnswer:
    """`most` is an upper bound on the area of the drops (um2), None when the pieces do not fit at all.

    `layout` is a layout that reaches a good value, if one came with it; `work` is the solver's own
    deterministic time.
    """

    most: float | None
    layout: Filled | None
    work: float


def ask(work: PackingProblem, index: int, counts: Sequence[int], *, most: float, limit: float) -> PlateAnswer:
    """Return what plate `index` can do with so many copies of each item.

    `most` is a bound on the area of the drops that is known already; `limit` is in units of deterministic
    time.
    """
    from ortools.sat.python import cp_model  # noqa: PLC0415 - slow to load, so only when used

    model = _Model(cp_model, work, index, counts)
    solver: Any = cp_model.CpSolver()
    solver.parameters.catch_sigint_signal = False  # it would leave Ctrl-C ending the process unheard
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 0
    solver.parameters.max_deterministic_time = limit
    if sum(counts) > _FEW:  # the solver's work before the search is not limited by the time it counts
        solver.parameters.cp_model_probing_level = 0
        solver.parameters.symmetry_level = 0
        solver.parameters.max_presolve_iterations = 1
    status = solver.solve(model.m)
    spent = float(solver.response_proto.deterministic_time)
    if status == cp_model.INFEASIBLE:
        return PlateAnswer(None, None, spent)
    if model.drops and status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        most = min(most, float(solver.best_objective_bound) * model.unit**2)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE) and model.exact
    return PlateAnswer(most, model.layout(solver) if found else None, spent)


class _Model:
    """The boxes of one plate. Drops are boxes of free size, gap included, none of them or large enough."""

    def __init__(self, cp: Any, work: PackingProblem, index: int, counts: Sequence[int]) -> None:
        self.work, self.index, self.counts = work, index, counts
        self.m = cp.CpModel()
        self.plate = work.bins[index]
        self.unit, self.exact = self._unit()
        self.w, self.h = self.plate.w // self.unit, self.plate.h // self.unit
        self.pieces: list[tuple[int, Any, Any, Any]] = []
        self.drops: list[tuple[Any, Any, Any, Any, Any]] = []
        self._across: list[Any] = []
        self._along: list[Any] = []
        for item, count in enumerate(counts):
            for copy in range(count):
                self._piece(item, copy)
        self._notch()
        if self.plate.drop_share:
            self._all_drops(cp)
        self.m.add_no_overlap_2d(self._across, self._along)

    def _unit(self) -> tuple[int, bool]:
        work = self.work
        lengths = [self.plate.w - SLACK, self.plate.h - SLACK, work.gap, work.drop_small, work.drop_large]
        for item, count in zip(work.items, self.counts, strict=True):
            if count:
                lengths += [item.variants[0].w, item.variants[0].h]
        if self.plate.blocked:
            lengths += self.plate.blocked[:2]
        unit = gcd(*lengths)
        return (unit, True) if unit >= LEAST_UNIT else (LEAST_UNIT, False)

    def _piece(self, item: int, copy: int) -> None:
        m, variants = self.m, self.work.items[item].variants
        sizes = [(variant.w // self.unit, variant.h // self.unit) for variant in variants[:2]]
        (w0, h0), (w1, h1) = sizes[0], sizes[-1]
        x, y = m.new_int_var(0, self.w, ""), m.new_int_var(0, self.h, "")
        turned: Any = m.new_bool_var("") if len(sizes) > 1 else 0
        w, h = w0 + (w1 - w0) * turned, h0 + (h1 - h0) * turned
        self._across.append(m.new_interval_var(x, w, self._end(x, w, self.w), ""))
        self._along.append(m.new_interval_var(y, h, self._end(y, h, self.h), ""))
        if copy:
            m.add(x >= self.pieces[-1][1])
        elif not self.pieces and self.plate.blocked is None:  # one of the four mirror images is enough
            m.add(2 * x + w <= self.w)
            m.add(2 * y + h <= self.h)
        self.pieces.append((item, x, y, turned))

    def _end(self, start: Any, size: Any, most: int) -> Any:
        end = self.m.new_int_var(0, most, "")
        self.m.add(start + size == end)
        return end

    def _notch(self) -> None:
        if self.plate.blocked is None:
            return
        x, y = (max(v, 0) // self.unit + (0 if self.exact else 1) for v in self.plate.blocked[:2])
        if x < self.w and y < self.h:
            self._across.append(self.m.new_fixed_size_interval_var(x, self.w - x, ""))
            self._along.append(self.m.new_fixed_size_interval_var(y, self.h - y, ""))

    def _all_drops(self, cp: Any) -> None:
        m, work, unit = self.m, self.work, self.unit
        gap = work.gap // unit
        loose = 0 if self.exact else 2
        small, large = ((side + work.gap) // unit for side in (work.drop_small, work.drop_large))
        areas: list[Any] = []
        boxes: list[Any] = []
        for _ in range(work.problem.drops.most_per_plate):
            there, upright = m.new_bool_var(""), m.new_bool_var("")
            x, y = m.new_int_var(0, self.w, ""), m.new_int_var(0, self.h, "")
            w, h = self._extent(cp, self.w, 0), self._extent(cp, self.h, 1)
            ex, ey = self._end(x, w, self.w), self._end(y, h, self.h)
            self._across.append(m.new_optional_interval_var(x, w, ex, there, ""))
            self._along.append(m.new_optional_interval_var(y, h, ey, there, ""))
            m.add(w >= small).only_enforce_if(there)
            m.add(h >= small).only_enforce_if(there)
            m.add(w >= large).only_enforce_if(there, ~upright)
            m.add(h >= large).only_enforce_if(there, upright)
            most = (self.w + loose) * (self.h + loose)
            grown, area = m.new_int_var(0, most, ""), m.new_int_var(0, most, "")
            m.add_multiplication_equality(grown, [w + loose * there, h + loose * there])
            m.add(area == grown - gap * (w + h) + gap * gap - 2 * gap * loose).only_enforce_if(there)
            m.add(area == 0).only_enforce_if(~there)
            m.add(w == 0).only_enforce_if(~there)
            m.add(h == 0).only_enforce_if(~there)
            areas.append(area)
            boxes.append(grown)
            self.drops.append((x, y, w, h, there))
        if self.exact:
            m.add(sum(boxes) <= self.w * self.h - self._taken())
        for one, two in pairwise(areas):
            m.add(one >= two)
        cost = self._keep_cost()
        m.maximize(sum(areas) - cost * sum(drop[-1] for drop in self.drops) if cost else sum(areas))

    def _keep_cost(self) -> int:
        """Return the area in square units that is worth what keeping a drop costs, rounded down."""
        worth = self.plate.drop_share * self.plate.price
        area = float(self.work.problem.drops.keep_cost) * self.plate.area * 1e6 / worth if worth else 0.0
        return int(min(area / self.unit**2, self.w * self.h))

    def _taken(self) -> int:
        """Return the area of the pieces in whole units."""
        unit, items = self.unit, self.work.items
        return sum(
            count * (item.variants[0].w // unit) * (item.variants[0].h // unit)
            for count, item in zip(self.counts, items, strict=True)
        )

    def _extent(self, cp: Any, length: int, axis: int) -> Any:
        """Return the extent of a drop: 0, or one of the few that a largest drop can have.

        With the order of the boxes kept, the largest extents are a corner of a polytope whose constraints
        say that chains of boxes are no longer than the plate; so an extent is the plate less a chain of
        pieces, the difference of two chains, a least extent, or the plate less a chain and a least extent.
        """
        values = (
            self._few_extents(length, axis)
            if self.exact and self.work.problem.drops.most_per_plate <= 2
            else None
        )
        if values is None:
            return self.m.new_int_var(0, length, "")
        return self.m.new_int_var_from_domain(cp.Domain.from_values(values), "")

    def _few_extents(self, length: int, axis: int) -> list[int] | None:
        sums = {0}
        for item, count in zip(self.work.items, self.counts, strict=True):
            sides = {(v.h if axis else v.w) // self.unit for v in item.variants}
            for _ in range(count):
                sums |= {one + side for one in sums for side in sides if one + side <= length}
                if len(sums) > _MOST_CHAINS:
                    return None
        least = [(side + self.work.gap) // self.unit for side in (self.work.drop_small, self.work.drop_large)]
        ends = [length, *(length - side for side in least)]
        found = {0, *least} | {end - one for end in ends for one in sums}
        found |= {one - two for one in sums for two in sums}
        kept = sorted(value for value in found if 0 <= value <= length)
        most = _MOST_EXTENTS if sum(self.counts) <= _FEW else _MOST_EXTENTS_OF_MANY
        return kept if len(kept) <= most else None

    def layout(self, solver: Any) -> Filled:
        """Return the layout of the solver's solution."""
        unit, work = self.unit, self.work
        puts = []
        for item, x, y, turned in self.pieces:
            variants = work.items[item].variants
            variant = variants[-1] if solver.value(turned) else variants[0]
            puts.append(Put(item, variant, solver.value(x) * unit, solver.value(y) * unit))
        drops: list[Box] = []
        for x, y, w, h, there in self.drops:
            if solver.value(there):
                sides = (solver.value(w) * unit - work.gap, solver.value(h) * unit - work.gap)
                drops.append((solver.value(x) * unit, solver.value(y) * unit, *sides))
        net = self.plate.price - drops_value(work, self.plate, drops)
        return Filled(
            self.index, tuple(puts), tuple(self.counts), metal(work, self.counts), tuple(drops), net
        )
