"""The general-purpose library rectpack on the same problems, for comparison; `pip install rectpack` first.

How it is treated, as generously as is fair: it gets the sizes that our packers get (pieces grown by the
gap, plates less their margins and grown by it). It knows plates of one size and one flag for turning all
pieces. When no piece may turn across the grain, or all may, the flag says so; else it is tried with the
flag off and the pieces that may turn laid along the plate, across it and as they come, and with the flag
on, where a layout counts if it happens to turn none that may not. On a shear only its guillotine rules are
used; their stages, the longest cut and the strokes are not counted against it. Its leftovers are valued as
ours are, by maximal free rectangles. The cheapest plate size and the best of all its settings count.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from importlib import import_module
from itertools import product
from typing import Any

from quoting.nesting import NestProblem
from quoting.nesting.plate import Bin, MaxRects, PackingProblem, Variant, drops_value, keepable, prepare
from quoting.nesting.plate.packing_problem import fits

FREE = (
    *("MaxRectsBssf", "MaxRectsBaf", "MaxRectsBl", "MaxRectsBlsf"),
    *("SkylineMwfl", "SkylineMwf", "SkylineBl", "SkylineMwflWm", "SkylineMwfWm", "SkylineBlWm"),
)
SHEARED = tuple(
    f"Guillotine{pick}{cut}"
    for pick, cut in product(("Bssf", "Baf", "Blsf"), ("Maxas", "Sas", "Las", "Slas", "Llas", "Minas"))
)
SORTS = ("SORT_AREA", "SORT_LSIDE", "SORT_SSIDE", "SORT_PERI")
BINS = ("BBF", "BFF")
MISSING = "rectpack is not installed: pip install rectpack"

Box = tuple[int, int]
Placed = tuple[int, int, int, int, int]  # x, y, w, h, number of the piece


def library() -> Any | None:
    """Return the library, None when it is not installed."""
    try:
        return import_module("rectpack")
    except ImportError:
        return None


@dataclass(frozen=True, slots=True)
class Copies:
    """Every copy of every piece: its box as it comes, and whether it may turn."""

    boxes: tuple[Box, ...]
    turn: tuple[bool, ...]


def copies(work: PackingProblem) -> Copies:
    """Return the copies of rectangles, gap included, micrometres."""
    items = [item for item in work.items for _ in range(item.count)]
    first = [item.variants[0] for item in items]
    return Copies(tuple((v.w, v.h) for v in first), tuple(len(item.variants) > 1 for item in items))


def settings(lib: Any, sheared: bool) -> Iterator[tuple[Any, Any, Any]]:
    """Yield (bin rule, placement rule, order), the usually better ones first."""
    algorithms = [getattr(lib, name) for name in (SHEARED if sheared else FREE)]
    orders = [getattr(lib, name) for name in SORTS]
    for mode, order, algorithm in product(BINS, orders, algorithms):
        yield getattr(lib.PackingBin, mode), algorithm, order


def layouts(
    lib: Any, pieces: Copies, plate: Bin, sheared: bool, enough: Callable[[], bool] = lambda: False
) -> Iterator[list[list[Placed]]]:
    """Yield the complete layouts of its settings, plate by plate, until `enough`; at least one is tried."""
    for setting in settings(lib, sheared):
        for boxes, rotation in _ways(pieces, plate):
            found = _pack(lib, setting, boxes, rotation, plate)
            if found is not None and _keeps_grain(pieces, found):
                yield found
        if enough():
            return


def _ways(pieces: Copies, plate: Bin) -> list[tuple[Sequence[Box], bool]]:
    if all(pieces.turn):
        return [(pieces.boxes, True)]
    if not any(pieces.turn):
        return [(pieces.boxes, False)]
    return [
        (pieces.boxes, True),
        *((_laid(pieces, plate, key), False) for key in (lambda b: 0, lambda b: -b[0], lambda b: -b[1])),
    ]


def _laid(pieces: Copies, plate: Bin, key: Callable[[Box], int]) -> list[Box]:
    out = []
    for (w, h), turn in zip(pieces.boxes, pieces.turn, strict=True):
        ways = [(w, h), (h, w)] if turn else [(w, h)]
        fitting = [way for way in ways if fits(Variant(*way, ()), plate)] or ways
        out.append(min(fitting, key=key))
    return out


def _pack(
    lib: Any, setting: tuple[Any, Any, Any], boxes: Sequence[Box], rotation: bool, plate: Bin
) -> list[list[Placed]] | None:
    bin_rule, algorithm, order = setting
    packer = lib.newPacker(
        mode=lib.PackingMode.Offline,
        bin_algo=bin_rule,
        pack_algo=algorithm,
        sort_algo=order,
        rotation=rotation,
    )
    for number, (w, h) in enumerate(boxes):
        packer.add_rect(w, h, number)
    packer.add_bin(plate.w, plate.h, count=float("inf"))
    packer.pack()
    found = [[(r.x, r.y, r.width, r.height, r.rid) for r in one] for one in packer]
    return found if sum(len(one) for one in found) == len(boxes) else None


def _keeps_grain(pieces: Copies, found: list[list[Placed]]) -> bool:
    return all(
        pieces.turn[number] or (w, h) == pieces.boxes[number] for one in found for _, _, w, h, number in one
    )


def cheapest_cost(lib: Any, problem: NestProblem) -> float | None:
    """Return the least money (plates less drops, no cutting) on the plates of the problem's only size."""
    work = prepare(problem)
    if work.unplaced:
        return None
    plate = work.bins[0]
    sheared = problem.cutting.method == "shear"
    costs = (
        sum(_net(work, plate, one) for one in found) for found in layouts(lib, copies(work), plate, sheared)
    )
    return min(costs, default=None)


def _net(work: PackingProblem, plate: Bin, placed: Sequence[Placed]) -> float:
    free = MaxRects(plate.w, plate.h, plate.blocked, 0)
    for x, y, w, h, _ in placed:
        free.take(x, y, x + w, y + h)
    return plate.price - drops_value(work, plate, keepable(work, plate, free.leftovers()))


def fewest_bins(lib: Any, problem: NestProblem, seconds: float) -> int:
    """Return the fewest plates its settings reach in so much processor time; at least one is tried."""
    work = prepare(problem)
    end = time.process_time() + seconds
    found = layouts(
        lib,
        copies(work),
        work.bins[0],
        problem.cutting.method == "shear",
        lambda: time.process_time() >= end,
    )
    return min(len(one) for one in found)
