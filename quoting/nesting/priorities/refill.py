"""A plate takes more pieces into what is left of it; what lies there already stays on the plate.

Two ways are tried with every rule and a few orders: the new pieces go beside the old ones where these lie, or
the plate is laid out anew with the old ones first, which counts only if all of them find room again. The way
that saves most money wins: metal put to use counts in full, a drop for its share.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from quoting.nesting.checker import plate_faults
from quoting.nesting.nest_from_solution import laid_out, places
from quoting.nesting.nest_result import CutPlate, Placement
from quoting.nesting.plate import (
    UNIT,
    Bin,
    Filled,
    GuillotineRects,
    MaxRects,
    Packer,
    PackingProblem,
    Variant,
    drops_value,
    fill,
    fill_into,
    metal,
    micrometres,
    rules,
)
from quoting.nesting.shear import TOLERANCE_MM, Area, free_parts

_ACROSS, _ALONG = 1, 2


def refilled(
    work: PackingProblem, cut: CutPlate, left: Sequence[int], orders: Sequence[Sequence[int]]
) -> CutPlate:
    """Return the plate with what it can take of the `left` copies of each item; itself when it takes none.

    `orders` are orders of the items to try; those already on the plate are no part of `left`.
    """
    index = next(k for k, one in enumerate(work.bins) if work.problem.plates[one.plate].id == cut.plate)
    if not any(have and index in item.plates for have, item in zip(left, work.items, strict=True)):
        return cut
    plate = work.bins[index]
    found = [*_beside(work, index, cut, left, orders), *_anew(work, index, cut, left, orders)]
    for kept, more in sorted(found, key=lambda one: -_saved(work, plate, one[1])):
        new = laid_out(work, plate, [*kept, *places(work, more)], more.drops)
        if not any(plate_faults(work.problem, new)):
            return new
    return cut


def _saved(work: PackingProblem, plate: Bin, filled: Filled) -> float:
    return plate.price * filled.area / plate.area + drops_value(work, plate, filled.drops)


def _beside(
    work: PackingProblem, index: int, cut: CutPlate, left: Sequence[int], orders: Sequence[Sequence[int]]
) -> Iterator[tuple[Sequence[Placement], Filled]]:
    for rule in range(rules(work)):
        for order in orders:
            packer = _around(work, work.bins[index], cut, rule)
            found = fill_into(work, index, packer, left, order)
            if found.puts:
                yield cut.placements, found


def _anew(
    work: PackingProblem, index: int, cut: CutPlate, left: Sequence[int], orders: Sequence[Sequence[int]]
) -> Iterator[tuple[Sequence[Placement], Filled]]:
    on_it = Counter(put.piece for put in cut.placements)
    must = [on_it[work.problem.pieces[item.piece].id] for item in work.items]
    both = [more + have for more, have in zip(left, must, strict=True)]
    for rule in range(rules(work)):
        for order in orders:
            first = [k for k in order if must[k]] + [k for k in order if not must[k]]
            found = fill(work, index, both, first, rule)
            if found.counts != tuple(must) and all(
                got >= need for got, need in zip(found.counts, must, strict=True)
            ):
                yield (), _less(work, found, must)


def _less(work: PackingProblem, found: Filled, must: Sequence[int]) -> Filled:
    """Return the same layout with only the new pieces' metal counted."""
    return replace(found, area=found.area - metal(work, must))


def _around(work: PackingProblem, plate: Bin, cut: CutPlate, rule: int) -> Packer:
    """Return the free space round the pieces of the plate."""
    if work.problem.cutting.method == "shear":
        return _sheared_space(work, plate, cut, rule)
    packer = MaxRects(plate.w, plate.h, plate.blocked, rule)
    for put in cut.placements:
        x, y = micrometres(put.x_mm - plate.margin), micrometres(put.y_mm - plate.margin)
        for x0, y0, x1, y1 in _covers(work, put):
            packer.take(x + x0, y + y0, x + x1, y + y1)
    return packer


def _covers(work: PackingProblem, put: Placement) -> Sequence[tuple[int, int, int, int]]:
    """Return boxes, gap included, that hold one placed piece, from the low corner of its box."""
    variants = (
        variant
        for item in work.items
        if work.problem.pieces[item.piece].id == put.piece
        for variant in item.variants
    )
    own = next((one for one in variants if _lies_so(one, put)), None)
    if own is not None and own.covers:
        return own.covers
    return ((0, 0, micrometres(put.dx_mm) + work.gap, micrometres(put.dy_mm) + work.gap),)


def _lies_so(variant: Variant, put: Placement) -> bool:
    return variant.copies == 1 and variant.members[0].angle_deg == put.angle_deg % 360


def _sheared_space(work: PackingProblem, plate: Bin, cut: CutPlate, rule: int) -> GuillotineRects:
    """Return the parts that the plate's cut list leaves over; none of a notched plate.

    What a stroke of the last stage leaves over can be cut no further, so the packer starts with the stage.
    """
    packer = GuillotineRects(
        plate.w,
        plate.h,
        plate.blocked,
        rule=rule,
        stages=work.problem.cutting.stages,
        longest=work.longest_cut,
    )
    packer.free = []
    if plate.blocked:
        return packer
    wanted = [Area(put.x_mm, put.y_mm, put.x_mm + put.dx_mm, put.y_mm + put.dy_mm) for put in cut.placements]
    whole = Area(
        plate.margin,
        plate.margin,
        plate.margin + plate.w / UNIT,
        plate.margin + plate.h / UNIT,
    )
    for one in free_parts(whole, wanted, work.problem.cutting.longest_cut_mm):
        x, y = micrometres(one.area.x0 - plate.margin), micrometres(one.area.y0 - plate.margin)
        w, h = micrometres(one.area.x1 - one.area.x0), micrometres(one.area.y1 - one.area.y0)
        if min(w, h) > TOLERANCE_MM * UNIT:
            packer.free.append((x, y, w, h, one.stage, _ACROSS if one.axis == "x" else _ALONG))
    return packer
