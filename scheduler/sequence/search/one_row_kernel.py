"""Compiled iterated local search over the order of one machine's row. Import it only when it is going to be
used.

Swaps of two operations and insertions of blocks are evaluated from the first changed place on, and given up
as soon as the money passes that of the present order or the clock is back where it was (the speed-ups of Xu,
Lu & Cheng 2014, "Iterated local search for single-machine scheduling with sequence-dependent setup times to
minimize total weighted tardiness", Journal of Scheduling 17). Escapes exchange two blocks, as in Subramanian,
Battarra & Potts 2014, International Journal of Production Research 52. After an escape only what it has
touched is tried again, as with the don't-look bits of Bentley 1992 ("Fast algorithms for geometric traveling
salesman problems", ORSA Journal on Computing 4).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from quoting.core import compiled, inner

Ints = NDArray[np.int64]
Small = NDArray[np.int32]
Flags = NDArray[np.bool_]
LAX = 0.02  # share by which an order may be worse and still be gone on from, set by trial
REACH = 20  # places a swap or a block moves at most, set by trial on published instances


class RowArrays(NamedTuple):
    """What every step of the search looks at.

    Columns of `jobs`: working minutes, first working minute it may start, working minute after which it is
    late, due clock minute, ticks a late minute. `setup[k, j]`: minutes from k to j, row n: initial state.
    `wall`: the clock minute of each working minute. `rate`: ticks a set-up minute. `timed[0]`: working minute
    after each place of the present order, `timed[1]`: ticks up to there, `timed[2]`: ticks a minute of all
    late work behind it. `plain`: whether that rate bounds what a shift of the rest can change, which it does
    without closed windows and releases. `awake`: operations whose moves are tried.
    """

    jobs: Ints
    setup: Small
    wall: Ints
    rate: int
    timed: Ints
    plain: bool
    awake: Flags


@inner
def _time(order: Small, row: RowArrays) -> int:
    """Fill working minute and money after each place; return the whole money."""
    work, k = 0, order.size
    total: int = 0
    for i in range(order.size):
        j = order[i]
        s = row.setup[k, j]
        work = max(work + s, row.jobs[j, 1]) + row.jobs[j, 0]
        total += row.rate * s
        if work > row.jobs[j, 2]:
            total += row.jobs[j, 4] * (row.wall[work] - row.jobs[j, 3])
        row.timed[0, i], row.timed[1, i] = work, total
        k = j
    late = 0
    for i in range(order.size - 1, -1, -1):
        row.timed[2, i] = late
        j = order[i]
        if row.timed[0, i] > row.jobs[j, 2]:
            late += row.jobs[j, 4]
    return total


@inner
def _value(order: Small, first: int, last: int, row: RowArrays, present: int) -> int:
    """Money of an order that differs from the timed one only in places first..last; `present` means no
    better."""
    n = order.size
    work, k = 0, n
    total: int = 0
    if first > 0:
        work, total, k = row.timed[0, first - 1], row.timed[1, first - 1], order[first - 1]
    for i in range(first, n):
        j = order[i]
        s = row.setup[k, j]
        work = max(work + s, row.jobs[j, 1]) + row.jobs[j, 0]
        total += row.rate * s
        if work > row.jobs[j, 2]:
            total += row.jobs[j, 4] * (row.wall[work] - row.jobs[j, 3])
        if total >= present:
            return present
        k = j
        if i > last:
            later: int = work - row.timed[0, i]
            rest: int = total + row.timed[1, n - 1] - row.timed[1, i]
            if later == 0:
                return rest
            if later > 0 and rest >= present:
                return present
            if row.plain and rest + later * row.timed[2, i] >= present:
                return present
    return total


@inner
def _descend(order: Small, row: RowArrays, most: int) -> int:
    """Improve until no swap and no insertion of a block of up to `most` places does; return the money.

    Only swaps and blocks at an end of which an operation is awake are tried; what is changed wakes up.
    """
    present = _time(order, row)
    fails, kind = 0, 0
    while fails <= most and present > 0:
        better = _swaps(order, row, present) if kind == 0 else _inserts(order, kind, row, present)
        if better < present:
            present, fails = better, 0
        else:
            fails += 1
            kind = (kind + 1) % (most + 1)
    return present


@inner
def _wake(order: Small, row: RowArrays, place: int) -> None:
    """Wake the operations on both sides of a joint, and their neighbours."""
    for i in range(max(0, place - 2), min(order.size, place + 2)):
        row.awake[order[i]] = True


@inner
def _swaps(order: Small, row: RowArrays, present: int) -> int:
    n = order.size
    start = np.random.randint(n)
    for a in range(n):
        i = (start + a) % n
        for j in range(i + 1, min(n, i + REACH + 1)):
            if not (row.awake[order[i]] or row.awake[order[j]]):
                continue
            order[i], order[j] = order[j], order[i]
            found = _value(order, i, j, row, present)
            if found < present:
                present = _time(order, row)
                _wake(order, row, i)
                _wake(order, row, i + 1)
                _wake(order, row, j)
                _wake(order, row, j + 1)
            else:
                order[i], order[j] = order[j], order[i]
    return present


@inner
def _inserts(order: Small, length: int, row: RowArrays, present: int) -> int:
    n = order.size
    if n <= length:
        return present
    start = np.random.randint(n - length + 1)
    for a in range(n - length + 1):
        i = (start + a) % (n - length + 1)
        if row.awake[order[i]] or row.awake[order[i + length - 1]]:
            present = _insert_block(order, i, length, row, present)
    return present


@inner
def _insert_block(order: Small, i: int, length: int, row: RowArrays, present: int) -> int:
    """Slide the block at i one place at a time to either end; keep the first place that is better."""
    n = order.size
    kept = order.copy()
    for j in range(i + 1, min(n - length, i + REACH) + 1):
        follower = order[j + length - 1]
        for k in range(j + length - 1, j - 1, -1):
            order[k] = order[k - 1]
        order[j - 1] = follower
        if _value(order, i, j + length - 1, row, present) < present:
            _wake(order, row, i)
            _wake(order, row, j)
            _wake(order, row, j + length)
            return _time(order, row)
    _put(order, kept)
    for j in range(i - 1, max(0, i - REACH) - 1, -1):
        leader = order[j]
        for k in range(j, j + length):
            order[k] = order[k + 1]
        order[j + length] = leader
        if _value(order, j, i + length - 1, row, present) < present:
            _wake(order, row, j)
            _wake(order, row, j + length)
            _wake(order, row, i + length)
            return _time(order, row)
    _put(order, kept)
    return present


@inner
def _put(to: Small, order: Small) -> None:
    """One by one: numba compiles seconds of message text with every array that is assigned to a slice."""
    for k in range(order.size):
        to[k] = order[k]


@inner
def _escape(order: Small, reach: int, row: RowArrays) -> None:
    """Exchange two neighbouring stretches of random length, within `reach` places."""
    n = order.size
    a = np.random.randint(n - 1)
    span = min(n - a, 2 + np.random.randint(reach))
    cut = 1 + np.random.randint(span - 1)
    block = order[a : a + span].copy()
    for k in range(span):
        order[a + k] = block[(cut + k) % span]
    _wake(order, row, a)
    _wake(order, row, a + span - cut)
    _wake(order, row, a + span)


@compiled
def search(
    present: Small,
    best: Small,
    jobs: Ints,
    setup: Small,
    wall: Ints,
    rate: int,
    plain: bool,
    rounds: int,
    most: int,
    seed: int,
) -> tuple[int, int]:
    """Go on for `rounds` escapes from `present`, keeping the best order in `best`: both are changed in
    place.

    An escape that ends a little worse (`LAX`) may become the present order. Returns the best money and the
    round it was found in.
    """
    np.random.seed(seed)
    n = present.size
    row = RowArrays(jobs, setup, wall, rate, np.zeros((3, n), np.int64), plain, np.ones(n, np.bool_))
    best_value = _time(best, row)
    value = _descend(present, row, most)
    found = 0
    if value < best_value:
        _put(best, present)
        best_value = value
    trial = present.copy()
    for step in range(1, rounds + 1):
        if best_value == 0 or n < 3:
            break
        _put(trial, present)
        row.awake[:] = False
        for _ in range(1 + np.random.randint(3)):
            _escape(trial, 12, row)
        new = _descend(trial, row, most)
        if new <= value + LAX * np.random.random() * value:
            _put(present, trial)
            value = new
        if new < best_value:
            _put(best, trial)
            best_value, found = new, step
    return best_value, found
