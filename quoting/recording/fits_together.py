"""Whether the parts of an estimate that was read back fit each other: what one names, another has.

A record that was changed by hand may hold nothing but true values and still be of no use: a line on a roll
that the shop beside it does not have, a plate cut that no rack holds.
"""

from __future__ import annotations

from collections.abc import Iterator

from quoting.estimating import Estimate, GroupNest, LineResult

Misfit = tuple[str, str]
"""What does not fit, in words, and the name that shows it."""


def misfit(estimate: Estimate) -> Misfit | None:
    """Return the first thing of an estimate that does not fit the rest of it; None when all does."""
    return next(_misfits(estimate), None)


def _misfits(estimate: Estimate) -> Iterator[Misfit]:
    materials = {material.key for material in estimate.shop.materials}
    rolls = {roll.name for roll in estimate.shop.rolls}
    stock = {plate.id for plate in estimate.shop.stock}
    for group in estimate.nests:
        yield from _of_nest(group, materials, stock)
    for order in estimate.orders:
        for line in order.lines:
            yield from _of_line(line, materials, rolls)


def _of_nest(group: GroupNest, materials: set[str], stock: set[str]) -> Iterator[Misfit]:
    if group.material not in materials:
        yield "nests plate that its shop does not know", group.material
    plates = {plate.id for plate in group.problem.plates}
    pieces = {piece.id for piece in group.problem.pieces}
    for cut in group.nest.cut_plates:
        if cut.plate not in plates or cut.plate not in stock:
            yield "cuts a plate that nobody has", cut.plate
        for placed in cut.placements:
            if placed.piece not in pieces:
                yield "cuts a blank that nobody asked for", placed.piece


def _of_line(line: LineResult, materials: set[str], rolls: set[str]) -> Iterator[Misfit]:
    made = line.route is not None and line.drivers is not None
    if line.price is not None and not made:
        yield "has a price for a line that nothing makes", line.line.id
    if line.routes and line.line.material not in materials:
        yield "makes a line of plate that its shop does not know", line.line.material
    for route in line.routes:
        if route.roll not in rolls:
            yield "makes a line on a roll that its shop does not have", route.roll
        if not route.rollings:
            yield "makes a line of no blank", line.line.id
