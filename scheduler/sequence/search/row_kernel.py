"""The timing code and the local search once more, compiled, for problems without pinned starts.

A test holds its timing against `timing.time_order` on random problems; the plan itself is always timed by
the latter.
Import this module only when it is going to be used.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from quoting.core import compiled

Ints = NDArray[np.int64]
MISSED = 1_000_000  # ticks that a broken minute weighs in the search
ANY_ROW = 0.15  # share of moves past work of any machine: who gets people and crane first


@compiled
def _fit(c: int, first: int, minutes: int, crew: int, crane: int, pause: bool, cal: Any, free: Any) -> int:
    """First working minute of calendar c from `first` on where the work fits, -1 when there is none."""
    at, before, resume, total = cal[0][c], cal[1][c], cal[2][c], cal[4][c]
    people, cranes = free
    w = first
    while w + minutes <= total:
        if minutes == 0:
            return w
        if not pause and at[w + minutes - 1] - at[w] != minutes - 1:
            w = resume[w]
            continue
        blocked = -1
        if crew > 0 or crane > 0:
            for k in range(w, w + minutes):
                t = at[k]
                if people[t] < crew or cranes[t] < crane:
                    blocked = t
                elif blocked >= 0 and k == resume[k - 1] and pause:
                    break
        if blocked < 0:
            return w
        w = before[blocked] + 1
    return -1


@compiled
def _take(c: int, first: int, minutes: int, crew: int, crane: int, cal: Any, free: Any) -> None:
    at = cal[0][c]
    if crew > 0 or crane > 0:
        for k in range(first, first + minutes):
            free[0][at[k]] -= crew
            free[1][at[k]] -= crane


@compiled
def evaluate(  # noqa: PLR0912, PLR0915 - one loop without calls is what makes it quick
    order: Ints, machine: Ints, start: Ints, limit: int, cal: Any, ops: Any, jobs: Any, rules: Any, room: Any
) -> int:
    """Ticks of an order timed as `time_order` does, with broken minutes; fills `start`; gives up above
    `limit`."""
    (
        minutes,
        running_cost,
        setups,
        matrix_of,
        calendar_of,
        release,
        crew,
        crane,
        pause,
        waits,
        lags,
        first_wait,
        running,
        job,
    ) = ops
    due, weight, must = jobs
    setup_rate, wip_rate, setup_crew, late_factor, horizon = rules
    people, cranes, people0, cranes0, ready, last, end, begun, done, stack = room
    people[:], cranes[:] = people0, cranes0
    free = (people, cranes)
    ready[:], last[:], end[:], done[:], begun[:] = 0, -1, -1, 0, horizon
    total = 0
    for position in range(order.size):
        depth = 1
        stack[0] = order[position]
        while depth > 0:
            i = stack[depth - 1]
            if end[i] >= 0:
                depth -= 1
                continue
            earliest, waiting = release[i], False
            for k in range(first_wait[i], first_wait[i + 1]):
                if end[waits[k]] < 0:
                    stack[depth] = waits[k]
                    depth += 1
                    waiting = True
                    break
                earliest = max(earliest, end[waits[k]] + lags[k])
            if waiting:
                continue
            depth -= 1
            m = machine[i]
            c = calendar_of[m]
            p = minutes[m, i]
            total += running_cost[m, i]
            s = 0 if running[i] else setups[matrix_of[m], last[m] + 1, i]
            at, before, paid, size = cal[0][c], cal[1][c], cal[3][c], cal[4][c]
            work = -1
            if max(ready[m], earliest) <= horizon + 1:
                begin = before[ready[m]]
                if s > 0:
                    begin = _fit(c, begin, s, setup_crew, 0, True, cal, free)
                if begin >= 0:
                    work = _fit(
                        c, max(begin + s, before[earliest]), p, crew[i], crane[i], pause[i], cal, free
                    )
            k = job[i]
            if work < 0:
                total += MISSED * 1_000_000
                start[i] = horizon
                end[i] = horizon
            else:
                start[i] = at[work] if work < size else horizon
                end[i] = at[work + p - 1] + 1 if p > 0 else start[i]
                if s > 0:
                    _take(c, begin, s, setup_crew, 0, cal, free)
                    total += paid[begin + s] - paid[begin] + s * setup_rate
                _take(c, work, p, crew[i], crane[i], cal, free)
                total += paid[work + p] - paid[work]
                ready[m], last[m] = end[i], i
            if end[i] > done[k]:
                total += late_factor * weight[k] * (max(0, end[i] - due[k]) - max(0, done[k] - due[k]))
                total += MISSED * (max(0, end[i] - must[k]) - max(0, done[k] - must[k]))
                done[k] = end[i]
            begun[k] = min(begun[k], start[i])
        if total > limit:
            return total
    for k in range(due.size):
        if done[k] > 0:
            total += wip_rate * (done[k] - begun[k])
    return total


@compiled
def _block(order: Ints, machine: Ints, i: int, most: int, block: Ints) -> int:
    """Operations that follow each other on one machine from place i on; returns how many."""
    own, count = machine[order[i]], 0
    for k in range(i, order.size):
        if machine[order[k]] == own:
            block[count] = order[k]
            count += 1
            if count == most:
                break
    return count


@compiled
def _place_near(order: Ints, machine: Ints, i: int, m: int, steps: int, taken: Any) -> int:
    """Place in `order` of the operation of machine m (-1: any) that is `steps` (negative: back) of m's row
    from
    place i, or -1."""
    found, k, left = -1, i, abs(steps)
    move = 1 if steps > 0 else -1
    while left > 0:
        k += move
        if k < 0 or k >= order.size:
            break
        if (m < 0 or machine[order[k]] == m) and not taken[order[k]]:
            found = k
            left -= 1
    return found


@compiled
def _change(  # noqa: PLR0912 - one pass over the order, written out for speed
    order: Ints, machine: Ints, able: Ints, ables: Ints, out: Ints, out_machine: Ints, block: Ints, taken: Any
) -> bool:
    """Write a changed order and machines to `out`: a block, a swap or an operation on another machine."""
    n = order.size
    i = np.random.randint(n)
    x = order[i]
    out_machine[:] = machine
    count = 1
    block[0] = x
    if ables[x] > 1 and np.random.random() < 0.3:
        out_machine[x] = able[x, np.random.randint(ables[x])]
    elif np.random.random() < 0.5:
        count = _block(order, machine, i, 1 + np.random.randint(6), block)
    reach = 4 if np.random.random() < 0.5 else 30
    steps = np.random.randint(-reach, reach + 1)
    if steps == 0:
        steps = 1
    for k in range(count):
        taken[block[k]] = True
    row = -1 if np.random.random() < ANY_ROW else out_machine[x]
    to = _place_near(order, machine, i, row, steps, taken)
    for k in range(count):
        taken[block[k]] = False
    if to < 0:
        out[:] = order
        return bool(out_machine[x] != machine[x])
    if count == 1 and out_machine[x] == machine[x] and np.random.random() < 0.3:
        out[:] = order
        out[i], out[to] = order[to], x
        return True
    anchor, q = order[to], 0
    for k in range(count):
        taken[block[k]] = True
    for k in range(n):
        y = order[k]
        if taken[y]:
            continue
        if y == anchor and to < i:
            for b in range(count):
                out[q + b] = block[b]
            q += count
        out[q] = y
        q += 1
        if y == anchor and to >= i:
            for b in range(count):
                out[q + b] = block[b]
            q += count
    for k in range(count):
        taken[block[k]] = False
    return True


@compiled
def search(
    order: Ints,
    machine: Ints,
    able: Ints,
    ables: Ints,
    steps: int,
    warm: float,
    cool: float,
    seed: int,
    cal: Any,
    ops: Any,
    jobs: Any,
    rules: Any,
    room: Any,
) -> tuple[Ints, Ints, int]:
    """Anneal for `steps` candidates from `warm` to `cool` ticks; `order` and `machine` end as the present
    plan."""
    np.random.seed(seed)
    n = order.size
    start = np.zeros(n, np.int64)
    out, out_machine = order.copy(), machine.copy()
    block, taken = np.zeros(n, np.int64), np.zeros(n, np.bool_)
    present = evaluate(order, machine, start, np.iinfo(np.int64).max, cal, ops, jobs, rules, room)
    best, best_order, best_machine = present, order.copy(), machine.copy()
    for step in range(steps):
        if not _change(order, machine, able, ables, out, out_machine, block, taken):
            continue
        heat = warm * (cool / warm) ** (step / steps)
        limit = present + int(-heat * np.log(1.0 - np.random.random()))
        value = evaluate(out, out_machine, start, limit, cal, ops, jobs, rules, room)
        if value <= limit:
            present = value
            machine[:] = out_machine
            order[:] = out[np.argsort(start[out], kind="mergesort")]
            if value < best:
                best, best_order[:], best_machine[:] = value, order, machine
    return best_order, best_machine, best
