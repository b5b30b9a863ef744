"""Which piece lies on which plate: the arrays for the compiled ejection search, and the search from Python.

Imports numba through `ejection`: import this module lazily.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import cycle

import numpy as np

from quoting.nesting.compiled.ejection import Loads, holds, put, settle
from quoting.nesting.compiled.filters import PAIRS, filters
from quoting.nesting.compiled.kernels import MOST_FREE, Ints, first_cut
from quoting.nesting.compiled.oracle import (
    BUDGET,
    FULL_TRIES,
    GUILLOTINE,
    HOMELESS,
    NO,
    ORDERS,
    RANDOM,
    SHAKES,
    TABLE,
    TRIES,
    WORK,
    Packing,
    lay_out,
)
from quoting.nesting.compiled.sweep import search_order

SLICE = 10_000_000  # work of one round of the sweep, then another order begins
ROUND = 250_000_000  # work of a round of the ejection search, then it begins anew; by trial
TRIES_BY_ROUND = (8, 24, 8, 2, 8, 100)  # tries of the oracle in each round; measured, easy rounds win most
MOST_TRIES = 4000
SWEEP_FROM = 8  # pieces a plate from which one order of all is searched first, by trial
SWEEP_ALONE_FROM = 16  # and from which who lies on which plate is not searched at all
_NOBODY = np.full(3, -1, np.int64)


@dataclass(frozen=True, slots=True)
class Rect:
    """One copy of a piece: extents unturned, whether it may be turned, which kinds of plate may hold it."""

    w: int
    h: int
    turn: bool
    kinds: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PlateKind:
    """A kind of plate by its free parts when empty: rows x0, y0, x1, y1, stage, last cut."""

    starts: tuple[tuple[int, int, int, int, int, int], ...]
    area: int


@dataclass(frozen=True, slots=True)
class Spot:
    """One piece on one plate: its number, low corner, and whether it is turned."""

    piece: int
    x: int
    y: int
    turned: bool


@dataclass(frozen=True, slots=True)
class PlateLoad:
    """One plate of a kind and the numbers of the pieces on it; `spots` where another search has laid them."""

    kind: int
    members: tuple[int, ...]
    spots: tuple[Spot, ...] = ()


@dataclass(frozen=True, slots=True)
class Settings:
    """How the oracle and the search work. `shear` = (stages, longest cut, negligible rest) or None."""

    seed: int = 0
    shear: tuple[int, int, int] | None = None
    tries: int = 8
    shakes: int = 10


def packing(rects: Sequence[Rect], kinds: Sequence[PlateKind], settings: Settings) -> Packing:
    """Return the arrays of the oracle for these pieces and kinds of plate."""
    n = len(rects)
    size = np.array([(r.w, r.h) for r in rects], np.int64).reshape(n, 2)
    turn = np.array([int(r.turn and r.w != r.h) for r in rects], np.int64)
    area = size[:, 0] * size[:, 1]
    random = np.random.default_rng(1)
    tokens = {rect: int(random.integers(1, 1 << 60)) for rect in sorted(set(rects), key=_sort_key)}
    token = np.array([tokens[rect] for rect in rects], np.int64)
    ranks = _ranks(size, area, token)
    state = np.zeros(ORDERS + len(ranks), np.int64)
    state[RANDOM] = (settings.seed * 7919 + 1) & 0x7FFFFFFF
    state[GUILLOTINE] = int(settings.shear is not None)
    state[TRIES], state[SHAKES] = settings.tries, settings.shakes
    starts = np.zeros((len(kinds), 2, 6), np.int64)
    for k, kind in enumerate(kinds):
        starts[k, : len(kind.starts)] = kind.starts
    shear = np.array(settings.shear or (0, 0, 0), np.int64)
    extents = [_extent(kind) for kind in kinds]
    weight, limit = _filters(size, turn, extents)
    return Packing(
        size=size,
        turn=turn,
        area=area,
        token=token,
        ranks=ranks,
        alone=_alone(rects, size, turn, kinds, shear if settings.shear else None),
        starts=starts,
        extent=np.array(extents, np.int64).reshape(-1, 2),
        parts=np.array([len(kind.starts) for kind in kinds], np.int64),
        room=np.array([kind.area for kind in kinds], np.int64),
        weight=weight,
        limit=limit,
        kind_token=random.integers(1, 1 << 60, len(kinds), dtype=np.int64),
        shear=shear,
        keys=np.zeros(TABLE, np.int64),
        verdicts=np.zeros(TABLE, np.int8),
        free=np.zeros((MOST_FREE, 6), np.int64),
        rest=np.zeros((4, n), np.int64),
        spots=np.zeros((n, 3), np.int64),
        order=np.zeros(n, np.int64),
        members=np.zeros(n, np.int64),
        state=state,
    )


def _filters(size: Ints, turn: Ints, extents: Sequence[tuple[int, int]]) -> tuple[Ints, Ints]:
    """Return the weights and limits for every kind of plate; a row of zeros refuses nothing."""
    weight = np.zeros((len(extents), PAIRS, len(size)), np.int64)
    limit = np.zeros((len(extents), PAIRS), np.int64)
    for k, (w, h) in enumerate(extents):
        found, most = filters(size, turn, w, h)
        weight[k, : len(found)], limit[k, : len(found)] = found, most
    return weight, limit


def _extent(kind: PlateKind) -> tuple[int, int]:
    return max(part[2] for part in kind.starts), max(part[3] for part in kind.starts)


def _sort_key(rect: Rect) -> tuple[int, int, bool, tuple[int, ...]]:
    return rect.w, rect.h, rect.turn, rect.kinds


def _ranks(size: Ints, area: Ints, token: Ints) -> Ints:
    """Return the ranks in the usual orders; equal pieces only may change places, the oracle relies on it."""
    longest, shortest = size.max(axis=1), size.min(axis=1)
    keys = (area, longest, size[:, 0], size[:, 1], shortest)
    ranks = np.empty((len(keys), len(size)), np.int64)
    for row, key in enumerate(keys):
        ranks[row, np.lexsort((token, size[:, 1], size[:, 0], -area, -key))] = np.arange(len(size))
    return ranks


def _alone(
    rects: Sequence[Rect], size: Ints, turn: Ints, kinds: Sequence[PlateKind], shear: Ints | None
) -> np.typing.NDArray[np.bool_]:
    """Return for each kind and piece whether it may lie on such a plate, alone, and be cut from it."""
    alone = np.zeros((len(kinds), len(rects)), bool)
    for k, kind in enumerate(kinds):
        allowed = np.array([k in rect.kinds for rect in rects], bool)
        for start in kind.starts:
            part = np.array(start, np.int64)
            w, h = part[2] - part[0], part[3] - part[1]
            for t in (0, 1):
                fits = allowed & (turn >= t) & (size[:, t] <= w) & (size[:, 1 - t] <= h)
                if shear is not None:
                    for item in np.flatnonzero(fits):
                        fits[item] = first_cut(part, size[item, t], size[item, 1 - t], 0, shear) > 0
                alone[k] |= fits
    return alone


def first_fit(p: Packing, kind: int) -> list[PlateLoad]:
    """Return plates of one kind filled piece by piece in each usual order, on the fullest that holds it."""
    best: list[PlateLoad] = []
    for rank in p.ranks:
        loads = _loads(p, [])
        plates = 0
        for item in np.argsort(rank):
            for b in sorted(range(plates), key=lambda b: -int(loads.area[b])):
                if holds(p, loads, b, _NOBODY, item):
                    put(p, loads, b, item)
                    break
            else:
                loads.kind[plates], loads.key[plates] = kind, p.kind_token[kind]
                put(p, loads, plates, item)
                plates += 1
        if not best or plates < len(best):
            best = _listed(loads, plates)
    return best


def _listed(loads: Loads, plates: int) -> list[PlateLoad]:
    return [
        PlateLoad(int(loads.kind[b]), tuple(int(i) for i in loads.content[b, : loads.number[b]]))
        for b in range(plates)
    ]


def _loads(p: Packing, plates: Sequence[PlateLoad]) -> Loads:
    n = len(p.size)
    rows = max(n, len(plates), 1)
    loads = Loads(
        kind=np.zeros(rows, np.int64),
        content=np.zeros((rows, n), np.int64),
        number=np.zeros(rows, np.int64),
        area=np.zeros(rows, np.int64),
        key=np.zeros(rows, np.int64),
        homeless=np.zeros(n, np.int64),
        penalty=np.ones(n, np.int64),
    )
    for b, plate in enumerate(plates):
        loads.kind[b], loads.key[b] = plate.kind, p.kind_token[plate.kind]
        for item in plate.members:
            put(p, loads, b, item)
    return loads


def rehouse(
    p: Packing,
    plates: Sequence[PlateLoad],
    homeless: Sequence[int],
    *,
    budget: int,
    stop: Callable[[], bool] = lambda: False,
) -> list[PlateLoad] | None:
    """Return the plates with the homeless pieces settled on them too, or None when the work runs out first.

    `budget` is a number of work units (about ten nanoseconds each) on top of what is spent already.
    """
    last = int(p.state[WORK]) + budget
    known = {(load.kind, frozenset(load.members)): load for load in plates}
    for tries in cycle(TRIES_BY_ROUND):
        if p.state[WORK] >= last or stop():
            return None
        loads = _loads(p, plates)
        p.state[HOMELESS] = len(homeless)
        loads.homeless[: len(homeless)] = sorted(homeless, key=lambda item: int(p.area[item]))
        p.state[TRIES] = tries
        p.keys[p.verdicts == NO] = 0
        p.state[BUDGET] = min(last, int(p.state[WORK]) + ROUND)
        if settle(p, loads, len(plates)) == 0:
            settled = _listed(loads, len(plates))
            return [known.get((load.kind, frozenset(load.members)), load) for load in settled]
    return None


def fewest(
    p: Packing,
    start: Sequence[PlateLoad],
    *,
    bound: int,
    budget: int,
    stop: Callable[[], bool] = lambda: False,
) -> list[PlateLoad]:
    """Return as few plates of one kind as found, at least `bound`: one fewer again and again."""
    best = list(start)
    while len(best) > max(bound, 1) and not stop():
        ordered = sorted(best, key=lambda plate: -sum(int(p.area[i]) for i in plate.members))
        spare = budget - int(p.state[WORK])
        found = None
        crowd = len(p.size) / (len(best) - 1)
        if crowd >= SWEEP_FROM and spare > 0:
            share = spare if crowd >= SWEEP_ALONE_FROM else spare * 2 // 3
            found = swept(p, best[0].kind, len(best) - 1, budget=share, stop=stop)
            spare = budget - int(p.state[WORK])
        if found is None and spare > 0:
            found = rehouse(p, ordered[:-1], ordered[-1].members, budget=spare, stop=stop)
        if found is None:
            break
        best = found
    return best


def swept(
    p: Packing, kind: int, plates: int, *, budget: int, stop: Callable[[], bool] = lambda: False
) -> list[PlateLoad] | None:
    """Return all pieces on so many plates of one kind by changes of one order of all, or None.

    Only for plates in one part, cut freely.
    """
    n = len(p.size)
    if p.state[GUILLOTINE] or p.parts[kind] != 1:
        return None
    last = int(p.state[WORK]) + budget
    where, place, scratch = np.zeros(n, np.int64), np.zeros((n, 3), np.int64), np.zeros(n, np.int64)
    sides = (p, _on_its_side(p))
    orders = [(side, np.argsort(rank)) for rank in p.ranks for side in sides]
    turn = 0
    while p.state[WORK] < last and not stop():
        side, order = orders[turn % len(orders)]
        share = min(last, int(p.state[WORK]) + SLICE)
        if search_order(side, kind, plates, order, scratch, where, place, share):
            if side is not p:
                place[:, :2] = place[:, 1::-1]
            return [_swept_plate(kind, np.flatnonzero(where == b), place) for b in range(plates)]
        turn += 1
    return None


def _on_its_side(p: Packing) -> Packing:
    """Return the same pieces and plates with x and y exchanged: the skyline then grows the other way."""
    return p._replace(size=p.size[:, ::-1].copy(), starts=p.starts[:, :, [1, 0, 3, 2, 4, 5]].copy())


def _swept_plate(kind: int, members: Ints, place: Ints) -> PlateLoad:
    spots = tuple(Spot(int(i), int(place[i, 0]), int(place[i, 1]), bool(place[i, 2])) for i in members)
    return PlateLoad(kind, tuple(int(i) for i in members), spots)


def layout(p: Packing, plate: PlateLoad) -> Sequence[Spot]:
    """Return where the pieces of one plate lie; they are known to fit."""
    if plate.spots:
        return plate.spots
    n = len(plate.members)
    key = int(np.sum(p.token[list(plate.members)], initial=p.kind_token[plate.kind]))
    for tries in (
        FULL_TRIES - 1,
        MOST_TRIES,
    ):  # more tries repeat the fewer ones
        p.state[TRIES] = tries
        p.members[:n] = plate.members
        if lay_out(p, plate.kind, n, key):
            break
    else:
        raise AssertionError("a set of pieces that was packed before")
    return [
        Spot(int(p.order[k]), int(p.spots[k, 0]), int(p.spots[k, 1]), bool(p.spots[k, 2])) for k in range(n)
    ]
