"""Compiled: the skyline packer, which asks for each gap which piece fits it best.

The lowest gap of the skyline is filled with the piece that matches its width or a neighbour's height best;
pieces that match equally well come in the given order (after Wei, Oon, Zhu & Lim 2011, "A skyline
heuristic for the 2D rectangular packing and strip packing problems", Eur. J. Oper. Res. 215). As all
pieces must go onto the plate, it gives up as soon as the metal it has wasted is more than can be spared.
Imports numba: import this module lazily.
"""

from __future__ import annotations

from quoting.core import inner
from quoting.nesting.compiled.kernels import ONE, ZERO, Ints


@inner
def lay_skyline(
    size: Ints,
    turn: Ints,
    order: Ints,
    n: int,
    w: int,
    h: int,
    spare: int,
    sky: Ints,
    rest: Ints,
    spots: Ints,
) -> tuple[int, int, int]:
    """Place as much of order[:n) as goes on a plate of w by h; return how many are left, area placed, spare.

    `spare` is the area that may be wasted; the packer gives up when it is less than nothing.

    `sky` rows are scratch: x, y, width of each level part of the skyline. `rest` is scratch: what is still
    to be placed side by side in memory, its extents, whether it may be turned and its place in the order;
    at the end its first rows are what is left, in order. `spots` rows get x, y, turned (-1: not placed) in
    the order of `order`.
    """
    least = 1 << 62
    for k in range(n):
        item = order[k]
        iw, ih = size[item, 0], size[item, 1]
        rest[0, k], rest[1, k], rest[2, k], rest[3, k] = iw, ih, turn[item], k
        spots[k, 2] = -1
        least = min(least, iw)
        if turn[item]:
            least = min(least, ih)
    sky[0, 0], sky[0, 1], sky[0, 2] = 0, 0, w
    parts, left, placed = ONE, n, ZERO
    while left > 0:
        low = ZERO
        for m in range(1, parts):
            if sky[m, 1] < sky[low, 1]:
                low = m
        y, gap = sky[low, 1], sky[low, 2]
        wall_left = (sky[low - 1, 1] if low > 0 else h) - y
        wall_right = (sky[low + 1, 1] if low + 1 < parts else h) - y
        at, bt = -1, 0
        if gap >= least:
            at, bt = _fittest(rest, left, gap, h - y, wall_left, wall_right)
        if at < 0:
            step = min(wall_left, wall_right)
            spare -= step * gap
            if spare < 0 or gap == w:
                return left, placed, spare
            parts = _raise(sky, parts, low, step)
            continue
        iw, ih, k = rest[bt, at], rest[1 - bt, at], rest[3, at]
        right = ih == wall_right and ih != wall_left
        spots[k, 0], spots[k, 1], spots[k, 2] = sky[low, 0] + (gap - iw if right else 0), y, bt
        left -= 1
        for m in range(at, left):
            rest[0, m], rest[1, m], rest[2, m], rest[3, m] = (
                rest[0, m + 1],
                rest[1, m + 1],
                rest[2, m + 1],
                rest[3, m + 1],
            )
        placed += iw * ih
        parts = _step(sky, parts, low, iw, ih, right)
    return left, placed, spare


@inner
def _fittest(rest: Ints, left: int, gap: int, room: int, wall_left: int, wall_right: int) -> tuple[int, int]:
    """Return the column of the first piece that matches the gap best and whether it is turned; -1: none."""
    best, at, bt = -1, -1, 0
    for k in range(left):
        iw, ih = rest[0, k], rest[1, k]
        if iw <= gap and ih <= room:
            fit = 4 * (iw == gap) + (ih == wall_left) + (ih == wall_right)
            if fit > best:
                best, at, bt = fit, k, 0
                if best == 6:
                    break
        if rest[2, k] and ih <= gap and iw <= room:
            fit = 4 * (ih == gap) + (iw == wall_left) + (iw == wall_right)
            if fit > best:
                best, at, bt = fit, k, 1
                if best == 6:
                    break
    return at, bt


@inner
def _raise(sky: Ints, parts: int, low: int, step: int) -> int:
    """Raise the low part and merge it with neighbours of the same height; return the new number of parts."""
    sky[low, 1] += step
    if low + 1 < parts and sky[low + 1, 1] == sky[low, 1]:
        sky[low, 2] += sky[low + 1, 2]
        parts = _close(sky, parts, low + 1)
    if low > 0 and sky[low - 1, 1] == sky[low, 1]:
        sky[low - 1, 2] += sky[low, 2]
        parts = _close(sky, parts, low)
    return parts


@inner
def _close(sky: Ints, parts: int, at: int) -> int:
    for m in range(at, parts - 1):
        sky[m, 0], sky[m, 1], sky[m, 2] = sky[m + 1, 0], sky[m + 1, 1], sky[m + 1, 2]
    return parts - 1


@inner
def _step(sky: Ints, parts: int, low: int, iw: int, ih: int, right: bool) -> int:
    """Put a box of iw by ih on the low part, at its left or right end; return the new number of parts."""
    rest = sky[low, 2] - iw
    if rest == 0:
        return _raise(sky, parts, low, ih)
    for m in range(parts, low + 1, -1):
        sky[m, 0], sky[m, 1], sky[m, 2] = sky[m - 1, 0], sky[m - 1, 1], sky[m - 1, 2]
    x, y = sky[low, 0], sky[low, 1]
    if right:
        sky[low, 2] = rest
        sky[low + 1, 0], sky[low + 1, 1], sky[low + 1, 2] = x + rest, y, iw
        return _raise(sky, parts + 1, low + 1, ih)
    sky[low, 2] = iw
    sky[low + 1, 0], sky[low + 1, 1], sky[low + 1, 2] = x + iw, y, rest
    return _raise(sky, parts + 1, low, ih)
