"""A lower bound on set-ups, lateness and running cost together: the rows of all machines as one tour.

Every plan is a tour: the row of one machine after its initial state, then that of the next machine. An arc
from one work to the next costs the set-up, and what the next one costs more since it cannot begin before the
other was done; least over the machines that can do both. The linear relaxation of the travelling salesman
problem with subtour constraints (Dantzig, Fulkerson & Johnson 1954, Operations Research 2, 393-410) bounds
the shortest tour, and what each work costs by itself comes on top.

People, cranes, unfinished work and longer queues than of one work are left out: that only lowers the bound.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from scheduler.sequence.exact.alone import Alone
from scheduler.sequence.exact.tour import SubtourRelaxation
from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.timing import Tables, overtime_windows, tables

Ints = NDArray[np.int64]

UNIT = 100
"""Ticks that count as one in the relaxation, rounded down: a cent."""

NEVER = 10**7
"""Units of an arc that no plan can use."""

FEWEST = 3


def tour_bound(t: Tables, most: int) -> int:
    """Ticks that no plan can go below (late money only with the aim "dates first").

    0 where there is nothing to go round, or where the tour has more than `most` nodes: the relaxation then
    takes longer than it is worth.
    """
    t = tables(t.problem, frozenset((m, w.start) for m, w in overtime_windows(t.problem)))
    alone = Alone(t)
    works, machines = alone.in_rows()
    size = len(works) + len(machines)
    if not FEWEST <= size <= most:
        return 0
    least = np.array([alone.least(i) for i in works])
    cost = _arcs(t, alone, works, machines, least)
    relaxation = SubtourRelaxation(cost, cost < NEVER, np.arange(size))
    tour = relaxation.run(math.inf) - 1  # a unit for the rounding of the linear programme
    return max(0, tour * UNIT + int(least.sum()) + alone.besides(works))


def _arcs(t: Tables, alone: Alone, works: list[int], machines: list[int], least: Ints) -> Ints:
    """Units of each arc: works are nodes 0 to n - 1, then the machines' initial states."""
    n, rate = len(works), 0 if t.problem.aim is Aim.DATES_FIRST else t.setup_rate
    cost = np.full((n + len(machines), n + len(machines)), NEVER, np.int64)
    for q, m in enumerate(machines):
        able = [k for k, i in enumerate(works) if m in t.minutes[i]]
        own = [works[k] for k in able]
        setups = _setups(t, m, own)
        begun = np.array([0, *(alone.first(i, m) + t.minutes[i][m] for i in own)])
        rows = [n + q, *able]
        for b, k in enumerate(able):
            from_then = np.minimum.accumulate(alone.cost(own[b], m)[::-1])[::-1]
            at = np.maximum(begun + setups[:, b], alone.first(own[b], m))
            dearer = from_then[np.minimum(at, len(from_then) - 1)] - least[k]
            arcs = np.minimum((setups[:, b] * rate + dearer) // UNIT, NEVER).astype(np.int64)
            cost[rows, k] = np.minimum(cost[rows, k], arcs)
    cost[:, n:] = 0
    np.fill_diagonal(cost, NEVER)
    return cost


def _setups(t: Tables, m: int, works: list[int]) -> Ints:
    """Set-up minutes of machine m, from its initial state and after each of the works; shape (1 + n, n)."""
    given = t.setups[m]
    if given is None:
        return np.zeros((len(works) + 1, len(works)), np.int64)
    found = np.array(given, np.int64)[np.ix_([0, *(1 + i for i in works)], works)]
    found[:, [t.running[i] for i in works]] = 0
    return found
