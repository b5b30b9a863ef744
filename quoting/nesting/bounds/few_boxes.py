"""The largest drops of a plate with one piece or two on it, worked out at once.

Up to three boxes that do not overlap are parted by a straight cut right across, whatever way they lie, and so
are the parts; four are too, or they lie round a middle that none of them covers, each beside the next (a
pinwheel). With the order of the cuts given, the area of the drops is linear in where each cut is, as long as
the same drops are large enough: so the best place is where a piece ends or a drop has its least size. That
leaves a few places to look at, and the answer is exact. Nothing here is taken from a publication; the tests
try every layout of small plates.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from math import inf

Side = tuple[int, int]
"""Width and height of a box, gap included."""
MOST_PIECES, MOST_DROPS = 2, 2


@dataclass(frozen=True, slots=True)
class DropSize:
    """What a drop is worth: its box is the gap larger than itself, has at least `small` by `large`, the gap
    included, in either direction, and `cost` is the area that keeping it takes off. Lengths in whole units.
    """

    gap: int
    small: int
    large: int
    cost: float

    def worth(self, w: int, h: int) -> float:
        """Return the area that one drop of a free box counts for; 0 where none is kept."""
        if w > h:
            w, h = h, w
        if w < self.small or h < self.large:
            return 0.0
        return max(0.0, (w - self.gap) * (h - self.gap) - self.cost)

    @property
    def least(self) -> tuple[int, int, int]:
        """Return the extents between which what is kept does not change."""
        return 0, self.small, self.large


def most_of_drops(room: Side, pieces: Sequence[Sequence[Side]], drops: int, size: DropSize) -> float | None:
    """Return the most that up to `drops` drops beside these pieces count for; None where they do not fit.

    `room` is the plate, `pieces` the ways each piece may lie: one or two pieces, up to two drops.
    """
    best = -inf
    for lie in product(*pieces):
        for w, h, turned in _both_ways(room, lie):
            if len(turned) == 1:
                best = max(best, _one(w, h, turned[0], drops, size))
            else:
                best = max(best, _two(w, h, turned, drops, size))
    return None if best == -inf else best


def _both_ways(room: Side, lie: Sequence[Side]) -> Iterator[tuple[int, int, Sequence[Side]]]:
    """Yield the plate and its pieces, and both with width and height exchanged: cuts run one way."""
    yield *room, lie
    yield room[1], room[0], [(h, w) for w, h in lie]


def _one(w: int, h: int, piece: Side, drops: int, size: DropSize) -> float:
    """Return the most that drops beside one piece count for; -inf where it does not fit."""
    pw, ph = piece
    if pw > w or ph > h:
        return -inf
    if not drops:
        return 0.0
    beside, above = size.worth(w - pw, h), size.worth(w, h - ph)
    if drops == 1:
        return max(beside, above)
    best = max(beside, above)
    for least in size.least:  # over the piece up to x, and beside that
        for x in (pw, least, w - least):
            if pw <= x <= w:
                best = max(best, size.worth(x, h - ph) + size.worth(w - x, h))
        for y in (ph, least, h - least):
            if ph <= y <= h:
                best = max(best, size.worth(w - pw, y) + size.worth(w, h - y))
    return best


def _fit(w: int, h: int, one: Side, two: Side) -> bool:
    beside = one[0] + two[0] <= w and max(one[1], two[1]) <= h
    return beside or (one[1] + two[1] <= h and max(one[0], two[0]) <= w)


def _two(w: int, h: int, pieces: Sequence[Side], drops: int, size: DropSize) -> float:
    """Return the most that drops beside two pieces count for where the first cut, if any, runs upwards."""
    one, two = pieces
    if not _fit(w, h, one, two):
        return -inf
    if drops < MOST_DROPS:
        return max(0.0, _one_drop(w, h, pieces, size)) if drops else 0.0
    best = _one_drop(w, h, pieces, size)
    for alone, other in ((one, two), (two, one)):
        if alone[1] <= h:
            best = max(best, _one(w - alone[0], h, other, 2, size))
    ends = {left for least in size.least for left in (one[0] + least, least)}
    ends |= {w - right for least in size.least for right in (two[0] + least, least)}
    for x in ends:
        best = max(best, _one(x, h, one, 1, size) + _one(w - x, h, two, 1, size))
    ends = {side + least for side in (0, one[0], two[0], one[0] + two[0]) for least in size.least}
    for x in ends | {w - least for least in size.least}:
        if 0 < x <= w and (rest := _any_one_drop(x, h, pieces, size)) > -inf:
            best = max(best, size.worth(w - x, h) + rest)
    return max(best, _pinwheel(w, h, one, two, size), *_turning(w, h, pieces, size))


def _any_one_drop(w: int, h: int, pieces: Sequence[Side], size: DropSize) -> float:
    return max(_one_drop(*way, size) for way in _both_ways((w, h), pieces))


def _one_drop(w: int, h: int, pieces: Sequence[Side], size: DropSize) -> float:
    """Return the most that one drop beside two pieces counts for where the first cut, if any, runs upwards;
    -inf where it finds no layout.
    """
    one, two = pieces
    best = -inf
    for alone, other in ((one, two), (two, one)):
        if alone[1] <= h:
            best = max(best, _one(w - alone[0], h, other, 1, size))
    if one[0] + two[0] <= w and max(one[1], two[1]) <= h:
        best = max(best, size.worth(w - one[0] - two[0], h))
    wide = max(one[0], two[0])
    if one[1] + two[1] <= h and wide <= w:
        best = max(best, size.worth(w - wide, h))
    return best


def _turning(w: int, h: int, pieces: Sequence[Side], size: DropSize) -> Iterator[float]:
    """Yield what drops one above the other count for beside pieces one above the other, where the drop beside
    the narrower piece reaches over the wider one."""
    narrow, wide = sorted(pieces)
    if wide[0] <= w and narrow[1] + wide[1] <= h:
        for least in size.least:
            for y in (wide[1], least, h - least):
                if wide[1] <= y <= h:
                    yield size.worth(w - wide[0], y) + size.worth(w - narrow[0], h - y)


def _pinwheel(w: int, h: int, one: Side, two: Side, size: DropSize) -> float:
    """Return what drops count for in the two corners that pieces in the other corners leave."""
    across, up = w - one[0] - two[0], h - one[1] - two[1]
    if min(w - one[0], w - two[0], h - one[1], h - two[1]) < 0 or (across > 0) == (up > 0):
        return -inf  # the drops or the pieces would overlap, or a cut parts them
    return size.worth(w - one[0], h - two[1]) + size.worth(w - two[0], h - one[1])
