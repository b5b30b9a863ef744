"""The order with the fewest set-up minutes and nothing else: an asymmetric travelling salesman problem,
solved exactly.

1. The assignment problem bounds the tour from below and its prices name the arcs no better tour can use
(reduced cost above
   the gap; Carpaneto, Dell'Amico & Toth 1995, ACM Transactions on Mathematical Software 21).
2. Patching its circles and exchanging stretches gives a tour.
3. The linear relaxation with the subtour constraints sum(x_ij, i in S, j not in S) >= 1 that minimum cuts
find violated
   (Dantzig, Fulkerson & Johnson 1954, Operations Research 2) raises the bound and rules out more arcs.
4. CP-SAT finishes on the arcs that are left.
"""

from __future__ import annotations

import math
import time
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from scheduler.sequence.exact.cpsat import configure
from scheduler.sequence.stop import Stop

Ints = NDArray[np.int64]
FORBIDDEN = 1 << 32


@dataclass(frozen=True, slots=True)
class Tour:
    """Nodes in order from node 0, the length of the closed tour, and a length that no tour goes below."""

    order: tuple[int, ...]
    length: int
    bound: int

    @property
    def proven(self) -> bool:
        """Whether no tour is shorter."""
        return self.bound >= self.length


def shortest_tour(cost: Ints, stop: Stop, seed: int = 0) -> Tour:
    """Return the shortest closed tour found within the limits; `cost[i, j]` is a whole number >= 0, the
    diagonal is ignored."""
    from scheduler.sequence.exact.tour_kernel import (  # noqa: PLC0415 - compiled, so only when used
        assign,
        improve,
        length,
        patch,
    )

    n = len(cost)
    if n < 3:
        order = tuple(range(n))
        total = int(cost[0, 1] + cost[1, 0]) if n == 2 else 0
        return Tour(order, total, total)
    ends_at = math.inf if stop.seconds is None else time.monotonic() + stop.seconds
    matrix = cost.astype(np.int64).copy()
    np.fill_diagonal(matrix, FORBIDDEN)
    successor, u, v = assign(matrix)
    bound = int(u.sum() + v.sum())
    near = np.argsort(matrix, axis=1, kind="stable")[:, : min(n - 1, 12)].astype(np.int64)
    best = improve(matrix, near, patch(matrix, successor), min(stop.iterations, 20 * n), bound, seed)
    value = int(length(matrix, best))
    reduced = matrix - u[:, None] - v[None, :]
    if value > bound:
        relaxation = SubtourRelaxation(matrix, reduced < value - bound, best)
        bound = max(bound, relaxation.run(ends_at))
        allowed = relaxation.allowed(value)
        if value > bound:
            best, bound = _finish(matrix, allowed, best, bound, stop, ends_at, seed)
            value = int(length(matrix, best))
    start = int(np.flatnonzero(best == 0)[0])
    return Tour(tuple(np.roll(best, -start).tolist()), value, min(bound, value))


def fewest_setups(setups: Ints, stop: Stop, seed: int = 0) -> Tour:
    """Return the order with the fewest set-up minutes of one machine, and a bound on them.

    `setups` has shape (1 + n, n), row 0 from the initial state. Node 0 of the tour is the initial state,
    node 1 + i operation i.
    """
    n = setups.shape[1]
    cost = np.zeros((n + 1, n + 1), dtype=np.int64)
    cost[:, 1:] = setups
    return shortest_tour(cost, stop, seed)


class SubtourRelaxation:
    """The linear relaxation over the arcs that are left, with subtour constraints added as they are
    violated."""

    def __init__(self, cost: Ints, left: NDArray[np.bool_], tour: Ints) -> None:
        from ortools.linear_solver import pywraplp  # noqa: PLC0415 - slow to load, so only when used

        self.n = len(cost)
        keep = left.copy()
        np.fill_diagonal(keep, False)
        keep[tour, np.roll(tour, -1)] = True
        self.tails, self.heads = np.nonzero(keep)
        self.cost = cost[self.tails, self.heads]
        self.lp: Any = pywraplp.Solver.CreateSolver("GLOP")
        self.x = [self.lp.NumVar(0.0, 1.0, "") for _ in self.cost]
        objective = self.lp.Objective()
        for x, c in zip(self.x, self.cost.tolist(), strict=True):
            objective.SetCoefficient(x, c)
        for ends in (self.tails, self.heads):
            for node in range(self.n):
                self._row(np.flatnonzero(ends == node), 1.0, 1.0)
        self.value = 0.0
        self.solution = np.zeros(len(self.cost))

    def _row(self, arcs: NDArray[np.int64], low: float, high: float) -> None:
        row = self.lp.Constraint(low, high)
        for k in arcs.tolist():
            row.SetCoefficient(self.x[k], 1.0)

    def run(self, ends_at: float) -> int:
        """Solve until no subtour constraint is violated; return the bound rounded up."""
        status = self.lp.Solve()
        while status == self.lp.OPTIMAL:
            self.value = self.lp.Objective().Value()
            self.solution = np.array([x.solution_value() for x in self.x])
            sets = self._violated()
            if not sets or time.monotonic() > ends_at:
                break
            for inside in sets:
                self._row(np.flatnonzero(inside[self.tails] & ~inside[self.heads]), 1.0, math.inf)
            status = self.lp.Solve()
        return math.ceil(self.value - 1e-6)

    def allowed(self, value: int) -> list[tuple[int, int]]:
        """Arcs that a tour shorter than `value` may use."""
        gap = value - 1 - self.value + 1e-6
        kept = [k for k, x in enumerate(self.x) if x.reduced_cost() <= gap]
        return [(int(self.tails[k]), int(self.heads[k])) for k in kept]

    def _violated(self) -> list[NDArray[np.bool_]]:
        parts = self._components()
        if len(parts) > 1:
            return parts
        return self._cuts()

    def _components(self) -> list[NDArray[np.bool_]]:
        """Sets of nodes that the arcs with a positive value do not connect."""
        root = list(range(self.n))

        def find(i: int) -> int:
            while root[i] != i:
                root[i] = root[root[i]]
                i = root[i]
            return i

        for k in np.flatnonzero(self.solution > 1e-6).tolist():
            root[find(int(self.tails[k]))] = find(int(self.heads[k]))
        roots = np.array([find(i) for i in range(self.n)])
        return [roots == r for r in np.unique(roots).tolist()]

    def _cuts(self) -> list[NDArray[np.bool_]]:
        """Minimum cuts below 1 between node 0 and each other node, most violated first, no set twice."""
        from ortools.graph.python import max_flow  # noqa: PLC0415

        used = np.flatnonzero(self.solution > 1e-6)
        capacity = np.round(self.solution[used] * 1e6).astype(np.int64)
        found: dict[bytes, NDArray[np.bool_]] = {}
        covered = np.zeros(self.n, dtype=bool)
        for sink in range(1, self.n):
            if covered[sink]:
                continue
            flow = max_flow.SimpleMaxFlow()
            flow.add_arcs_with_capacity(self.tails[used], self.heads[used], capacity)
            flow.solve(0, sink)
            if flow.optimal_flow() < 1e6 - 2e3:
                inside = np.zeros(self.n, dtype=bool)
                inside[np.array(flow.get_source_side_min_cut())] = True
                found[inside.tobytes()] = inside
                covered |= ~inside
        return list(found.values())


def _finish(
    cost: Ints,
    arcs: list[tuple[int, int]],
    best: Ints,
    bound: int,
    stop: Stop,
    ends_at: float,
    seed: int,
) -> tuple[Ints, int]:
    """Look for a shorter tour on the arcs that are left; return the best tour and the bound."""
    from ortools.sat.python import cp_model  # noqa: PLC0415

    value = int(cost[best, np.roll(best, -1)].sum())
    model: Any = cp_model.CpModel()
    literals = [model.new_bool_var("") for _ in arcs]
    model.add_circuit([(i, j, x) for (i, j), x in zip(arcs, literals, strict=True)])
    total = sum(int(cost[i, j]) * x for (i, j), x in zip(arcs, literals, strict=True))
    model.add_linear_constraint(total, bound, value - 1)
    model.minimize(total)
    solver = cp_model.CpSolver()
    left = None if ends_at == math.inf else max(0.1, ends_at - time.monotonic())
    configure(solver.parameters, Stop(stop.iterations, stop.work, left, stop.workers), seed)
    solver.parameters.linearization_level = 2
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return best, value
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return best, max(bound, min(value, int(solver.best_objective_bound)))
    after = {i: j for (i, j), x in zip(arcs, literals, strict=True) if solver.boolean_value(x)}
    tour = [0]
    while len(tour) < len(cost):
        tour.append(after[tour[-1]])
    return np.array(tour, dtype=np.int64), round(solver.best_objective_bound)
