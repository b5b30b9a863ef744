"""Fill one plate with the pieces that are left, in a given order, and say what that plate then costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf
from operator import mul
from typing import TypeAlias

from quoting.nesting.plate.packers import FREE_RULES, SHEAR_RULES, Box, GuillotineRects, MaxRects, Room, Spot
from quoting.nesting.plate.packing_problem import Bin, PackingProblem
from quoting.nesting.plate.variants import Variant

Packer: TypeAlias = MaxRects | GuillotineRects


@dataclass(frozen=True, slots=True)
class Put:
    """A variant of an item at a place, micrometres in the plate's usable part."""

    item: int
    variant: Variant
    x: int
    y: int


@dataclass(frozen=True, slots=True)
class Filled:
    """One filled plate: `counts` copies of each item, `area` of their metal (mm2), `net` = price - drops."""

    bin: int
    puts: tuple[Put, ...]
    counts: tuple[int, ...]
    area: float
    drops: tuple[Box, ...]
    net: float


def metal(work: PackingProblem, counts: Sequence[int]) -> float:
    """Return the area of so many copies of each item, mm2."""
    area: float = sum(map(mul, counts, work.areas))
    return area


def rules(work: PackingProblem) -> int:
    """Return how many placement rules there are for this way of cutting."""
    return SHEAR_RULES if work.problem.cutting.method == "shear" else FREE_RULES


def fill(
    work: PackingProblem, bin_index: int, left: Sequence[int], order: Sequence[int], rule: int
) -> Filled:
    """Return the plate filled greedily: items in `order`, each as often as `left` says and as it fits."""
    return fill_into(work, bin_index, new_packer(work, work.bins[bin_index], rule), left, order)


def fill_into(
    work: PackingProblem, bin_index: int, packer: Packer, left: Sequence[int], order: Sequence[int]
) -> Filled:
    """Return what goes greedily into the free space of a plate; drops and `net` are those of the whole."""
    plate = work.bins[bin_index]
    puts: list[Put] = []
    counts = [0] * len(work.items)
    area = 0.0
    items = work.items
    rooms: Sequence[Room] | None = None
    narrow = 0
    for index in order:
        todo = left[index]
        if not todo:
            continue
        item = items[index]
        if rooms is None:
            rooms = packer.rooms()
            narrow = _narrowest(rooms)
        if item.least > narrow or bin_index not in item.plates or not _has_room(item.boxes, rooms):
            continue
        while todo and (found := best_spot(packer, item.variants, todo)) is not None:
            variant, spot = found
            _occupy(packer, variant, spot)
            puts.append(Put(index, variant, spot[1], spot[2]))
            todo -= len(variant.members)
        if todo == left[index]:
            continue
        rooms = None
        counts[index] = left[index] - todo
        area += counts[index] * item.area
    drops = keepable(work, plate, packer.leftovers()) if puts else ()
    net = plate.price - drops_value(work, plate, drops)
    return Filled(bin_index, tuple(puts), tuple(counts), area, drops, net)


def _narrowest(rooms: Sequence[Room]) -> int:
    """Return the narrowest extent that may still find room: most items are told by it alone."""
    return max((min(room) for room in rooms), default=0)


def _has_room(boxes: Sequence[Room], rooms: Sequence[Room]) -> bool:
    """Return whether one of the boxes is no larger than one of the rooms."""
    for w, h in boxes:
        for wide, high in rooms:
            if w <= wide and h <= high:
                return True
    return False


def new_packer(work: PackingProblem, plate: Bin, rule: int) -> Packer:
    """Return the empty plate as free space of the right kind."""
    cutting = work.problem.cutting
    if cutting.method == "shear":
        return GuillotineRects(
            plate.w, plate.h, plate.blocked, rule=rule, stages=cutting.stages, longest=work.longest_cut
        )
    return MaxRects(plate.w, plate.h, plate.blocked, rule)


def best_spot(packer: Packer, variants: Sequence[Variant], todo: int) -> tuple[Variant, Spot] | None:
    """Return the best variant and place; variants of more copies come first and win if they fit at all."""
    best: tuple[Variant, Spot] | None = None
    copies = 0
    for variant in variants:
        more = len(variant.members)
        if more > todo:
            continue
        if best is not None and more < copies:
            break
        spot = packer.spot(variant.w, variant.h)
        if spot is not None and (best is None or spot[0] < best[1][0]):
            best = (variant, spot)
            copies = more
    return best


def _occupy(packer: Packer, variant: Variant, spot: Spot) -> None:
    if variant.covers and isinstance(packer, MaxRects):
        _, x, y, _ = spot
        for x0, y0, x1, y1 in variant.covers:
            packer.take(x + x0, y + y0, x + x1, y + y1)
    else:
        packer.place(spot, variant.w, variant.h)


def keepable(work: PackingProblem, plate: Bin, free: Sequence[Box]) -> tuple[Box, ...]:
    """Return disjoint leftovers worth keeping, the largest first; each keeps the gap to its neighbours."""
    drops: list[Box] = []
    least = _least_area(work, plate)
    parts = _worth(work, free, least)
    while parts and len(drops) < work.problem.drops.most_per_plate:
        best = max(parts, key=lambda part: (part[2] * part[3], part))
        x, y, w, h = best
        drops.append((x, y, w - work.gap, h - work.gap))
        parts = _worth(work, [rest for part in parts for rest in _minus(part, best)], least)
    return tuple(drops)


def _least_area(work: PackingProblem, plate: Bin) -> float:
    """Return the area in square micrometres from which a drop is worth more than it costs to keep."""
    cost = float(work.problem.drops.keep_cost)
    if not cost:
        return -1.0
    each = plate.drop_share * plate.price / (plate.area * 1e6)
    return cost / each if each else inf


def _worth(work: PackingProblem, parts: Sequence[Box], least_area: float) -> list[Box]:
    """Return the parts that are large enough to be kept."""
    gap, small, large = work.gap, work.drop_small, work.drop_large
    found = []
    for part in parts:
        w, h = part[2] - gap, part[3] - gap
        if w > h:
            w, h = h, w
        if w >= small and h >= large and w * h > least_area:
            found.append(part)
    return found


def _minus(part: Box, hole: Box) -> list[Box]:
    """Return the maximal rectangles of `part` without `hole`."""
    x, y, w, h = part
    hx, hy, hw, hh = hole
    if hx >= x + w or hx + hw <= x or hy >= y + h or hy + hh <= y:
        return [part]
    out: list[Box] = []
    if hx > x:
        out.append((x, y, hx - x, h))
    if hx + hw < x + w:
        out.append((hx + hw, y, x + w - hx - hw, h))
    if hy > y:
        out.append((x, y, w, hy - y))
    if hy + hh < y + h:
        out.append((x, hy + hh, w, y + h - hy - hh))
    return out


def drops_value(work: PackingProblem, plate: Bin, drops: Sequence[Box]) -> float:
    """Return the money the drops of this plate count for, what it costs to keep them taken off."""
    share = sum(w * h for _, _, w, h in drops) / (plate.area * 1e6)
    return plate.drop_share * plate.price * share - float(work.problem.drops.keep_cost) * len(drops)
