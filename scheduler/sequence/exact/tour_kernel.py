"""Compiled parts of the tour search: the assignment problem with its prices, and moves of stretches of a
tour.

Import it only when it is going to be used.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from quoting.core import compiled, inner

Ints = NDArray[np.int64]
FAR = 1 << 40


@compiled
def assign(cost: Ints) -> tuple[Ints, Ints, Ints]:
    """Cheapest assignment of a successor to each node: successors and the prices of rows and columns.

    Shortest augmenting paths (Jonker & Volgenant 1987, Computing 38): u[i] + v[j] <= cost[i, j], equal
    where assigned.
    """
    n = cost.shape[0]
    u, v = np.zeros(n + 1, np.int64), np.zeros(n + 1, np.int64)
    row_of = np.zeros(n + 1, np.int64)
    for i in range(1, n + 1):
        row_of[0] = i
        column = 0
        least = np.full(n + 1, FAR, np.int64)
        came = np.zeros(n + 1, np.int64)
        used = np.zeros(n + 1, np.bool_)
        while row_of[column] != 0:
            used[column] = True
            row, step, following = row_of[column], FAR, 0
            for j in range(1, n + 1):
                if not used[j]:
                    reduced = cost[row - 1, j - 1] - u[row] - v[j]
                    if reduced < least[j]:
                        least[j], came[j] = reduced, column
                    if least[j] < step:
                        step, following = least[j], j
            for j in range(n + 1):
                if used[j]:
                    u[row_of[j]] += step
                    v[j] -= step
                else:
                    least[j] -= step
            column = following
        while column != 0:
            row_of[column] = row_of[came[column]]
            column = came[column]
    successor = np.zeros(n, np.int64)
    for j in range(1, n + 1):
        successor[row_of[j] - 1] = j - 1
    return successor, u[1:], v[1:]


@compiled
def patch(cost: Ints, successor: Ints) -> Ints:
    """Join the circles of an assignment into one tour, always the cheapest join (Karp 1979, SIAM J.
    Computing 8)."""
    n = cost.shape[0]
    after = successor.copy()
    circle = np.full(n, -1, np.int64)
    count = 0
    for start in range(n):
        if circle[start] < 0:
            i = start
            while circle[i] < 0:
                circle[i] = count
                i = after[i]
            count += 1
    while count > 1:
        best, a, b = FAR, 0, 0
        for i in range(n):
            for j in range(n):
                if circle[i] != circle[j]:
                    extra = cost[i, after[j]] + cost[j, after[i]] - cost[i, after[i]] - cost[j, after[j]]
                    if extra < best:
                        best, a, b = extra, i, j
        old, new = circle[b], circle[a]
        for i in range(n):
            if circle[i] == old:
                circle[i] = new
        after[a], after[b] = after[b], after[a]
        count -= 1
    tour = np.zeros(n, np.int64)
    for k in range(1, n):
        tour[k] = after[tour[k - 1]]
    return tour


@compiled
def length(cost: Ints, tour: Ints) -> int:
    """Length of the closed tour."""
    total: int = cost[tour[-1], tour[0]]
    for k in range(tour.size - 1):
        total += cost[tour[k], tour[k + 1]]
    return total


@inner
def _descend(cost: Ints, near: Ints, tour: Ints, place: Ints, queue: Ints) -> int:
    """Exchange neighbouring stretches (3-opt without turning any) until none gets shorter; return the gain.

    For arc a -> b and a near successor d of a: a -> d, then c -> b closes with the cheapest third arc.
    """
    n = tour.size
    waiting = np.ones(n, np.bool_)
    head, size, gain_all = 0, n, 0
    while size > 0:
        a = queue[head]
        head = (head + 1) % n
        size -= 1
        waiting[a] = False
        i = place[a]
        b = tour[(i + 1) % n]
        best, at_c, at_e = 0, -1, -1
        for d in near[a]:
            first = cost[a, b] - cost[a, d]
            if first <= 0:
                break
            j = (place[d] - i - 1) % n  # places after b at which d stands
            if j <= 0:
                continue
            c = tour[(place[d] - 1) % n]
            second = first + cost[c, d]
            for k in range(j, n - 1):
                # e -> f lies between d and a; new arcs a->d, e->b, c->f
                e = tour[(i + 1 + k) % n]
                f = tour[(i + 2 + k) % n]
                gain = second + cost[e, f] - cost[e, b] - cost[c, f]
                if gain > best:
                    best, at_c, at_e = gain, j, k
        if best > 0:
            gain_all += best
            stretch = np.empty(at_e + 1, np.int64)
            m = at_e - at_c + 1
            for q in range(m):
                stretch[q] = tour[(i + 1 + at_c + q) % n]
            for q in range(at_c):
                stretch[m + q] = tour[(i + 1 + q) % n]
            for q in range(at_e + 1):
                tour[(i + 1 + q) % n] = stretch[q]
                place[stretch[q]] = (i + 1 + q) % n
            for node in (a, stretch[m - 1], stretch[at_e], stretch[0], b):
                if not waiting[node]:
                    waiting[node] = True
                    queue[(head + size) % n] = node
                    size += 1
    return gain_all


@compiled
def improve(cost: Ints, near: Ints, start: Ints, rounds: int, target: int, seed: int) -> Ints:
    """Descend, then escape by a double bridge and descend again, `rounds` times or until `target` is
    reached."""
    np.random.seed(seed)
    n = start.size
    best = start.copy()
    place = np.empty(n, np.int64)
    place[best] = np.arange(n)
    _descend(cost, near, best, place, np.random.permutation(n))
    best_length = length(cost, best)
    for _ in range(rounds):
        if best_length <= target or n < 8:
            break
        span = min(n, 50)
        shift = np.random.randint(n)
        trial = np.roll(best, -shift)
        cuts = np.sort(np.random.choice(span - 1, 3, False) + 1)
        a, b, c = cuts[0], cuts[1], cuts[2]
        trial = np.concatenate((trial[:a], trial[b:c], trial[a:b], trial[c:]))
        place[trial] = np.arange(n)
        _descend(cost, near, trial, place, np.random.permutation(n))
        new = length(cost, trial)
        if new <= best_length:
            best, best_length = trial, new
    return best
