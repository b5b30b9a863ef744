"""Compiled: the skyline packer, which asks for each gap which piece fits it best.

The lowest gap of the skyline is filled with the piece that matches its width or a neighbour's height best;
pieces that match equally well come in the given order (after Wei, Oon, Zhu & Lim 2011, "A skyline
heuristic for the 2D rectangular packing and strip packing problems", Eur. J. Oper. Res. 215). As all
pieces must go onto the plate, it gives up as soon as the metal it has wasted is more than can be spared.
Imports numba: import this module lazily.
"""

from __future__ import annotations

from quoting.nesting.kernels import Ints, compiled


@compiled
def lay_skyline(
    size: Ints, turn: Ints, order: Ints, n: int, w: int, h: int, spare: int, sky: Ints, spots: Ints
) -> tuple[int, int, int]:
    """Place as much of order[:n) as goes on a plate of w by h; return how many are left, area placed, spare.

    `spare` is the area that may be wasted; the packer gives up when it is less than nothing.

    `sky` rows are scratch: x, y, width of each level part of the skyline, and column 4 marks what is placed.
    `spots` rows get x, y, turned in the order of `order`.
    """
    sky[:n, 4] = 0
    sky[0, 0], sky[0, 1], sky[0, 2] = 0, 0, w
    parts, left, placed = 1, n, 0
    while left > 0:
        low = 0
        for m in range(1, parts):
            if sky[m, 1] < sky[low, 1]:
                low = m
        y, gap = sky[low, 1], sky[low, 2]
        wall_left = (sky[low - 1, 1] if low > 0 else h) - y
        wall_right = (sky[low + 1, 1] if low + 1 < parts else h) - y
        best, at, bt = -1, -1, 0
        for k in range(n):
            if sky[k, 4]:
                continue
            item = order[k]
            for t in range(1 + turn[item]):
                iw, ih = size[item, t], size[item, 1 - t]
                if iw > gap or ih > h - y:
                    continue
                fit = 4 * (iw == gap) + (ih == wall_left) + (ih == wall_right)
                if fit > best:
                    best, at, bt = fit, k, t
            if best == 6:
                break
        if at < 0:
            step = min(wall_left, wall_right)
            spare -= step * gap
            if spare < 0 or sky[low, 2] == w:
                return left, placed, spare
            parts = _raise(sky, parts, low, step)
            continue
        item = order[at]
        iw, ih = size[item, bt], size[item, 1 - bt]
        right = ih == wall_right and ih != wall_left
        x = sky[low, 0] + (gap - iw if right else 0)
        spots[at, 0], spots[at, 1], spots[at, 2] = x, y, bt
        sky[at, 4] = 1
        left -= 1
        placed += iw * ih
        parts = _step(sky, parts, low, iw, ih, right)
    return left, placed, spare


@compiled
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


@compiled
def _close(sky: Ints, parts: int, at: int) -> int:
    for m in range(at, parts - 1):
        sky[m, 0], sky[m, 1], sky[m, 2] = sky[m + 1, 0], sky[m + 1, 1], sky[m + 1, 2]
    return parts - 1


@compiled
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
