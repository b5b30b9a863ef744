"""Compiled: does a set of rectangles fit one plate? Quick packers are asked, answers are remembered.

Imports numba: import this module lazily.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from quoting.core import compiled, inner, merged
from quoting.nesting.compiled.kernels import NONE, ZERO, Ints, pack, pack_guillotine
from quoting.nesting.compiled.skyline import lay_skyline

TABLE = 1 << 20
NO, YES, NEVER = 1, 2, 3
FULL_TRIES = 20  # from so many tries on every order and rule is asked
_MASK = 0x7FFFFFFF
# places in the `state` array
RANDOM, WORK, BUDGET, GUILLOTINE, TRIES, CALLS, HOMELESS, SHAKES, STEPS, NEVERS, ORDERS = range(11)


class Packing(NamedTuple):
    """Everything the oracle needs: n pieces, one plate size, memory of answers, scratch space."""

    size: Ints  # n x 2: extent along x unturned, extent along y
    turn: Ints  # n: 1 when it may be turned
    area: Ints  # n
    token: Ints  # n: random number of its size, equal for equal pieces
    ranks: Ints  # orders x n: rank of each piece in each usual order
    alone: NDArray[np.bool_]  # kinds x n: may lie on a plate of that kind
    extent: Ints  # kinds x 2: width and height
    starts: Ints  # kinds x 2 x 6: free parts of the empty plate
    parts: Ints  # kinds: how many of them
    room: Ints  # kinds: area
    weight: Ints  # kinds x pairs x n: what a piece weighs in a pair of dual feasible functions
    limit: Ints  # kinds x pairs: a set that weighs more fits no plate of the kind
    kind_token: Ints  # kinds: random number
    shear: Ints  # stages, longest cut, negligible rest
    keys: Ints  # memory of the oracle: set of pieces -> verdict
    verdicts: NDArray[np.int8]
    free: Ints
    rest: Ints
    spots: Ints
    order: Ints
    members: Ints
    state: Ints


@inner
def draw(state: Ints, n: int) -> int:
    """Return a number in 0..n-1 (a 31-bit linear congruential generator, high bits)."""
    state[RANDOM] = (state[RANDOM] * 1103515245 + 12345) & _MASK
    return int((state[RANDOM] >> 8) % n)


@inner
def verdict(p: Packing, key: int) -> int:
    """Return what is remembered of the set of pieces (NO, YES, NEVER), 0 for nothing."""
    slot = key & (TABLE - 1)
    return int(p.verdicts[slot]) if p.keys[slot] == key else 0


@inner
def remember(p: Packing, key: int, found: int) -> None:
    """Remember the verdict in place of whatever shares its slot."""
    slot = key & (TABLE - 1)
    p.keys[slot] = key
    p.verdicts[slot] = found


@merged
def fits_plate(p: Packing, kind: int, n: int, key: int) -> bool:
    """Return whether some packer puts p.members[:n] onto a plate of the kind, and remember it."""
    if _too_much(p, kind, n):
        remember(p, key, NEVER)
        return False
    found = lay_out(p, kind, n, key)
    remember(p, key, YES if found else NO)
    return found


@merged
def _too_much(p: Packing, kind: int, n: int) -> bool:
    """Return whether some pair of dual feasible functions proves that the set fits no plate of the kind."""
    for pair in range(p.limit.shape[1]):
        limit = p.limit[kind, pair]
        for k in range(n):
            limit -= p.weight[kind, pair, p.members[k]]
        if limit < 0:
            p.state[WORK] += n * (pair + 1) // 4
            p.state[NEVERS] += 1
            return True
    p.state[WORK] += n * p.limit.shape[1] // 4
    return False


@compiled
def lay_out(p: Packing, kind: int, n: int, key: int) -> bool:
    """Try the usual orders with the rules, then small changes of the best order.

    With few tries to spend only the orders and rules are asked that find nearly all of what is found. On
    success p.order and p.spots tell how. The answer depends on the set of pieces and the tries only.
    """
    p.state[CALLS] += 1
    rules = 6 if p.state[GUILLOTINE] else 5
    skyline = p.state[GUILLOTINE] == 0 and p.parts[kind] == 1
    hasty = skyline and p.state[TRIES] < FULL_TRIES
    far, far_rule, far_rank = NONE, ZERO, ZERO
    far_area, far_sky = NONE, ZERO
    for r in range(2 if hasty else p.ranks.shape[0]):
        _sort(p.members, n, p.ranks[r], p.order)
        if _tried(p, n, r):
            continue
        if skyline:
            area = _lay(p, kind, n)
            if area < 0:
                return True
            if area > far_area:
                far_area, far_sky = area, r
        for rule in range(rules):
            if hasty and rule not in (0, 2):
                continue
            done = _pack(p, kind, n, rule)
            if done == n:
                return True
            if done > far:
                far, far_rule, far_rank = done, rule, r
    seed = (key ^ (key >> 29)) & _MASK
    if not skyline:
        _sort(p.members, n, p.ranks[far_rank], p.order)
        return _bring_forward(p, kind, n, far, far_rule, seed)
    _sort(p.members, n, p.ranks[far_sky], p.order)
    return _swap_in_skyline(p, kind, n, far_area, seed)


@merged
def _tried(p: Packing, n: int, rank: int) -> bool:
    """Return whether an earlier rank has put the members into the same order: of few pieces, many do."""
    name = np.int64(0)
    for k in range(n):
        name = name * 31 + p.token[p.order[k]]
    p.state[ORDERS + rank] = name
    return bool(np.any(p.state[ORDERS : ORDERS + rank] == name))


@inner
def _lay(p: Packing, kind: int, n: int) -> int:
    """Return the area the skyline packer places, or -1 when it places all."""
    w, h = p.starts[kind, 0, 2], p.starts[kind, 0, 3]
    spare = p.room[kind]
    for k in range(n):
        spare -= p.area[p.order[k]]
    left, area, _ = lay_skyline(p.size, p.turn, p.order, n, w, h, spare, p.free, p.rest, p.spots)
    p.state[WORK] += 30 + 3 * n + (n - left) * n // 5
    return -1 if left == 0 else area


@merged
def _bring_forward(p: Packing, kind: int, n: int, done: int, rule: int, seed: int) -> bool:
    """Again and again, move the piece that failed to an earlier place in the order."""
    for step in range(p.state[TRIES]):
        failed = p.order[done]
        seed = (seed * 1103515245 + 12345) & _MASK
        to = (seed >> 8) % done if done > 0 else 0
        for k in range(done, to, -1):
            p.order[k] = p.order[k - 1]
        p.order[to] = failed
        if step % 4 == 3:
            rule = (rule + 1) % (6 if p.state[GUILLOTINE] else 5)
        done = _pack(p, kind, n, rule)
        if done == n:
            return True
    return False


@merged
def _swap_in_skyline(p: Packing, kind: int, n: int, best: int, seed: int) -> bool:
    """Swap pieces in the order of the skyline packer as long as the area placed does not fall.

    After many swaps without gain, a few are made blindly.
    """
    stale = 0
    for _ in range(p.state[TRIES]):
        stale += 1
        seed = (seed * 1103515245 + 12345) & _MASK
        a = (seed >> 8) % n
        seed = (seed * 1103515245 + 12345) & _MASK
        b = (seed >> 8) % n
        p.order[a], p.order[b] = p.order[b], p.order[a]
        area = _lay(p, kind, n)
        if area < 0:
            return True
        if area > best or stale > 30 * n:
            stale = 0
        if area >= best or stale == 0:
            best = area
        else:
            p.order[a], p.order[b] = p.order[b], p.order[a]
    return False


@inner
def _pack(p: Packing, kind: int, n: int, rule: int) -> int:
    start = p.starts[kind, : p.parts[kind]]
    if p.state[GUILLOTINE]:
        done = pack_guillotine(p.size, p.turn, p.order, n, start, rule, p.shear, p.free, p.spots)
    else:
        done = pack(p.size, p.turn, p.order, n, start, rule, p.free, p.spots)
    p.state[WORK] += 40 + done * done * (8 + done) // 10 + 4 * n
    return done


@inner
def _sort(members: Ints, n: int, rank: Ints, order: Ints) -> None:
    for k in range(n):
        item = members[k]
        m = k
        while m > 0 and rank[order[m - 1]] > rank[item]:
            order[m] = order[m - 1]
            m -= 1
        order[m] = item


@inner
def side_by_side(p: Packing, kind: int, one: int, two: int) -> bool:
    """Return whether two pieces can lie beside or above each other on a plate of the kind."""
    w, h = p.extent[kind, 0], p.extent[kind, 1]
    for t in range(1 + p.turn[one]):
        for u in range(1 + p.turn[two]):
            if p.size[one, t] + p.size[two, u] <= w or p.size[one, 1 - t] + p.size[two, 1 - u] <= h:
                return True
    return False
