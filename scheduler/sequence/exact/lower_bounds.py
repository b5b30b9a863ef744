"""A lower bound on the objective that needs no search: work that no order can avoid.

Set-ups: every operation is preceded by something, so each costs at least its cheapest set-up over machines
and predecessors.
Lateness: a job cannot end before its own operations have been done one after the other from its release,
each on the machine that ends it first, in the hours that are open at all, overtime among them.
Running: every operation costs at least its cheapest mode.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from scheduler.sequence.problem_parts import Aim
from scheduler.sequence.timing import Tables, least_late

NONE = 1 << 30


def lower_bound(t: Tables) -> int:
    """Ticks that no plan can go below (late money only with the aim "dates first")."""
    late = lateness_bound(t)
    return late if t.problem.aim is Aim.DATES_FIRST else late + setup_bound(t) + running_bound(t)


def running_bound(t: Tables) -> int:
    """Running cost that no plan avoids, ticks: each operation on its cheapest machine."""
    return sum(min(cost.values()) for cost in t.running_cost)


def setup_bound(t: Tables) -> int:
    """Set-up money that no order avoids, ticks: the cheapest assignment of a predecessor to each operation.

    Rows are the operations and the machines' initial states, columns the operations and the rows' ends;
    each is used
    once, as in any plan, but circles are allowed, so this is a relaxation.
    """
    if all(s is None for s in t.setups) or not t.setup_rate:
        return 0
    from ortools.graph.python import linear_sum_assignment  # noqa: PLC0415 - slow to load

    cost = _cheapest_setups(t)
    able = np.nonzero(cost < NONE)
    problem = linear_sum_assignment.SimpleLinearSumAssignment()
    problem.add_arcs_with_cost(able[0].astype(np.int32), able[1].astype(np.int32), cost[able])
    status = problem.solve()
    minutes = int(problem.optimal_cost()) if status == problem.OPTIMAL else 0
    return minutes * t.setup_rate


def _cheapest_setups(t: Tables) -> NDArray[np.int64]:
    """Least set-up over the machines that can do both, `NONE` where there is none; shape (n + machines, n
    + machines)."""
    n, machines = t.size, len(t.calendars)
    cost = np.full((n + machines, n + machines), NONE, dtype=np.int64)
    cost[:, n:] = 0
    for m, given in enumerate(t.setups):
        able = np.array([m in modes for modes in t.minutes], dtype=np.bool_)
        matrix = np.zeros((n + 1, n), np.int64) if given is None else np.array(given, dtype=np.int64)
        matrix[:, np.array(t.running, dtype=np.bool_)] = 0
        both = np.where(able[:, None] & able[None, :], matrix[1:], NONE)
        cost[:n, :n] = np.minimum(cost[:n, :n], both)
        cost[n + m, :n] = np.where(able, matrix[0], NONE)
    cost[np.arange(n), np.arange(n)] = NONE
    return cost


def lateness_bound(t: Tables) -> int:
    """Late money that no order avoids, ticks: every job as if alone in the shop, all overtime worked."""
    return sum(least_late(t))
