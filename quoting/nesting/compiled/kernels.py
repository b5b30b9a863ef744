"""Compiled: pack one set of rectangles onto one plate. Imports numba, so import this module lazily.

All lengths are int64. `order` holds item numbers; `turn[i]` tells whether item i may lie the other way round.
"""

from __future__ import annotations

from typing import cast

import numpy as np
from numpy.typing import NDArray

from quoting.core import compiled, inner

Ints = NDArray[np.int64]

MOST_FREE = 512

NONE, ZERO, ONE = (cast(int, np.int64(n)) for n in (-1, 0, 1))
"""A variable that begins as a plain -1, 0 or 1 compiles what it is passed to once more for that value."""


@inner
def take(free: Ints, count: int, x0: int, y0: int, x1: int, y1: int) -> int:
    """Take the box out of the `count` maximal free rectangles (rows x0, y0, x1, y1); return the new count."""
    kept = ZERO
    fresh = count
    for k in range(count):
        a0, b0, a1, b1 = free[k, 0], free[k, 1], free[k, 2], free[k, 3]
        if x0 >= a1 or x1 <= a0 or y0 >= b1 or y1 <= b0:
            free[kept, 0], free[kept, 1], free[kept, 2], free[kept, 3] = a0, b0, a1, b1
            kept += 1
            continue
        if fresh + 4 > free.shape[0]:
            continue
        if a0 < x0:
            free[fresh, 0], free[fresh, 1], free[fresh, 2], free[fresh, 3] = a0, b0, x0, b1
            fresh += 1
        if x1 < a1:
            free[fresh, 0], free[fresh, 1], free[fresh, 2], free[fresh, 3] = x1, b0, a1, b1
            fresh += 1
        if b0 < y0:
            free[fresh, 0], free[fresh, 1], free[fresh, 2], free[fresh, 3] = a0, b0, a1, y0
            fresh += 1
        if y1 < b1:
            free[fresh, 0], free[fresh, 1], free[fresh, 2], free[fresh, 3] = a0, y1, a1, b1
            fresh += 1
    return _keep_maximal(free, kept, count, fresh)


@inner
def _keep_maximal(free: Ints, kept: int, start: int, stop: int) -> int:
    """Append the rows start..stop that lie in no other row to the first `kept` rows; return the new count."""
    out = kept
    for k in range(start, stop):
        x0, y0, x1, y1 = free[k, 0], free[k, 1], free[k, 2], free[k, 3]
        inside = False
        for m in range(out):
            if free[m, 0] <= x0 and free[m, 1] <= y0 and free[m, 2] >= x1 and free[m, 3] >= y1:
                inside = True
                break
        if not inside:
            for m in range(k + 1, stop):
                if free[m, 0] <= x0 and free[m, 1] <= y0 and free[m, 2] >= x1 and free[m, 3] >= y1:
                    inside = True
                    break
        if not inside:
            free[out, 0], free[out, 1], free[out, 2], free[out, 3] = x0, y0, x1, y1
            out += 1
    return out


@inner
def pack(size: Ints, turn: Ints, order: Ints, n: int, start: Ints, rule: int, free: Ints, spots: Ints) -> int:
    """Place order[0..n) one after the other; return how many fitted before the first that did not.

    rule 0 short side fit, 1 area fit, 2 low x then y, 3 low y then x, 4 longest contact. `start` rows are the
    maximal free rectangles of the empty plate, `spots` rows get x, y, turned of each placed item, in order.
    """
    count = len(start)
    _copy(start, free, count)
    for k in range(n):
        item = order[k]
        best = 1 << 62
        bx = by = bt = NONE
        for t in range(1 + turn[item]):
            w, h = size[item, t], size[item, 1 - t]
            for m in range(count):
                x0, y0 = free[m, 0], free[m, 1]
                dx = free[m, 2] - x0 - w
                dy = free[m, 3] - y0 - h
                if dx < 0 or dy < 0:
                    continue
                score = _score(rule, x0, y0, w, h, dx, dy)
                if score < best:
                    best, bx, by, bt = score, x0, y0, t
        if bt < 0:
            return k
        spots[k, 0], spots[k, 1], spots[k, 2] = bx, by, bt
        count = take(free, count, bx, by, bx + size[item, bt], by + size[item, 1 - bt])
    return n


@inner
def _copy(start: Ints, free: Ints, count: int) -> None:
    """Cell by cell: numba compiles seconds of message text with every array that is assigned to a slice."""
    for row in range(count):
        for column in range(start.shape[1]):
            free[row, column] = start[row, column]


@inner
def _score(rule: int, x: int, y: int, w: int, h: int, dx: int, dy: int) -> int:
    if rule == 0:
        return min(dx, dy) * (1 << 26) + max(dx, dy)
    if rule == 1:
        return (dx + w) * (dy + h) - w * h
    if rule == 2:
        return (x + w) * (1 << 26) + y
    if rule == 3:
        return (y + h) * (1 << 26) + x
    return (min(dx, 1) + min(dy, 1)) * (1 << 52) + (x + y) * (1 << 26) + min(dx, dy)


@inner
def pack_guillotine(
    size: Ints,
    turn: Ints,
    order: Ints,
    n: int,
    start: Ints,
    rule: int,
    shear: Ints,
    free: Ints,
    spots: Ints,
) -> int:
    """Place order[0..n) by guillotine cuts; as `pack`, with `shear` = (stages, longest cut, negligible
    rest).

    `start` rows are the parts in hand: x0, y0, x1, y1, stage, direction of the last cut (0 none, 1 at an
    x, 2 at a y). rule % 3: short side, area, low corner; rule // 3: 0 largest leftover whole, 1 shorter
    leftover first.
    """
    count = len(start)
    _copy(start, free, count)
    for k in range(n):
        item = order[k]
        best = 1 << 62
        at = bt = first = NONE
        for t in range(1 + turn[item]):
            w, h = size[item, t], size[item, 1 - t]
            for m in range(count):
                dx = free[m, 2] - free[m, 0] - w
                dy = free[m, 3] - free[m, 1] - h
                if dx < 0 or dy < 0:
                    continue
                score = _score(rule % 3, free[m, 0], free[m, 1], w, h, dx, dy)
                if score < best:
                    cut = first_cut(free[m], w, h, rule // 3, shear)
                    if cut > 0:
                        best, at, bt, first = score, m, t, cut
        if bt < 0:
            return k
        spots[k, 0], spots[k, 1], spots[k, 2] = free[at, 0], free[at, 1], bt
        count = _cut(free, count, at, size[item, bt], size[item, 1 - bt], first, shear[2])
    return n


@compiled
def first_cut(part: Ints, w: int, h: int, split: int, shear: Ints) -> int:
    """Return the axis of the cut to begin with (1 at an x, 2 at a y) to free w by h; 0 when the shear
    cannot."""
    fw, fh, stage, last = part[2] - part[0], part[3] - part[1], part[4], part[5]
    dx, dy = fw - w, fh - h
    narrower, lower = dx > shear[2], dy > shear[2]
    if not narrower and not lower:
        return 1
    across = _stage_after(narrower, lower, stage, last, 1) <= shear[0]
    across = across and (not narrower or fh <= shear[1]) and (not lower or w <= shear[1])
    along = _stage_after(lower, narrower, stage, last, 2) <= shear[0]
    along = along and (not lower or fw <= shear[1]) and (not narrower or h <= shear[1])
    if across and along:
        if split == 1:
            return 1 if dx < dy else 2
        return 1 if max(dx * fh, w * dy) >= max(dy * fw, dx * h) else 2
    return 1 if across else (2 if along else 0)


@inner
def _stage_after(first: bool, second: bool, stage: int, last: int, axis: int) -> int:
    """Return the stage after a cut on the axis (if `first`) and one on the other axis (if `second`)."""
    if first:
        if last != axis:
            stage += 1
        last = axis
    if second and last in (axis, 0):
        stage += 1
    return stage


@inner
def _cut(free: Ints, count: int, at: int, w: int, h: int, first: int, rest: int) -> int:
    """Cut w by h off part `at`, beginning on axis `first`; its leftovers replace it. Return the new count."""
    x0, y0, x1, y1 = free[at, 0], free[at, 1], free[at, 2], free[at, 3]
    stage, last = free[at, 4], free[at, 5]
    count -= 1
    for column in range(6):
        free[at, column] = free[count, column]
    for turn in range(2):
        axis = first if turn == 0 else 3 - first
        if axis == 1 and x1 - x0 - w > rest:
            stage, last = stage + (0 if last == axis else 1), axis
            _set(free[count], x0 + w, y0, x1, y1, stage, last)
            count += 1
            x1 = x0 + w
        elif axis == 2 and y1 - y0 - h > rest:
            stage, last = stage + (0 if last == axis else 1), axis
            _set(free[count], x0, y0 + h, x1, y1, stage, last)
            count += 1
            y1 = y0 + h
    return count


@inner
def _set(row: Ints, x0: int, y0: int, x1: int, y1: int, stage: int, last: int) -> None:
    row[0], row[1], row[2], row[3], row[4], row[5] = x0, y0, x1, y1, stage, last
