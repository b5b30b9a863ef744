"""Compiled: one order of all pieces, swept plate by plate with the skyline packer, and changes of that order.

Where a plate holds many pieces and plates are few, the order of all pieces at once is a better thing to
search than who lies on which plate. Imports numba: import this module lazily.
"""

from __future__ import annotations

from quoting.core import compiled, inner
from quoting.nesting.compiled.kernels import Ints
from quoting.nesting.compiled.oracle import WORK, Packing, draw
from quoting.nesting.compiled.skyline import lay_skyline

SWAPS_OF = 4  # one change in so many is a move, the others are swaps


@inner
def sweep(
    p: Packing, kind: int, plates: int, order: Ints, trial: Ints, spare: int, where: Ints, place: Ints
) -> int:
    """Fill the plates in turn from `order`; return the area placed before the waste exceeds `spare`.

    `where[item]` is then the plate (-1: none) and `place[item]` = x, y, turned. `trial` is scratch.
    """
    n = len(order)
    w, h = p.starts[kind, 0, 2], p.starts[kind, 0, 3]
    for k in range(n):
        trial[k] = order[k]
    total = 0
    left = n
    for b in range(plates):
        rest, area, spare = lay_skyline(p.size, p.turn, trial, left, w, h, spare, p.free, p.rest, p.spots)
        p.state[WORK] += 3 * left + (left - rest) * left // 5
        total += area
        kept = 0
        for k in range(left):
            item = trial[k]
            if p.spots[k, 2] >= 0:
                where[item] = b
                place[item, 0], place[item, 1], place[item, 2] = p.spots[k, 0], p.spots[k, 1], p.spots[k, 2]
            else:
                trial[kept] = item
                kept += 1
        left = kept
        if left == 0 or spare < 0:
            break
    for k in range(left):
        where[trial[k]] = -1
    return total


@compiled
def search_order(
    p: Packing, kind: int, plates: int, order: Ints, trial: Ints, where: Ints, place: Ints, budget: int
) -> bool:
    """Swap and move pieces in the order until everything is placed (True) or the work is done (False)."""
    n = len(order)
    total = 0
    for item in order:
        total += p.area[item]
    spare = plates * p.room[kind] - total
    best = sweep(p, kind, plates, order, trial, spare, where, place)
    while best < total and p.state[WORK] < budget:
        a, b = draw(p.state, n), draw(p.state, n)
        swapped = draw(p.state, SWAPS_OF) > 0
        _change(order, a, b, swapped)
        area = sweep(p, kind, plates, order, trial, spare, where, place)
        if area >= best:
            best = area
        else:
            _change(order, b, a, swapped)
    return best >= total


@inner
def _change(order: Ints, a: int, b: int, swapped: bool) -> None:
    """Swap the pieces at a and b, or move the one at a to b; with a and b exchanged it undoes itself."""
    if swapped:
        order[a], order[b] = order[b], order[a]
        return
    moved = order[a]
    step = 1 if a < b else -1
    for k in range(a, b, step):
        order[k] = order[k + step]
    order[b] = moved
