"""Whether the parts of an estimate that was read back fit each other: what one names, another has.

A record that was changed by hand may hold nothing but true values and still be of no use: a line on a roll
that the shop beside it does not have, a plate cut that no rack holds.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from quoting.core import Rectangle
from quoting.estimating import Estimate, GroupNest, LineResult
from quoting.nesting import CutPlate, Drop, NestPlate, Piece, Placement

Misfit = tuple[str, str]
"""What does not fit, in words, and the name that shows it."""
_MOST_POISSON = 0.5
_ROUNDING_MM = 1.0
"""What is drawn may lie over the edge of its plate by this much before it is told."""


def misfit(estimate: Estimate) -> Misfit | None:
    """Return the first thing of an estimate that does not fit the rest of it; None when all does."""
    return next(_misfits(estimate), None)


def _misfits(estimate: Estimate) -> Iterator[Misfit]:
    materials = {material.key for material in estimate.shop.materials}
    rolls = {roll.name for roll in estimate.shop.rolls}
    stock = {plate.id: (plate.width_mm, plate.length_mm) for plate in estimate.shop.stock}
    for material in estimate.shop.materials:
        low, likely, high = material.yield_low_mpa, material.yield_likely_mpa, material.yield_high_mpa
        stiff = min(material.density_kg_m3, material.elastic_mpa, material.tensile_mpa) > 0
        if not (stiff and 0 < low <= likely <= high and 0 <= material.poisson <= _MOST_POISSON):
            yield "has a grade whose figures no metal has", material.key
    for group in estimate.nests:
        yield from _of_nest(group, materials, stock)
    for order in estimate.orders:
        for line in order.lines:
            yield from _of_line(line, materials, rolls)


def _of_nest(
    group: GroupNest, materials: set[str], stock: Mapping[str, tuple[float, float]]
) -> Iterator[Misfit]:
    if group.material not in materials:
        yield "nests plate that its shop does not know", group.material
    plates = {plate.id: plate for plate in group.problem.plates}
    pieces = {piece.id: piece for piece in group.problem.pieces}
    for cut in group.nest.cut_plates:
        plate = plates.get(cut.plate)
        if plate is None or cut.plate not in stock:
            yield "cuts a plate that nobody has", cut.plate
            continue
        if (plate.width_mm, plate.length_mm) != stock[cut.plate]:
            yield "cuts a plate of another size than the one of that name in the shop", cut.plate
        yield from _of_plate(cut, plate, pieces)


def _of_plate(cut: CutPlate, plate: NestPlate, pieces: Mapping[str, Piece]) -> Iterator[Misfit]:
    """What is drawn outside its plate would be a picture of any size."""
    for placed in cut.placements:
        if placed.piece not in pieces:
            yield "cuts a blank that nobody asked for", placed.piece
            continue
        outline = pieces[placed.piece].outline
        sides = (outline.length_mm, outline.width_mm) if isinstance(outline, Rectangle) else outline.box()
        drawn = (placed.dx_mm, placed.dy_mm)
        if any(abs(a - b) > _ROUNDING_MM for a, b in zip(sorted(sides), sorted(drawn), strict=True)):
            yield "draws a blank in another size than it has", placed.piece
    boxes: tuple[Placement | Drop, ...] = (*cut.placements, *cut.drops)
    for box in boxes:
        right, top = box.x_mm + box.dx_mm, box.y_mm + box.dy_mm
        inside = right <= plate.length_mm + _ROUNDING_MM and top <= plate.width_mm + _ROUNDING_MM
        if not (inside and min(box.x_mm, box.y_mm) >= -_ROUNDING_MM and min(box.dx_mm, box.dy_mm) > 0):
            yield "cuts a blank or a drop outside its plate", cut.plate
    for stroke in cut.cuts:
        across, along = plate.length_mm, plate.width_mm
        if stroke.axis == "y":
            across, along = along, across
        inside = stroke.at_mm <= across + _ROUNDING_MM and stroke.end_mm <= along + _ROUNDING_MM
        if not (inside and min(stroke.at_mm, stroke.start_mm) >= -_ROUNDING_MM):
            yield "has a stroke of the shear outside its plate", cut.plate


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
