"""A lower bound on the objective that needs no search: work that no order can avoid.

Set-ups: every operation is preceded by something, so each costs at least its cheapest set-up over machines
and predecessors.
Lateness: a job cannot end before its own operations have been done one after the other from its release,
each on its quickest machine, counted in clock minutes without any closed window.
"""

from __future__ import annotations

from .model import Aim
from .tables import Tables


def lower_bound(t: Tables) -> int:
    """Ticks that no plan can go below (late money only with the aim "dates first")."""
    late = lateness_bound(t)
    return late if t.problem.aim is Aim.DATES_FIRST else late + setup_bound(t)


def process_order(t: Tables) -> list[int]:
    """Operations so that each comes after all it waits for."""
    order: list[int] = []
    seen = [False] * t.size

    def add(i: int) -> None:
        if not seen[i]:
            seen[i] = True
            for j, _ in t.before[i]:
                add(j)
            order.append(i)

    for i in range(t.size):
        add(i)
    return order


def setup_bound(t: Tables) -> int:
    """Set-up money that no order avoids, ticks."""
    minutes = sum(min(_cheapest(t, m, j) for m in t.minutes[j]) for j in range(t.size) if not t.running[j])
    return minutes * t.setup_rate


def _cheapest(t: Tables, m: int, j: int) -> int:
    matrix = t.setups[m]
    if matrix is None:
        return 0
    able = [-1, *(i for i in range(t.size) if m in t.minutes[i] and i != j)]
    return min(matrix[i + 1][j] for i in able)


def lateness_bound(t: Tables) -> int:
    """Late money that no order avoids, ticks."""
    end = [0] * t.size
    done = [0] * len(t.due)
    for i in process_order(t):
        ready = max([t.release[i], *(end[j] + lag for j, lag in t.before[i])])
        end[i] = ready + min(t.minutes[i].values())
        done[t.job[i]] = max(done[t.job[i]], end[i])
    return sum(t.weight[k] * max(0, done[k] - due) for k, due in enumerate(t.due))
