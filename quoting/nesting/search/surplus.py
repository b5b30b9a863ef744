"""Exactly the pieces that are wanted: copies that a choice of layouts covers too often are taken off."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from quoting.nesting.plate import Filled, PackingProblem, metal
from quoting.nesting.search.ruin_and_recreate import layouts_of


def exactly(
    work: PackingProblem, plates: Sequence[Filled], left: Sequence[int], used: Sequence[int]
) -> list[Filled]:
    """Return the plates without surplus copies, each set of pieces on the cheapest plate that holds it.

    The plates must hold every item at least as often as `left` says; `used` counts plates cut besides. A
    set that the fill cannot lay out again keeps its layout with the surplus copies missing; a row of cones
    goes as a whole then, so such a plate may come out with fewer pieces than wanted.
    """
    surplus = [sum(one.counts[index] for one in plates) - count for index, count in enumerate(left)]
    used = list(used)
    for one in plates:
        used[one.bin] += 1
    out: list[Filled] = []
    for one in sorted(plates, key=lambda one: (one.area, one.bin, one.counts)):
        off = [min(have, more) for have, more in zip(one.counts, surplus, strict=True)]
        surplus = [more - took for more, took in zip(surplus, off, strict=True)]
        used[one.bin] -= 1
        wanted = tuple(have - took for have, took in zip(one.counts, off, strict=True))
        if not any(wanted):
            continue
        rest = one if not any(off) else _without(work, one, off)
        cheapest = cheapest_plate(work, wanted, used, rest if rest.counts == wanted else None) or rest
        used[cheapest.bin] += 1
        out.append(cheapest)
    return out


def cheapest_plate(
    work: PackingProblem, wanted: Sequence[int], used: Sequence[int], known: Filled | None
) -> Filled | None:
    """Return the cheapest plate found for exactly these copies, `known` if none is cheaper."""
    best = known
    area = metal(work, wanted)
    for index, plate in enumerate(work.bins):
        if not plate.is_left(used[index]):
            continue
        least = plate.price * (1 - plate.drop_share * (1 - area / plate.area))
        if area > plate.area or (best is not None and least >= best.net - 1e-9):
            continue
        if not all(index in item.plates for item, c in zip(work.items, wanted, strict=True) if c):
            continue
        for one in layouts_of(work, index, wanted):
            if best is None or one.net < best.net - 1e-9:
                best = one
    return best


def _without(work: PackingProblem, one: Filled, off: Sequence[int]) -> Filled:
    """Return the layout with at least so many copies missing; its drops stay as they were."""
    off = list(off)
    counts = list(one.counts)
    puts = []
    for put in reversed(one.puts):
        copies = put.variant.copies
        if off[put.item] > 0:
            off[put.item] -= copies
            counts[put.item] -= copies
        else:
            puts.append(put)
    return replace(one, puts=tuple(reversed(puts)), counts=tuple(counts), area=metal(work, counts))
