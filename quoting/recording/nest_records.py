"""The nests of a record."""

from __future__ import annotations

from quoting.estimating import GroupNest, cutting_minutes_of, here_on, lead_days_of, plate_name
from quoting.nesting import CutPlate, NestProblem, Waited
from quoting.record import DropRecord, NestRecord, PlacedRecord, PlateRecord, UnplacedRecord, WaitedRecord
from quoting.shop import Shop


def nest_record(group: GroupNest, shop: Shop) -> NestRecord:
    """Return the record of the nest of one material and thickness."""
    nest = group.nest
    return NestRecord(
        material=group.material,
        thickness_mm=group.thickness_mm,
        method=group.problem.cutting.method,
        lines=group.lines,
        cost=nest.cost,
        bound=nest.bound,
        gap=round(nest.gap, 6),
        waited=_waited(nest.waited),
        plates=tuple(_cut_plate(group.problem, cut, shop) for cut in nest.cut_plates),
        unplaced=tuple(
            UnplacedRecord(piece.piece, piece.quantity, piece.why.value, piece.text)
            for piece in nest.unplaced
        ),
    )


def _waited(waited: Waited | None) -> WaitedRecord | None:
    return WaitedRecord(waited.taken, waited.together, waited.apart) if waited else None


def _cut_plate(problem: NestProblem, cut: CutPlate, shop: Shop) -> PlateRecord:
    plate = problem.plate(cut.plate)
    return PlateRecord(
        id=plate_name(cut),
        plate=cut.plate,
        width_mm=plate.width_mm,
        length_mm=plate.length_mm,
        bought=plate.count is None,
        remnant=plate.remnant,
        heat=plate.heat or "",
        price=cut.price,
        yield_share=round(cut.yield_share, 6),
        lead_days=lead_days_of(shop, cut.plate),
        cut_by=cut.cut_by,
        cutting_minutes=round(cutting_minutes_of(problem.cutting, cut, shop), 3),
        pieces=tuple(
            PlacedRecord(
                id=placed.piece,
                copy=placed.copy,
                x_mm=placed.x_mm,
                y_mm=placed.y_mm,
                dx_mm=placed.dx_mm,
                dy_mm=placed.dy_mm,
                angle_deg=placed.angle_deg,
            )
            for placed in cut.placements
        ),
        drops=tuple(
            DropRecord(drop.x_mm, drop.y_mm, drop.dx_mm, drop.dy_mm, drop.value) for drop in cut.drops
        ),
        here_on=here_on(shop, cut.plate),
    )
