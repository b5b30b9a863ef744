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

from quoting.nesting.plate import Box

Side = tuple[int, int]
"""Width and height of a box, gap included."""
Lying = tuple[int, Side]
"""A piece by its number, and the way it lies."""
Placed = tuple[tuple[int, Box], ...]
"""Boxes of pieces by their numbers, and of drops by `DROP`."""
Found = tuple[float, Placed]
"""What the drops of a layout count for, and the layout."""
DROP = -1
MOST_PIECES, MOST_DROPS = 2, 2
_NONE: Found = (-inf, ())


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


def most_of_drops(room: Side, pieces: Sequence[Sequence[Side]], drops: int, size: DropSize) -> Found | None:
    """Return the most that up to `drops` drops beside these pieces count for, and a layout that leaves them;
    None where the pieces do not fit.

    `room` is the plate, `pieces` the ways each piece may lie: one or two pieces, up to two drops.
    """
    best = _NONE
    for lie in product(*pieces):
        for turned, (w, h, there) in enumerate(_both_ways(room, tuple(enumerate(lie)))):
            find = _one if len(there) == 1 else _two
            found = find(w, h, there, drops, size)
            if found[0] > best[0]:
                best = (found[0], _turned(found[1])) if turned else found
    return None if best is _NONE else best


def _both_ways(room: Side, there: Sequence[Lying]) -> Iterator[tuple[int, int, Sequence[Lying]]]:
    """Yield the plate and its pieces, and both with width and height exchanged: cuts run one way."""
    yield *room, there
    yield room[1], room[0], [(number, (h, w)) for number, (w, h) in there]


def _turned(layout: Placed) -> Placed:
    return tuple((number, (y, x, h, w)) for number, (x, y, w, h) in layout)


def _moved(layout: Placed, by: int) -> Placed:
    return tuple((number, (x + by, y, w, h)) for number, (x, y, w, h) in layout)


def _with_drops(layout: Placed, boxes: Sequence[Box], size: DropSize) -> Found:
    """Return the layout with these drops, those too small left out."""
    worth = [size.worth(box[2], box[3]) for box in boxes]
    kept = tuple((DROP, box) for box, one in zip(boxes, worth, strict=True) if one > 0)
    return sum(worth), (*layout, *kept)


def _best(found: Iterator[Found]) -> Found:
    return max(found, key=lambda one: one[0], default=_NONE)


def _one(w: int, h: int, there: Sequence[Lying], drops: int, size: DropSize) -> Found:
    """Return the best layout of one piece; worth -inf where it does not fit."""
    ((number, (pw, ph)),) = there
    if pw > w or ph > h:
        return _NONE
    layout = ((number, (0, 0, pw, ph)),)
    return _best(_with_drops(layout, boxes, size) for boxes in _beside_one(w, h, pw, ph, drops, size))


def _beside_one(w: int, h: int, pw: int, ph: int, drops: int, size: DropSize) -> Iterator[list[Box]]:
    """Yield the drops there may be beside a piece in the corner."""
    if not drops:
        yield []
        return
    yield [(pw, 0, w - pw, h)]
    yield [(0, ph, w, h - ph)]
    if drops < MOST_DROPS:
        return
    # over the piece up to x, and beside that; or beside the piece up to y, and over that
    for least in size.least:
        for x in {pw, least, w - least}:
            if pw <= x <= w:
                yield [(0, ph, x, h - ph), (x, 0, w - x, h)]
        for y in {ph, least, h - least}:
            if ph <= y <= h:
                yield [(pw, 0, w - pw, y), (0, y, w, h - y)]


def _two(w: int, h: int, there: Sequence[Lying], drops: int, size: DropSize) -> Found:
    """Return the best layout of two pieces of which the first cut, if any cut parts it, runs upwards."""
    if not drops:
        return _best(_packed(w, h, there))
    if drops < MOST_DROPS:
        return _best(_one_drop(w, h, there, size))
    return _best(_two_drops(w, h, there, size))


def _packed(w: int, h: int, there: Sequence[Lying]) -> Iterator[Found]:
    """Yield two pieces side by side, and one above the other."""
    (one, a), (two, b) = there
    if a[0] + b[0] <= w and max(a[1], b[1]) <= h:
        yield 0.0, ((one, (0, 0, *a)), (two, (a[0], 0, *b)))
    if a[1] + b[1] <= h and max(a[0], b[0]) <= w:
        yield 0.0, ((one, (0, 0, *a)), (two, (0, a[1], *b)))


def _one_drop(w: int, h: int, there: Sequence[Lying], size: DropSize) -> Iterator[Found]:
    """Yield layouts with one drop: beside both pieces, or with one of them beside the other."""
    for _, layout in _packed(w, h, there):
        x = max(box[0] + box[2] for _, box in layout)
        yield _with_drops(layout, [(x, 0, w - x, h)], size)
    yield from _parted(w, h, there, 1, size)


def _parted(w: int, h: int, there: Sequence[Lying], drops: int, size: DropSize) -> Iterator[Found]:
    """Yield layouts of which one piece stands alone beside the other and all drops."""
    for (number, side), other in ((there[0], there[1]), (there[1], there[0])):
        x = w - side[0]
        if side[1] <= h and x > 0:
            value, layout = _one(x, h, (other,), drops, size)
            yield value, ((number, (x, 0, *side)), *layout)


def _two_drops(w: int, h: int, there: Sequence[Lying], size: DropSize) -> Iterator[Found]:
    yield from _one_drop(w, h, there, size)
    yield from _parted(w, h, there, 2, size)
    (_, one), (_, two) = there
    ends = {left for least in size.least for left in (one[0] + least, least)}
    ends |= {w - right for least in size.least for right in (two[0] + least, least)}
    for x in sorted(ends):  # a piece and a drop on each side
        left, right = (_one(a, h, (piece,), 1, size) for a, piece in zip((x, w - x), there, strict=True))
        yield left[0] + right[0], (*left[1], *_moved(right[1], x))
    ends = {side + least for side in (0, one[0], two[0], one[0] + two[0]) for least in size.least}
    for x in sorted(ends | {w - least for least in size.least}):  # a drop beside the rest
        if 0 < x <= w:
            for turned, way in enumerate(_both_ways((x, h), there)):
                value, layout = _best(_one_drop(*way, size))
                more, placed = _with_drops(_turned(layout) if turned else layout, [(x, 0, w - x, h)], size)
                yield value + more, placed
    yield from _turning(w, h, there, size)
    yield from _opposite(w, h, there, size)


def _turning(w: int, h: int, there: Sequence[Lying], size: DropSize) -> Iterator[Found]:
    """Yield drops one above the other beside pieces one above the other, where the drop beside the narrower
    piece reaches over the wider one."""
    (one, wide), (two, narrow) = sorted(there, key=lambda piece: piece[1], reverse=True)
    if wide[0] > w or narrow[1] + wide[1] > h:
        return
    layout = ((one, (0, 0, *wide)), (two, (0, h - narrow[1], *narrow)))
    for least in size.least:
        for y in {wide[1], least, h - least}:
            if wide[1] <= y <= h:
                boxes = [(wide[0], 0, w - wide[0], y), (narrow[0], y, w - narrow[0], h - y)]
                yield _with_drops(layout, boxes, size)


def _opposite(w: int, h: int, there: Sequence[Lying], size: DropSize) -> Iterator[Found]:
    """Yield drops in the two corners that pieces in the other corners leave."""
    (one, a), (two, b) = there
    across, up = w - a[0] - b[0], h - a[1] - b[1]
    if min(w - a[0], w - b[0], h - a[1], h - b[1]) < 0 or (across > 0) == (up > 0):
        return  # the drops or the pieces would overlap, or a cut parts them
    layout = ((one, (0, 0, *a)), (two, (w - b[0], h - b[1], *b)))
    yield _with_drops(layout, [(a[0], 0, w - a[0], h - b[1]), (0, a[1], w - b[0], h - a[1])], size)
