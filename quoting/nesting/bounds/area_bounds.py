"""Lower bounds on what any nest of the pieces must cost.

A dual feasible function f maps sizes to sizes so that whatever fits in a length still fits afterwards;
with f on the one side and g on the other, the sum of f(w) g(h) over the pieces on a plate is at most f(W)
g(H) (Fekete & Schepers 2004, "A general framework for bounds for higher-dimensional orthogonal packing
problems", Math. Meth. Oper. Res. 60; functions as in Boschetti & Mingozzi 2003, "The two-dimensional
finite bin packing problem", 4OR 1). A piece that may be turned counts with the smaller of its two products
(Dell'Amico, Martello & Vigo 2002, "A lower bound for the non-oriented two-dimensional bin packing
problem", Discrete Appl. Math. 118, use the same idea with squares). Money: the least price of covering the
transformed area by the plates there are, each plate credited with the most its unused area could fetch as
a drop.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, gcd

from quoting.nesting.plate import PackedPiece, PackingProblem

_MOST_SUMMED = 400
_MOST_SUMS = 400_000

Transform = Callable[[int], int]


@dataclass(frozen=True, slots=True)
class Side:
    """One dual feasible function on lengths up to `length`, and what the whole length maps to."""

    f: Transform
    whole: int


def sides(length: int, sizes: Sequence[int], most: int = 40) -> Iterator[Side]:
    """Yield the identity and the usual families of functions for pieces of these sizes on one length."""
    yield Side(lambda x: x, length)
    half = {min(x, length - x) for x in sizes if 0 < x < length}
    half |= {length - x + 1 for x in sizes if x < length < 2 * x - 1}  # counts x whole, its rest not
    for k in _sample(sorted(half), most):
        yield _rounded_up(length, k)
    for k in _sample(sorted({x for x in sizes if 0 < 2 * x <= length}), most):
        yield _whole_parts(length, k)


def _sample(values: Sequence[int], most: int) -> Sequence[int]:
    if len(values) <= most:
        return values
    return [values[k * len(values) // most] for k in range(most)]


def _rounded_up(length: int, k: int) -> Side:
    """Drop sizes under k, round those over length - k up to the length (Fekete & Schepers' U)."""

    def f(x: int) -> int:
        return length if x > length - k else x if x >= k else 0

    return Side(f, length)


def _whole_parts(length: int, k: int) -> Side:
    """Count whole parts of k; sizes over half get what the rest cannot use (Boschetti & Mingozzi's third)."""
    parts = length // k

    def f(x: int) -> int:
        if 2 * x > length:
            return 2 * (parts - (length - x) // k)
        return 2 * (x // k) if 2 * x < length else parts

    return Side(f, 2 * parts)


def reachable(length: int, sizes: Sequence[tuple[int, int]]) -> int:
    """Return the largest sum of sizes (size, count) that is not over the length: more is never used.

    >>> reachable(100, [(30, 5)])
    90
    """
    step = gcd(*(size for size, _ in sizes)) if sizes else 1
    if sum(count for _, count in sizes) > _MOST_SUMMED or length // step > _MOST_SUMS:
        return length
    room = length // step
    mask, sums = (1 << (room + 1)) - 1, 1
    for size, count in sizes:
        for _ in range(min(count, length // size)):
            sums |= (sums << (size // step)) & mask
    return (sums.bit_length() - 1) * step


def bin_bound(sizes: Sequence[tuple[int, int, int, bool]], w: int, h: int, most: int = 40) -> int:
    """Return a lower bound on the number of equal w by h plates for pieces (w, h, count, may be turned)."""
    across = [(a, n) for a, _, n, _ in sizes] + [(b, n) for _, b, n, turn in sizes if turn]
    along = [(b, n) for _, b, n, _ in sizes] + [(a, n) for a, _, n, turn in sizes if turn]
    w = reachable(w, [size for size in across if size[0] <= w])
    h = reachable(h, [size for size in along if size[0] <= h])
    return max((ceil(covered - 1e-9) for covered in _covered(sizes, w, h, most)), default=0)


def _covered(sizes: Sequence[tuple[int, int, int, bool]], w: int, h: int, most: int) -> Iterator[float]:
    """Yield for each pair of functions the transformed area of the pieces in transformed plates."""
    xs = [a for a, _, _, _ in sizes] + [b for _, b, _, turn in sizes if turn]
    ys = [b for _, b, _, _ in sizes] + [a for a, _, _, turn in sizes if turn]
    across = [
        (side, [side.f(a) for a, _, _, _ in sizes], [side.f(b) for _, b, _, _ in sizes])
        for side in sides(w, xs, most)
    ]
    along = [
        (side, [side.f(b) for _, b, _, _ in sizes], [side.f(a) for a, _, _, _ in sizes])
        for side in sides(h, ys, most)
    ]
    for f, fa, fb in across:
        for g, gb, ga in along:
            total = 0
            for k, (a, b, count, turn) in enumerate(sizes):
                flat = fa[k] * gb[k]
                if turn and flat:
                    if b <= w and a <= h:
                        flat = fb[k] * ga[k] if a > w or b > h else min(flat, fb[k] * ga[k])
                elif turn and (a > w or b > h):
                    flat = fb[k] * ga[k]
                total += count * flat
            yield total / (f.whole * g.whole)


def money_bound(work: PackingProblem) -> float:
    """Return the least money the plates less drops can cost when all pieces are placed.

    Each piece answers for its share of the cheapest plate that holds it. With one size that can be bought
    without limit, whole plates as well: n plates of which all unused metal goes back as drops.
    """
    area = sum(item.count * item.area for item in work.items)
    if not area:
        return 0.0
    best = max(_by_piece(work), 0.0)
    if len(work.bins) == 1 and all(
        len(i.variants[-1].members) == 1 and not i.variants[-1].covers for i in work.items
    ):
        plate = work.bins[0]
        n = bin_bound(single_sizes(work), plate.w, plate.h, 25)
        unused = max(n * plate.area - area, 0.0)
        best = max(best, n * plate.price - plate.drop_share * plate.price / plate.area * unused)
    return best


def single_sizes(work: PackingProblem) -> list[tuple[int, int, int, bool]]:
    """Return (w, h, count, may be turned) of the rectangles, gap included."""
    return [
        (item.variants[0].w, item.variants[0].h, item.count, len(item.variants) > 1) for item in work.items
    ]


def _by_piece(work: PackingProblem) -> float:
    """Return a bound from what each piece must cost on the plate that is cheapest for it.

    A plate that carries pieces of metal area u (gaps included: b) costs at least price - s p (U - u) with
    U its usable area and p its price per area, and b is at most its usable area B. So each piece answers
    for at least (price - s p U) b / B + s p a. Plates of limited number can only save what their area can
    hold.
    """
    open_ended = [k for k, plate in enumerate(work.bins) if plate.limit is None]
    total = 0.0
    most_saved = [0.0] * len(work.bins)  # per mm2 of gap-included area
    wanted = [0.0] * len(work.bins)
    for item in work.items:
        grown = _grown_area(item)
        usual = [k for k in open_ended if k in item.plates] or sorted(item.plates)
        cheapest = min(_share(work, k, item.area, grown) for k in usual)
        total += item.count * cheapest
        for k in item.plates:
            saved = (cheapest - _share(work, k, item.area, grown)) / grown
            if work.bins[k].limit is not None and saved > 0:
                most_saved[k] = max(most_saved[k], saved)
                wanted[k] += item.count * grown
    for k, plate in enumerate(work.bins):
        if plate.limit is not None:
            total -= most_saved[k] * min(plate.limit * plate.w * plate.h / 1e6, wanted[k])
    return total


def _grown_area(item: PackedPiece) -> float:
    """Return the area a piece takes up, gap included, mm2; of a sector only its metal counts."""
    if item.variants[0].covers:
        return item.area
    return item.variants[0].w * item.variants[0].h / 1e6


def _share(work: PackingProblem, index: int, area: float, grown: float) -> float:
    """Return the least money a piece answers for on a plate."""
    plate = work.bins[index]
    credit = plate.drop_share * plate.price / plate.area
    usable = min((plate.w - work.gap) * (plate.h - work.gap) / 1e6, plate.area)
    return (plate.price - credit * usable) * grown / (plate.w * plate.h / 1e6) + credit * area
