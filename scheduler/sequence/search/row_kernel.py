"""The timing code and the local search once more, compiled.

A candidate shares its first operations with the present plan, so only what comes after its first change is
taken back and timed again, and that only where `at_least` does not refuse it. Overtime windows are opened and
closed in the same search. Tests hold the timing against `timing.time_order`; the plan itself is always timed
by the latter.
Import this module only when it is going to be used. Noughts that are handed on are typed (`np.int64(0)`):
for a plain 0 the longest functions would be compiled a second time.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from quoting.core import compiled, inlined, inner, unlocked
from scheduler.sequence.search.at_least_kernel import at_least, room_for_bound
from scheduler.sequence.search.kernel_parts import MISSED, Ints, bare, before, job_cost, nat
from scheduler.sequence.search.packing import (
    AWAY,
    BEGIN,
    BEGUN,
    CRANE,
    CREW,
    DONE,
    DUE,
    END,
    HELD_FROM,
    HELD_ON,
    HELD_PRICE,
    HELD_TO,
    JOB,
    LAST,
    LATEST,
    LEAST,
    MUST,
    PAUSE,
    READY,
    RELEASE,
    RUNNING,
    SETUP,
    SLACK,
    START,
    WEIGHT,
    WORK,
)  # fmt: skip

UNPLACED = MISSED * 1_000_000
ANY_ROW = 0.15  # share of moves past work of any machine: who gets people and crane first
OVERTIME = 0.04  # share of moves that open or close an overtime window, where any are offered
PINNED_OVERTIME = 0.1  # and so much more where all starts are pinned: overtime is then what is left to choose
TO_MATE = 0.2  # share of moves behind an operation that needs little set-up after: by trial
CROSS = 0.07  # share of moves that change over rows of two machines, of what more than one can do: by trial
LOOKED_AT = 4  # operations of which that is the one with the least set-up
DATED = 4  # times as often an operation is moved whose job has a price for each late minute: by trial
ANYWAY = 0.03  # share of candidates that are timed though they look too dear
STALE = 16  # accepted candidates after which it is looked at anew how far the plan is above its bound
SORT_EVERY = 400  # candidates between two looks at the plan in the order of its starts


@inlined
def _copy(to: Any, values: Any, at: int) -> None:
    """Copy values[at:]; a slice would bring in the compiling of messages about shapes, two seconds of it."""
    for q in range(at, values.size):
        to[q] = values[q]


@inner
def _calendar(m: int, cal: Any, windows: Any) -> None:
    """Fill the working minutes of machine m from its windows that are worked."""
    real, paid, size, first = cal
    spans, count, marks = windows
    w = 0
    paid[m, 0] = 0
    for j in range(count[m]):
        if marks[0, m, j]:
            to = w + spans[1, m, j] - spans[0, m, j]
            minute, so_far = spans[0, m, j], paid[m, w]
            for k in range(nat(w), nat(to)):
                real[m, k] = minute
                minute += 1
            for k in range(nat(w + 1), nat(to + 1)):
                so_far += spans[2, m, j]
                paid[m, k] = so_far
            w = to
    size[m] = w
    midnight, low = 0, 0
    for day in range(first.shape[1]):
        high = min(w, low + 1440)  # a day has no more minutes
        while low < high:
            middle = (low + high) // 2
            if real[m, middle] < midnight:
                low = middle + 1
            else:
                high = middle
        first[m, day] = low
        midnight += 1440


@inlined
def _all_free(real: Any, free: Any, m: int, w: int, k: int, crew: int, crane: int) -> Any:
    """Whether the working minutes w to k of machine m are one stretch in which enough are free.

    Without an end in between the compiler looks at many minutes at once.
    """
    enough = real[m, nat(k)] - real[m, nat(w)] == k - w
    if enough:
        a, b = nat(real[m, nat(w)]), nat(real[m, nat(k)] + 1)
        least = free[0, a]
        for t in range(a, b):
            least = min(least, free[0, t])
        enough = least >= crew
        if enough and crane > 0:
            least = free[1, a]
            for t in range(a, b):
                least = min(least, free[1, t])
            enough = least >= crane
    return enough


@inlined
def _fit(
    real: Any,
    free: Any,
    m: int,
    total: int,
    w: int,
    minutes: int,
    crew: int,
    crane: int,
    pause: bool,
) -> int:
    """First working minute of machine m from w on where the work fits, -1 when there is none.

    A stretch is looked through from its end: what comes after its last minute without people need not be
    looked at twice, and all that comes before it is skipped.
    """
    known = w
    found = -1
    while w + minutes <= total:
        if minutes == 0:
            found = w
            break
        if not pause and real[m, nat(w + minutes - 1)] - real[m, nat(w)] != minutes - 1:
            w += 1
            while w < total and real[m, nat(w)] == real[m, nat(w - 1)] + 1:
                w += 1
            known = w
            continue
        k = w + minutes - 1
        if _all_free(real, free, m, w, k, crew, crane):
            found = w
            break
        if crane > 0:
            while k >= known:
                t = nat(real[m, nat(k)])
                if free[0, t] < crew or free[1, t] < crane:
                    break
                k -= 1
        elif crew > 0:
            while k >= known and free[0, nat(real[m, nat(k)])] >= crew:
                k -= 1
        else:
            k = known - 1
        if k < known:
            found = w
            break
        known, w = w + minutes, k + 1
    return found


@inlined
def _take(real: Any, free: Any, m: int, w: int, minutes: int, crew: int, crane: int) -> None:
    """Take people and crane, stretch after stretch; an index without a sign lets many minutes go at once."""
    if minutes > 0 and (crew != 0 or crane != 0):
        k, to = w, w + minutes
        while k < to:
            last = to - 1
            if real[m, nat(last)] - real[m, nat(k)] != last - k:
                low = k
                while last - low > 1:
                    middle = (low + last) // 2
                    if real[m, nat(middle)] - real[m, nat(k)] == middle - k:
                        low = middle
                    else:
                        last = middle
                last = low
            a, b = nat(real[m, nat(k)]), nat(real[m, nat(last)] + 1)
            for t in range(a, b):
                free[0, t] -= crew
            if crane != 0:
                for t in range(a, b):
                    free[1, t] -= crane
            k = last + 1


@inlined
def _away(facts: Any, i: int, m: int, start: int, machines: int) -> Any:
    """Whether a held operation is not where it is to stay."""
    held_on = facts[HELD_ON, i]
    elsewhere = m != held_on and held_on < machines
    return held_on >= 0 and (elsewhere or start < facts[HELD_FROM, i] or start > facts[HELD_TO, i])


@inner
def _take_back(
    at: Any, stands: int, order: Ints, machine: Ints, cal: Any, ops: Any, rules: Any, free: Any, plan: Any
) -> None:
    """Undo the entries of the order from `at` to the last one that stands, backwards."""
    real = cal[0]
    costs, facts = ops[0], ops[3]
    rolls, placed, ended, log = plan
    setup_crew, none = rules[2], stands - stands
    for q in range(stands - 1, at - 1, -1):
        i = nat(order[nat(q)])
        m, k = nat(machine[i]), nat(facts[JOB, i])
        if placed[WORK, i] >= 0:
            _take(real, free, m, placed[BEGIN, i], placed[SETUP, i], -setup_crew, none)
            _take(real, free, m, placed[WORK, i], costs[0, m, i], -facts[CREW, i], -facts[CRANE, i])
        u = nat(q)
        rolls[READY, m], rolls[LAST, m], ended[DONE, k], ended[BEGUN, k] = (
            log[u, 0], log[u, 1], log[u, 2], log[u, 3],
        )  # fmt: skip
        if facts[HELD_ON, i] >= 0 and _away(facts, i, m, placed[START, i], costs.shape[1]):
            ended[AWAY, k] -= 1
            if ended[AWAY, k] == 0:
                ended[AWAY, ended.shape[1] - 1] -= 1
        placed[END, i] = -1


@inner
def _run(  # noqa: PLR0912, PLR0915 - one loop without calls is what makes it quick
    order: Ints, at: Any, total: Any, limit: int, machine: Ints, cal: Any, ops: Any, jobs: Any, rules: Any,
    free: Any, plan: Any, sums: Ints, stack: Ints,
) -> tuple[int, int]:  # fmt: skip
    """Place order[at:] as written, what must come first before it; rewrite `order` as placed.

    Returns the ticks and how many entries stand; gives up when it is certain to come above `limit`.
    """
    order, machine, cal, ops, jobs, free, plan, sums, stack = bare(
        (order, machine, cal, ops, jobs, free, plan, sums, stack)
    )
    costs, setups, matrix_of, facts, waits, first_wait = ops
    setup_rate, wip_rate, setup_crew, late_factor, horizon, slack_limit, away_most, away_more = rules
    real, paid, size, first = cal
    rolls, placed, ended, log = plan
    n = order.size
    none = n - n
    todo = order[at:].copy()
    rest = none  # what is not placed yet costs so much at the least
    for position in range(todo.size):
        i = nat(todo[nat(position)])
        rest += costs[1, nat(machine[i]), i]
    for k in range(jobs.shape[1]):
        if ended[DONE, k] == 0:
            rest += jobs[LEAST, k]
    for position in range(todo.size):
        depth = 1
        stack[0] = todo[nat(position)]
        while depth > 0:
            i = nat(stack[nat(depth - 1)])
            if placed[END, i] >= 0:
                depth -= 1
                continue
            waiting = False
            earliest = facts[RELEASE, i]
            for q in range(nat(first_wait[i]), nat(first_wait[nat(i + 1)])):
                ended_at = placed[END, nat(waits[0, q])]
                if ended_at < 0 and depth < n:
                    stack[nat(depth)] = waits[0, q]
                    depth += 1
                    waiting = True
                    break
                earliest = max(earliest, ended_at + waits[1, q])
            if waiting:
                continue
            depth -= 1
            u = nat(at)
            sums[u] = total
            order[u] = i
            m, k = nat(machine[i]), nat(facts[JOB, i])
            log[u, 0], log[u, 1], log[u, 2], log[u, 3] = (
                rolls[READY, m], rolls[LAST, m], ended[DONE, k], ended[BEGUN, k],
            )  # fmt: skip
            at += 1
            p, all_minutes, crew, crane = costs[0, m, i], size[m], facts[CREW, i], facts[CRANE, i]
            s = 0 if facts[RUNNING, i] else setups[nat(matrix_of[m]), nat(rolls[LAST, m] + 1), i]
            b, w = rolls[READY, m], -1
            if earliest <= horizon:
                if s > 0:
                    b = _fit(real, free, m, all_minutes, b, s, setup_crew, none, none == 0)
                if b >= 0:
                    soonest = b + s
                    if soonest >= all_minutes or real[m, nat(soonest)] < earliest:
                        soonest = max(soonest, before(real, first, size, m, earliest))
                    w = _fit(real, free, m, all_minutes, soonest, p, crew, crane, facts[PAUSE, i] != 0)
            total += costs[1, m, i]
            rest -= costs[1, m, i]
            placed[BEGIN, i], placed[SETUP, i], placed[WORK, i] = b, s, w
            if w < 0:
                total += UNPLACED
                start = end = horizon
            else:
                start = real[m, nat(w)] if w < all_minutes else horizon
                end = real[m, nat(w + p - 1)] + 1 if p > 0 else start
                total += s * setup_rate + paid[m, nat(b + s)] - paid[m, nat(b)]
                total += paid[m, nat(w + p)] - paid[m, nat(w)]
                total += MISSED * max(0, start - facts[LATEST, i])
                _take(real, free, m, b, s, setup_crew, none)
                _take(real, free, m, w, p, crew, crane)
                rolls[READY, m], rolls[LAST, m] = w + p, i
            placed[START, i], placed[END, i] = start, end
            if facts[HELD_ON, i] >= 0 and _away(facts, i, m, start, size.size):
                total += facts[HELD_PRICE, i]
                if ended[AWAY, k] == 0:
                    ended[AWAY, ended.shape[1] - 1] += 1
                    if ended[AWAY, ended.shape[1] - 1] > away_most:
                        total += away_more
                ended[AWAY, k] += 1
            due, must, slack = jobs[DUE, k], jobs[MUST, k], jobs[SLACK, k]
            price, done, begun = late_factor * jobs[WEIGHT, k], ended[DONE, k], ended[BEGUN, k]
            if done > 0:
                total -= job_cost(done, begun, due, price, must, slack, slack_limit, wip_rate)
            else:
                rest -= jobs[LEAST, k]
            done, begun = max(done, end), min(begun, start)
            ended[DONE, k], ended[BEGUN, k] = done, begun
            total += job_cost(done, begun, due, price, must, slack, slack_limit, wip_rate)
        if total + rest > limit:
            return total + rest, at
    return total, at


@inner
def _fresh(n: int, machines: int, jobs: Any, rules: Any) -> Any:
    """Room for one plan: nothing placed yet. Machines, operations, jobs, and what was before each entry."""
    rolls, placed = np.zeros((2, machines), np.int64), np.zeros((5, n), np.int64)
    ended, log = np.zeros((3, jobs.shape[1] + 1), np.int64), np.zeros((n, 4), np.int64)
    for m in range(machines):
        rolls[LAST, m] = -1
    for i in range(n):
        placed[END, i] = -1
    for k in range(jobs.shape[1]):
        ended[BEGUN, k] = rules[4]
    return rolls, placed, ended, log


@compiled
def scan(
    rest: Ints, block: Ints, places: Ints, job: int, machine: Ints, start: Ints, cal: Any, windows: Any,
    ops: Any, jobs: Any, rules: Any, staff: Any,
) -> Ints:  # fmt: skip
    """Time the order with a block of operations put in at each of `places` in turn; others may be missing.

    Returns a row a place: ticks for broken rules, end of `job`, ticks of late money, ticks of all the rest.
    Fills `start` with where the operations begin at the last place.
    """
    n, size = rest.size + block.size, machine.size
    for m in range(cal[2].size):
        _calendar(m, cal, windows)
    plan, free = _fresh(size, cal[2].size, jobs, rules), staff.copy()
    _, placed, ended, _ = plan
    order, sums, stack = np.full(n, -1), np.zeros(n, np.int64), np.zeros(size + 1, np.int64)
    out, found = np.zeros(n, np.int64), np.zeros((places.size, 4), np.int64)
    none = n - n
    total = none
    for row in range(places.size):
        at, same = places[row], none
        for q in range(n):
            out[q] = rest[q] if q < at else block[q - at] if q < at + block.size else rest[q - block.size]
        while same < n and out[same] == order[same]:
            same += 1
        if same < n:  # what begins as the order before it is timed from there on
            if row > 0:
                total = sums[same]
                _take_back(same, n, order, machine, cal, ops, rules, free, plan)
            _copy(order, out, same)
            total, _ = _run(
                order, same, total, np.iinfo(np.int64).max, machine, cal, ops, jobs, rules, free, plan, sums,
                stack,
            )  # fmt: skip
        broken, late = 0, 0
        for k in range(jobs.shape[1]):
            broken += MISSED * max(0, ended[DONE, k] - jobs[MUST, k])
            late += jobs[WEIGHT, k] * max(0, ended[DONE, k] - jobs[DUE, k])
        for i in order:
            over = max(0, placed[START, i] - ops[3][LATEST, i])
            broken += UNPLACED if placed[WORK, i] < 0 else MISSED * over
        found[row, 0], found[row, 1], found[row, 2] = broken, ended[DONE, job], late
        found[row, 3] = total - broken - rules[3] * late
    _copy(start, placed[START], 0)
    return found


def evaluate(
    order: Ints, machine: Ints, start: Ints, cal: Any, windows: Any, ops: Any, jobs: Any, rules: Any,
    staff: Any,
) -> int:  # fmt: skip
    """Ticks of an order timed as `time_order` does, with broken minutes; fills `start`.

    A scan of one place: compiled for itself it would take in all of the timing once more.
    """
    nothing, first = np.zeros(0, np.int64), np.zeros(1, np.int64)
    rows = scan(order, nothing, first, 0, machine, start, cal, windows, ops, jobs, rules, staff)
    broken, _, late, rest = rows[0].tolist()
    return int(broken + rules[3] * late + rest)


@inner
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


@inner
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


@inner
def _mate(
    machine: Ints, x: int, able: Ints, ables: Ints, setups: Any, matrix_of: Ints, movable: Ints, taken: Any
) -> int:
    """Of a few operations the one after which x needs the least set-up on that machine, or -1."""
    best, found = np.int64(2**40), -1
    for _ in range(LOOKED_AT):
        y = movable[np.random.randint(movable.size)]
        m = machine[y]
        if taken[y] or not _may(x, m, able, ables):
            continue
        cost = setups[matrix_of[m], y + 1, x]
        if cost < best:
            best, found = cost, y
    return found


@inlined
def _may(x: int, m: int, able: Any, ables: Any) -> bool:
    """Whether operation x can be done on machine m."""
    found = False
    for q in range(ables[x]):
        found = found or able[x, q] == m
    return found


@inner
def change(  # noqa: PLR0912, PLR0915 - one pass over the order, written out for speed
    order: Ints, machine: Ints, able: Ints, ables: Ints, movable: Ints, out: Ints, block: Ints, goes: Ints,
    taken: Any, setups: Any, matrix_of: Ints,
) -> tuple[int, int]:  # fmt: skip
    """Write a changed order to `out`: a block goes elsewhere, two operations or blocks change places.

    A block goes some places on or back in its row or another one's, or behind an operation that it needs
    little set-up after. Returns the first place that changes (-1: none), and how many of `block` go to
    another machine: to those of `goes`.
    """
    order, machine, able, ables, movable, out, block, goes, taken, setups, matrix_of = bare(
        (order, machine, able, ables, movable, out, block, goes, taken, setups, matrix_of)
    )
    n = order.size
    i, x = 0, movable[np.random.randint(movable.size)]
    while order[i] != x:
        i += 1
    if ables[x] > 1 and np.random.random() < CROSS:
        return _cross(order, machine, i, able, ables, out, block, goes, taken)
    row, mate = machine[x], -1
    count = 1
    block[0] = x
    if np.random.random() < TO_MATE:
        if np.random.random() < 0.3:
            count = _block(order, machine, i, 1 + np.random.randint(6), block)
        for k in range(count):
            taken[block[k]] = True
        mate = _mate(machine, x, able, ables, setups, matrix_of, movable, taken)
        if mate >= 0:
            row = machine[mate]
    elif ables[x] > 1 and np.random.random() < 0.3:
        row = able[x, np.random.randint(ables[x])]
        if np.random.random() < 0.3:
            count = _block(order, machine, i, 1 + np.random.randint(4), block)
    elif np.random.random() < 0.5:
        count = _block(order, machine, i, 1 + np.random.randint(6), block)
    for k in range(count):
        taken[block[k]] = False
    moved = 0
    if row != machine[x]:
        while moved < count and _may(block[moved], row, able, ables):
            goes[moved] = row
            moved += 1
        count = moved
    for k in range(count):
        taken[block[k]] = True
    to = 0
    if mate >= 0:
        while order[to] != mate:
            to += 1
    else:
        reach = 4 if np.random.random() < 0.5 else 30
        steps = np.random.randint(-reach, reach + 1)
        if steps == 0:
            steps = 1
        to = _place_near(order, machine, i, -1 if np.random.random() < ANY_ROW else row, steps, taken)
    if to < 0:
        for k in range(count):
            taken[block[k]] = False
        _copy(out, order, 0)
        return (i if moved > 0 else -1), moved
    if count == 1 and mate < 0 and np.random.random() < 0.3:
        taken[x] = False
        if moved == 1 and _may(order[to], machine[x], able, ables):
            block[1], goes[1] = order[to], machine[x]
            moved = 2
        _copy(out, order, 0)
        out[i], out[to] = order[to], x
        return min(i, to), moved
    anchor, q = order[to], 0
    behind = to >= i or mate >= 0
    for k in range(n):
        y = order[k]
        if taken[y]:
            continue
        if y == anchor and not behind:
            for b in range(count):
                out[q + b] = block[b]
            q += count
        out[q] = y
        q += 1
        if y == anchor and behind:
            for b in range(count):
                out[q + b] = block[b]
            q += count
    for k in range(count):
        taken[block[k]] = False
    return min(i, to), moved


@inner
def _cross(
    order: Ints, machine: Ints, i: int, able: Ints, ables: Ints, out: Ints, block: Ints, goes: Ints,
    taken: Any,
) -> tuple[int, int]:  # fmt: skip
    """Write an order to `out` in which a few operations that follow each other change over with those of
    another machine, each few where the others were (the cross exchange of vehicle routing: Taillard et al.
    1997, Transportation Science 31, from memory). Returns what `change` does.

    One long operation and two short ones change their rolls at once: one by one each way is dearer.
    """
    n, own = order.size, machine[order[i]]
    row = able[order[i], np.random.randint(ables[order[i]])]
    steps = 1 + np.random.randint(4)
    to = _place_near(order, machine, i, row, steps if np.random.random() < 0.5 else -steps, taken)
    if row == own or to < 0:
        return -1, 0
    first = _able_block(order, machine, i, row, able, ables, block[:4])
    moved = first + _able_block(order, machine, to, own, able, ables, block[first : first + 4])
    if moved == first:
        return -1, 0
    for k in range(moved):
        goes[k] = row if k < first else own
        taken[block[k]] = True
    q = 0
    for k in range(n):
        begin, end = (first, moved) if k == i else (0, first) if k == to else (0, 0)
        for b in range(begin, end):
            out[q] = block[b]
            q += 1
        if not taken[order[k]]:
            out[q] = order[k]
            q += 1
    for k in range(moved):
        taken[block[k]] = False
    return min(i, to), moved


@inner
def _able_block(order: Ints, machine: Ints, i: int, row: int, able: Ints, ables: Ints, block: Ints) -> int:
    """Write to `block` a few operations that follow each other on one machine from place i on and that `row`
    can do; return how many."""
    count = _block(order, machine, i, 1 + np.random.randint(block.size), block)
    for k in range(count):
        if not _may(block[k], row, able, ables):
            return k
    return count


@inlined
def _exchange(machine: Any, block: Any, goes: Any, moved: int) -> None:
    """Send the first operations of a block to the machines of `goes`, which then holds where they were."""
    for k in range(moved):
        machine[block[k]], goes[k] = goes[k], machine[block[k]]


@inner
def _movable(jobs: Any, facts: Any, far: int) -> tuple[Ints, int]:
    """The operations that may move, those of a job that may be late several times: they are tried as often.

    A pinned start needs no moving, nor does what runs; where all is so, all may. The others, such as cutting,
    are placed no later than what waits for them anyhow. Also returns how many operations they are.
    """
    n = facts.shape[1]
    free = 0
    for x in range(n):
        free += facts[LATEST, x] > far and facts[RUNNING, x] == 0
    found, size = np.zeros(DATED * n, np.int64), 0
    for x in range(n):
        if free == 0 or (facts[LATEST, x] > far and facts[RUNNING, x] == 0):
            for _ in range(DATED if jobs[WEIGHT, facts[JOB, x]] > 0 else 1):
                found[size] = x
                size += 1
    return found[:size].copy(), free


@inner
def _running(facts: Any) -> int:
    """How many operations are on their machines already."""
    found = 0
    for i in range(facts.shape[1]):
        found += facts[RUNNING, i] != 0
    return found


@inner
def _by_start(order: Ints, firm: int, placed: Any, out: Ints) -> int:
    """Write the order by starts to `out`, equal ones and the first `firm` as they are; return the first
    changed place or -1.

    An order is nearly sorted, so each entry is looked for from its own place back.
    """
    first = -1
    for q in range(order.size):
        k = q
        while k > firm and placed[START, out[k - 1]] > placed[START, order[q]]:
            out[k] = out[k - 1]
            k -= 1
        out[k] = order[q]
        if k < q and (first < 0 or k < first):
            first = k
    return first


@inner
def _save(
    order: Ints, at: int, placed: Any, kept: Any, sums: Ints, kept_sums: Ints, kept_order: Ints
) -> None:
    """Keep the placements of order[at:], so that they can be put back."""
    for q in range(at, order.size):
        u = nat(q)
        i = nat(order[u])
        kept_order[u] = i
        kept_sums[u] = sums[u]
        for row in range(5):
            kept[row, i] = placed[row, i]


@inner
def put_back(
    at: int, order: Ints, kept_order: Ints, kept_sums: Ints, kept: Any, machine: Ints, cal: Any, ops: Any,
    rules: Any,
    free: Any, plan: Any, sums: Ints,
) -> None:  # fmt: skip
    """Place the kept operations again where they were."""
    costs, facts = ops[0], ops[3]
    rolls, placed, ended, log = plan
    real = cal[0]
    setup_crew, none = rules[2], at - at
    for q in range(at, order.size):
        u = nat(q)
        i = nat(kept_order[u])
        order[u] = i
        sums[u] = kept_sums[u]
        m, k = nat(machine[i]), nat(facts[JOB, i])
        log[u, 0], log[u, 1], log[u, 2], log[u, 3] = (
            rolls[READY, m], rolls[LAST, m], ended[DONE, k], ended[BEGUN, k],
        )  # fmt: skip
        for row in range(5):
            placed[row, i] = kept[row, i]
        w = placed[WORK, i]
        if w >= 0:
            _take(real, free, m, placed[BEGIN, i], placed[SETUP, i], setup_crew, none)
            _take(real, free, m, w, costs[0, m, i], facts[CREW, i], facts[CRANE, i])
            rolls[READY, m], rolls[LAST, m] = w + costs[0, m, i], i
        ended[DONE, k], ended[BEGUN, k] = (
            max(ended[DONE, k], placed[END, i]), min(ended[BEGUN, k], placed[START, i]),
        )  # fmt: skip
        if facts[HELD_ON, i] >= 0 and _away(facts, i, m, placed[START, i], costs.shape[1]):
            if ended[AWAY, k] == 0:
                ended[AWAY, ended.shape[1] - 1] += 1
            ended[AWAY, k] += 1


@inner
def _slack(jobs: Any, limit: int, ended: Any) -> int:
    """Ticks for the slack that is missing, a part of the total that is no money."""
    total = 0
    for k in range(jobs.shape[1]):
        if jobs[SLACK, k] > 0 and ended[DONE, k] > 0:
            total += jobs[SLACK, k] * min(limit, max(0, ended[DONE, k] - jobs[DUE, k] + limit))
    return total


@inner
def _windows(windows: Any) -> Ints:
    """Machine and number of every window that may be opened and closed, shape (k, 2)."""
    _, counts, marks = windows
    found = np.zeros((marks.size, 2), np.int64)
    q = 0
    for m in range(counts.size):
        for j in range(counts[m]):
            if marks[1, m, j]:
                found[q, 0], found[q, 1] = m, j
                q += 1
    return found[:q]


@inner
def _toggle(m: int, j: int, everywhere: bool, windows: Any, changed: Any) -> None:
    """Open or close a window, or all windows that begin with it; mark in `changed` which ones."""
    spans, counts, marks = windows
    to = not marks[0, m, j]
    for other in range(counts.size):
        changed[other] = -1
        if other != m and not everywhere:
            continue
        for q in range(counts[other]):
            if marks[1, other, q] and spans[0, other, q] == spans[0, m, j] and marks[0, other, q] != to:
                marks[0, other, q] = to
                changed[other] = q


@inner
def _first_touched(order: Ints, machine: Ints, spans: Any, changed: Any, placed: Any) -> int:
    """First place in the order whose work ends after a changed window begins on its machine, or -1."""
    for q in range(order.size):
        m = machine[order[q]]
        if changed[m] >= 0 and placed[END, order[q]] > spans[0, m, changed[m]]:
            return q
    return -1


@unlocked
def search(  # noqa: PLR0912, PLR0915 - one loop that is written out for speed
    order: Ints, machine: Ints, able: Ints, ables: Ints, steps: int, warm: float, cool: float, seed: int,
    most: int,
    cal: Any, windows: Any, ops: Any, jobs: Any, rules: Any, staff: Any,
) -> tuple[Ints, Ints, Any, int]:  # fmt: skip
    """Anneal for `steps` candidates from `warm` to `cool` ticks, after every window has been tried once.

    A candidate that would be refused if it were as far above its bound as the present plan is above its own
    is mostly not timed. By trial, of what would be refused that is two of three or more, of what would be
    accepted one of thirty. How far the present plan is above may be `STALE` accepted candidates old.

    `order` begins with what runs already, which stays there: `time_order` places it before all else, so that
    nothing takes its people. `order`, `machine` and the opened windows end as the present plan. The best one
    is that of least ticks among those whose money is at most `most`."""
    np.random.seed(seed)
    n, machines = order.size, cal[2].size
    opened = windows[2][0]
    for m in range(machines):
        _calendar(m, cal, windows)
    choices = _windows(windows)
    movable, unpinned = _movable(jobs, ops[3], 2 * rules[4])
    running = _running(ops[3])
    often = OVERTIME + PINNED_OVERTIME * (1.0 - unpinned / n)
    goes, room = np.zeros(n + 2, np.int64), room_for_bound(n, machines, jobs.shape[1])
    plan, free = _fresh(n, machines, jobs, rules), staff.copy()
    sums, kept_sums, kept_order = np.zeros(n, np.int64), np.zeros(n, np.int64), np.zeros(n, np.int64)
    kept, stack = np.zeros((5, n), np.int64), np.zeros(n + 1, np.int64)
    out, block, taken = order.copy(), np.zeros(n + 2, np.int64), np.zeros(n, np.bool_)
    changed = np.zeros(machines, np.int64)
    none, top = n - n, np.iinfo(np.int64).max
    known, accepted = np.zeros((2, n), np.int64), STALE + n - n + 1
    present, _ = _run(order, none, none, top, machine, cal, ops, jobs, rules, free, plan, sums, stack)
    best, best_order, best_machine, best_opened = top, order.copy(), machine.copy(), opened.copy()
    if present - _slack(jobs, rules[5], plan[2]) <= most:
        best = present
    for step in range(steps):
        moved = 0
        swept = step < 2 * choices.shape[0]
        windowed = swept or (choices.shape[0] > 0 and np.random.random() < often)
        if windowed:
            pick = step // 2 if swept else np.random.randint(choices.shape[0])
            everywhere = step % 2 == 0 if swept else np.random.random() < 0.4
            _toggle(choices[pick, 0], choices[pick, 1], everywhere, windows, changed)
            at = _first_touched(order, machine, windows[0], changed, plan[1])
            _copy(out, order, 0)
        elif step % SORT_EVERY == 0:
            at = _by_start(order, running, plan[1], out)
        else:
            at, moved = change(order, machine, able, ables, movable, out, block, goes, taken, ops[1], ops[2])
        if at < (0 if windowed else running):
            if windowed:  # nothing works there: leave it as it was
                for m in range(machines):
                    if changed[m] >= 0:
                        opened[m, changed[m]] = not opened[m, changed[m]]
            continue
        heat = warm * (cool / warm) ** (step / steps)
        limit = present if swept else present + int(-heat * np.log(1.0 - np.random.random()))
        if not windowed:
            _exchange(machine, block, goes, moved)
            bound = at_least(out, at, sums[at], limit, machine, cal, ops, jobs, rules, plan, room, stack)
            _exchange(machine, block, goes, moved)
            if bound > limit:
                continue
            if bound > 0 and np.random.random() >= ANYWAY:
                if accepted - known[0, at] > STALE:
                    own = at_least(
                        order, at, sums[at], top, machine, cal, ops, jobs, rules, plan, room, stack
                    )
                    known[0, at], known[1, at] = accepted, present - own if own > 0 else top
                if known[1, at] < top and bound + known[1, at] > limit:
                    continue
        _save(order, at, plan[1], kept, sums, kept_sums, kept_order)
        _take_back(at, n, order, machine, cal, ops, rules, free, plan)
        _exchange(machine, block, goes, moved)
        if windowed:
            for m in range(machines):
                if changed[m] >= 0:
                    _calendar(m, cal, windows)
        _copy(order, out, at)
        value, stands = _run(
            order, at, kept_sums[at], limit, machine, cal, ops, jobs, rules, free, plan, sums, stack
        )
        if value <= limit:
            present = value
            accepted += 1
            if value < best and value - _slack(jobs, rules[5], plan[2]) <= most:
                best = value
                _copy(best_order, order, 0)
                _copy(best_machine, machine, 0)
                best_opened = opened.copy()
            continue
        _take_back(at, stands, order, machine, cal, ops, rules, free, plan)
        _exchange(machine, block, goes, moved)
        if windowed:
            for m in range(machines):
                if changed[m] >= 0:
                    opened[m, changed[m]] = not opened[m, changed[m]]
                    _calendar(m, cal, windows)
        put_back(at, order, kept_order, kept_sums, kept, machine, cal, ops, rules, free, plan, sums)
    return best_order, best_machine, best_opened, best


@compiled
def ends_of_draws(
    orders: Ints, counts: Ints, machine: Ints, drawn: Any, cal: Any, windows: Any, ops: Any, jobs: Any,
    rules: Any, staff: Any,
) -> Ints:  # fmt: skip
    """Time one order a draw, each with minutes, set-ups, releases and lags of its own.

    `orders` has a row a draw, of which the first `counts` entries are placed. `drawn` holds the factors of
    minutes and of set-ups, minutes added, releases (a row a draw, a column an operation) and lags (a column
    a wait). Returns the end of each job, a row a draw; 0 where nothing of it is placed.
    """
    factor, set_factor, more, release, lags = drawn
    draws, n = orders.shape
    none = n - n
    for m in range(cal[2].size):
        _calendar(m, cal, windows)
    costs, setups, matrix_of, known, waits, first_wait = ops
    own_costs, own_setups, facts, own_waits = costs.copy(), setups.copy(), known.copy(), waits.copy()
    sums, stack = np.zeros(n, np.int64), np.zeros(n + 1, np.int64)
    found = np.zeros((draws, jobs.shape[1]), np.int64)
    for d in range(draws):
        for i in range(n):
            facts[RELEASE, i] = release[d, i]
            for m in range(costs.shape[1]):
                if costs[0, m, i] > 0:
                    own_costs[0, m, i] = max(1, int(np.ceil(costs[0, m, i] * factor[d, i]))) + more[d, i]
        for k in range(setups.shape[0]):
            for last in range(n + 1):
                for i in range(n):
                    own_setups[k, last, i] = int(setups[k, last, i] * set_factor[d, i] + 0.5)
        _copy(own_waits[1], lags[d], 0)
        plan = _fresh(n, cal[2].size, jobs, rules)
        _run(
            orders[d, : counts[d]].copy(), none, none, np.iinfo(np.int64).max, machine, cal,
            (own_costs, own_setups, matrix_of, facts, own_waits, first_wait), jobs, rules, staff.copy(), plan,
            sums, stack,
        )  # fmt: skip
        for k in range(jobs.shape[1]):
            found[d, k] = plan[2][DONE, k]
    return found
