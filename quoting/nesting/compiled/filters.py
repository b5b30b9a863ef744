"""Pairs of dual feasible functions that tell at once that a set of pieces does not fit one plate.

A set fits only if for every pair the sum of f(w) g(h) over its pieces is at most f(W) g(H) (the functions
and sources are those of `bounds`). Most pairs say little more than the area does; kept are those that turn
down most of the sets of a sample that the area and the pairs kept so far let pass.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from quoting.nesting.bounds import Side, reachable, sides

Ints = NDArray[np.int64]

PAIRS = 24
_SIDES = 16
_SAMPLE = 1500
_LOOKED_AT = 200  # pieces looked at for a set of the sample: hardly any fits after so many
_LEAST_FULL = 0.75  # a set that fills less of the plate is hardly ever turned down


def filters(size: Ints, turn: Ints, w: int, h: int) -> tuple[Ints, Ints]:
    """Return weights (pairs x pieces) and limits (pairs) for a plate of w by h.

    `size` is n x 2 (extent along x unturned, along y), `turn` is 1 where a piece may be turned. Of a piece
    that may be turned the lesser of its two products counts, of one that fits only one way that one.
    """
    return _filters(size.tobytes(), turn.tobytes(), w, h)


@lru_cache(maxsize=64)  # every effort of one nest asks for the same
def _filters(sizes: bytes, turns: bytes, w: int, h: int) -> tuple[Ints, Ints]:
    size, turn = np.frombuffer(sizes, np.int64).reshape(-1, 2), np.frombuffer(turns, np.int64)
    fits = [(size[:, t] <= w) & (size[:, 1 - t] <= h) & (turn >= t) for t in (0, 1)]
    xs = [int(a) for t in (0, 1) for a in size[fits[t], t]]
    ys = [int(b) for t in (0, 1) for b in size[fits[t], 1 - t]]
    if not xs:
        return np.zeros((0, len(size)), np.int64), np.zeros(0, np.int64)
    if len(xs) <= len(size):
        w, h = (reachable(side, [(one, 1) for one in ones]) for side, ones in ((w, xs), (h, ys)))
    across = [(side, _mapped(side, size, w)) for side in sides(w, xs, _SIDES)]
    along = [(side, _mapped(side, size, h)) for side in sides(h, ys, _SIDES)]
    weights, limits = _all_pairs(fits, across, along)
    chosen = _best(weights / limits[:, None], _sample(size, fits[0] | fits[1], w * h))
    return weights[chosen], limits[chosen]


def _all_pairs(
    fits: Sequence[NDArray[np.bool_]], across: Sequence[tuple[Side, Ints]], along: Sequence[tuple[Side, Ints]]
) -> tuple[Ints, Ints]:
    none = np.int64(1) << 62
    weights, limits = [], []
    for f, fs in across:
        for g, gs in along:
            flat = np.where(fits[0], fs[:, 0] * gs[:, 1], none)
            turned = np.where(fits[1], fs[:, 1] * gs[:, 0], none)
            weight = np.minimum(flat, turned)
            weights.append(np.where(weight == none, 0, weight))
            limits.append(f.whole * g.whole)
    return np.array(weights, np.int64), np.array(limits, np.int64)


def _mapped(side: Side, size: Ints, length: int) -> Ints:
    lengths, place = np.unique(size, return_inverse=True)
    mapped = np.array([side.f(min(int(v), length)) for v in lengths], np.int64)
    return mapped[place].reshape(size.shape)


def _sample(size: Ints, fits: NDArray[np.bool_], room: int) -> NDArray[np.bool_]:
    """Return random sets of pieces (sets x pieces) that the area lets pass, most of them nearly full."""
    random = np.random.default_rng(2)
    area = size[:, 0] * size[:, 1]
    sets = np.zeros((_SAMPLE, len(size)), bool)
    areas = np.where(
        fits, area, room + 1
    ).tolist()  # plain numbers: a loop over an array takes ten times as long
    for row in sets:
        space = room
        taken = []
        for item in random.permutation(len(size))[:_LOOKED_AT].tolist():
            if areas[item] <= space:
                taken.append(item)
                space -= areas[item]
        row[taken] = True
    full: NDArray[np.bool_] = (sets @ area) >= _LEAST_FULL * room
    return sets[full]


def _best(shares: NDArray[np.float64], sets: NDArray[np.bool_]) -> list[int]:
    """Return the pairs that turn down most sets, each time of those that are left."""
    refused = _sums(shares, sets) > 1 + 1e-9
    chosen: list[int] = []
    left = np.ones(len(sets), bool)
    while len(chosen) < PAIRS:
        gains = refused[:, left].sum(axis=1)
        pair = int(np.argmax(gains)) if left.any() else 0
        if not left.any() or not gains[pair]:
            break
        chosen.append(pair)
        left &= ~refused[pair]
    return chosen


def _sums(shares: NDArray[np.float64], sets: NDArray[np.bool_]) -> NDArray[np.float64]:
    """Return the sum of each row of shares over each set; a set holds few of all pieces, and at least one."""
    where, pieces = np.nonzero(sets)
    starts = np.searchsorted(where, np.arange(len(sets)))
    sums = np.empty((len(shares), len(sets)))
    for row, each in enumerate(shares):
        sums[row] = np.add.reduceat(each[pieces], starts) if len(starts) else 0.0
    return sums
