"""Compiled: as few equal plates as possible (guided ejection search over who lies on which plate).

Take one plate away; its pieces are homeless. A homeless piece goes onto a plate that still holds it; where
none does, it pushes out the pieces whose penalty is least, and its own penalty grows (Nagata & Braysy
2009, "A powerful route minimization heuristic for the vehicle routing problem with time windows", Oper.
Res. Lett. 37). Whether a set of pieces fits one plate is asked of several quick packers and remembered by
the set. The search ends by counted work, never by the clock.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from quoting.core import compiled, inner, merged
from quoting.nesting.compiled.kernels import NONE, ONE, Ints
from quoting.nesting.compiled.oracle import (
    BUDGET,
    HOMELESS,
    NEVER,
    SHAKES,
    STEPS,
    WORK,
    YES,
    Packing,
    draw,
    fits_plate,
    remember,
    side_by_side,
    verdict,
)


class Loads(NamedTuple):
    """Who lies where: plate b, of kind[b], holds content[b, :number[b]]."""

    kind: Ints

    content: Ints
    number: Ints
    area: Ints
    key: Ints
    homeless: Ints
    penalty: Ints


@compiled
def holds(p: Packing, loads: Loads, b: int, out: Ints, add: int) -> bool:
    """Return whether plate b less the pieces of `out` and with `add` (each -1: none) can be packed."""
    p.state[WORK] += 20
    kind, area, key = loads.kind[b], loads.area[b], loads.key[b]
    for gone in out:
        if gone >= 0:
            area -= p.area[gone]
            key -= p.token[gone]
    if add >= 0:
        area += p.area[add]
        key += p.token[add]
    if area > p.room[kind] or (add >= 0 and not p.alone[kind, add]):
        return False
    known = verdict(p, key)
    if known > 0:
        return known == YES
    p.state[WORK] += 8 * loads.number[b]
    n = 0
    for k in range(loads.number[b]):
        item = loads.content[b, k]
        if item in (out[0], out[1], out[2]):
            continue
        if add >= 0 and not side_by_side(p, kind, add, item):
            remember(p, key, NEVER)
            return False
        p.members[n] = item
        n += 1
    if add >= 0:
        p.members[n] = add
        n += 1
    return n == 0 or fits_plate(p, kind, n, key)


@compiled
def put(p: Packing, loads: Loads, b: int, item: int) -> None:
    """Put the item on plate b."""
    loads.content[b, loads.number[b]] = item
    loads.number[b] += 1
    loads.area[b] += p.area[item]
    loads.key[b] += p.token[item]


@inner
def drop(p: Packing, loads: Loads, b: int, item: int) -> None:
    """Take the item off plate b."""
    for k in range(loads.number[b]):
        if loads.content[b, k] == item:
            loads.number[b] -= 1
            loads.content[b, k] = loads.content[b, loads.number[b]]
            loads.area[b] -= p.area[item]
            loads.key[b] -= p.token[item]
            return


@compiled
def settle(p: Packing, loads: Loads, plates: int) -> int:
    """Find every homeless piece a place on the first `plates` plates; return how many are still homeless."""
    none = np.full(3, -1, np.int64)
    while p.state[HOMELESS] > 0 and p.state[WORK] < p.state[BUDGET]:
        p.state[STEPS] += 1
        p.state[HOMELESS] -= 1
        item = loads.homeless[p.state[HOMELESS]]
        if _insert(p, loads, plates, item, none):
            continue
        loads.penalty[item] += 1
        if not _eject(p, loads, plates, item):
            _crowd_in(p, loads, plates, item, none)
        _shake(p, loads, plates)
    return int(p.state[HOMELESS])


@merged
def _insert(p: Packing, loads: Loads, plates: int, item: int, none: Ints) -> bool:
    start = draw(p.state, plates)
    for k in range(plates):
        b = (start + k) % plates
        if holds(p, loads, b, none, item):
            put(p, loads, b, item)
            return True
    return False


@merged
def _eject(p: Packing, loads: Loads, plates: int, item: int) -> bool:
    """Push out up to three pieces of one plate, of least total penalty, so that the item fits."""
    out = np.full(3, -1, np.int64)
    best_out = np.full(3, -1, np.int64)
    best, best_b, ties = np.int64(1) << 60, NONE, ONE
    start = draw(p.state, plates)
    for k in range(plates):
        b = (start + k) % plates
        n = loads.number[b]
        for e in range(n):
            out[0], out[1], out[2] = loads.content[b, e], -1, -1
            cost = loads.penalty[out[0]]
            if cost > best:
                continue
            if cost == best and draw(p.state, ties + 1) != 0:
                ties += 1
                continue
            if holds(p, loads, b, out, item):
                ties = ties + 1 if cost == best else 1
                best, best_b = cost, b
                best_out[0], best_out[1], best_out[2] = out[0], out[1], out[2]
    for k in range(plates):
        b = (start + k) % plates
        n = loads.number[b]
        p.state[WORK] += n * n
        for e in range(n):
            for f in range(e + 1, n):
                out[0], out[1], out[2] = loads.content[b, e], loads.content[b, f], -1
                cost = loads.penalty[out[0]] + loads.penalty[out[1]]
                if cost >= best:
                    continue
                if n > 12 and draw(p.state, n) > 11:
                    continue
                if holds(p, loads, b, out, item):
                    best, best_b = cost, b
                    best_out[0], best_out[1], best_out[2] = out[0], out[1], out[2]
    if best_b < 0:
        return False
    _exchange(p, loads, best_b, best_out, item)
    return True


@merged
def _exchange(p: Packing, loads: Loads, b: int, out: Ints, item: int) -> None:
    for gone in out:
        if gone >= 0:
            drop(p, loads, b, gone)
            loads.homeless[p.state[HOMELESS]] = gone
            p.state[HOMELESS] += 1
    put(p, loads, b, item)


@merged
def _crowd_in(p: Packing, loads: Loads, plates: int, item: int, none: Ints) -> None:
    """Give a random plate that can hold it to the item; what lies there comes back while it fits, the rest
    is homeless. An item that no plate can hold stays homeless itself."""
    b = draw(p.state, plates)
    tried = 1
    while not p.alone[loads.kind[b], item]:
        if tried == plates:
            p.state[HOMELESS] += 1  # it is still where it was taken from
            return
        b = (b + 1) % plates
        tried += 1
    old = loads.content[b, : loads.number[b]].copy()
    for gone in old:
        drop(p, loads, b, gone)
    put(p, loads, b, item)
    for back in old:
        if holds(p, loads, b, none, back):
            put(p, loads, b, back)
        else:
            loads.homeless[p.state[HOMELESS]] = back
            p.state[HOMELESS] += 1


@merged
def _shake(p: Packing, loads: Loads, plates: int) -> None:
    """Move or swap random pieces between plates as long as everything still fits."""
    out = np.full(3, -1, np.int64)
    for _ in range(p.state[SHAKES]):
        a, b = draw(p.state, plates), draw(p.state, plates)
        if a == b or loads.number[a] == 0:
            continue
        one = loads.content[a, draw(p.state, loads.number[a])]
        out[0] = -1
        if holds(p, loads, b, out, one):
            out[0] = one
            if holds(p, loads, a, out, NONE):  # a part of a packed set may fool the packers
                drop(p, loads, a, one)
                put(p, loads, b, one)
            continue
        if loads.number[b] == 0:
            continue
        two = loads.content[b, draw(p.state, loads.number[b])]
        if p.token[one] == p.token[two]:
            continue
        out[0] = two
        if not holds(p, loads, b, out, one):
            continue
        out[0] = one
        if holds(p, loads, a, out, two):
            drop(p, loads, a, one)
            drop(p, loads, b, two)
            put(p, loads, a, two)
            put(p, loads, b, one)
