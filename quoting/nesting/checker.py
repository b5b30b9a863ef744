"""The independent judge of a nest. Shares no code with the packers: it knows the problem and the result only.

Rectangles are judged by their corners, sectors as polygons that contain the true shape (arcs are replaced by
chords outside the metal, at most `SAGITTA_MM` off). Distances may fall short by `TOLERANCE_MM`.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from math import hypot
from typing import Any

from quoting.core import Rectangle, Sector
from quoting.nesting.model import NestPlate, NestProblem
from quoting.nesting.polygons import polygon, sector_points
from quoting.nesting.result import CutPlate, Drop, Nest, Placement
from quoting.nesting.shear import TOLERANCE_MM, Area, plate_cuts, stages


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong with a nest: the plate (empty: the whole nest) and what it is, in words."""

    plate: str
    text: str

    def __str__(self) -> str:
        return f"plate {self.plate}: {self.text}" if self.plate else self.text


def check(problem: NestProblem, nest: Nest) -> tuple[Fault, ...]:
    """Return every fault of the nest; an empty tuple means it can be cut as drawn and counts add up."""
    faults = [*_stock_faults(problem, nest), *_count_faults(problem, nest), *_money_faults(problem, nest)]
    known = {plate.id for plate in problem.plates}
    for cut in nest.cut_plates:
        if cut.plate in known:
            name = f"{cut.plate} #{cut.copy}"
            faults += [Fault(name, text) for text in plate_faults(problem, cut)]
    return tuple(faults)


def _stock_faults(problem: NestProblem, nest: Nest) -> Iterator[Fault]:
    plates = {plate.id: plate for plate in problem.plates}
    copies = Counter((cut.plate, cut.copy) for cut in nest.cut_plates)
    for (id, copy), times in copies.items():
        if id not in plates:
            yield Fault(id, "is not on the list of plates")
        if times > 1:
            yield Fault(f"{id} #{copy}", f"is cut {times} times")
    for id, used in Counter(cut.plate for cut in nest.cut_plates).items():
        limit = plates[id].count if id in plates else None
        if limit is not None and used > limit:
            yield Fault(id, f"{used} are cut, there are {limit}")


def _count_faults(problem: NestProblem, nest: Nest) -> Iterator[Fault]:
    placed: defaultdict[str, list[int]] = defaultdict(list)
    for cut in nest.cut_plates:
        for put in cut.placements:
            placed[put.piece].append(put.copy)
    waiting = Counter({one.piece: 0 for one in nest.unplaced})
    for one in nest.unplaced:
        waiting[one.piece] += one.quantity
    for id in sorted({*placed, *waiting} - {piece.id for piece in problem.pieces}):
        yield Fault("", f"piece {id} was not asked for")
    for piece in problem.pieces:
        copies = placed[piece.id]
        if len(set(copies)) != len(copies):
            yield Fault("", f"piece {piece.id}: a copy is placed twice")
        if any(not 1 <= copy <= piece.quantity for copy in copies):
            yield Fault("", f"piece {piece.id}: a copy number beyond the {piece.quantity} asked for")
        if len(copies) + waiting[piece.id] != piece.quantity:
            text = f"{len(copies)} placed and {waiting[piece.id]} not placed do not make {piece.quantity}"
            yield Fault("", f"piece {piece.id}: {text}")


def _money_faults(problem: NestProblem, nest: Nest) -> Iterator[Fault]:
    prices = {plate.id: plate.price for plate in problem.plates}
    plates = sum((prices.get(cut.plate, Decimal(0)) for cut in nest.cut_plates), Decimal(0))
    if plates != nest.plate_cost:
        yield Fault("", f"the plates cost {plates}, the nest says {nest.plate_cost}")
    drops = sum((drop.value for cut in nest.cut_plates for drop in cut.drops), Decimal(0))
    if drops != nest.drop_value:
        yield Fault("", f"the drops count for {drops}, the nest says {nest.drop_value}")
    yield from _waiting_faults(problem, nest)
    if nest.cost < nest.bound - Decimal("0.01"):
        yield Fault("", f"the cost {nest.cost} is below the bound {nest.bound}")


def _waiting_faults(problem: NestProblem, nest: Nest) -> Iterator[Fault]:
    waited = nest.waited
    if waited is None:
        return
    if problem.waiting is None:
        yield Fault("", "later pieces wait, and the shop does not say that they may")
    elif waited.taken and nest.cost > waited.together * (1 + problem.waiting.most_extra_share):
        yield Fault("", f"waiting makes {nest.cost} of {waited.together}, more than the shop allows")


def plate_faults(problem: NestProblem, cut: CutPlate) -> Iterator[str]:
    """Yield what is wrong on one plate, in words."""
    plate = problem.plate(cut.plate)
    wanted = {piece.id: piece for piece in problem.pieces}
    puts = [put for put in cut.placements if put.piece in wanted]
    for put in puts:
        piece = wanted[put.piece]
        yield from _pose_faults(piece.outline, piece.turn, put)
        if piece.needs_heat and not plate.has_heat:
            yield f"piece {put.piece} needs a heat number and the plate has none"
        yield from _edge_faults(problem, plate, put)
    yield from _day_faults([wanted[put.piece].cut_by for put in puts], cut)
    yield from _distance_faults(problem, puts)
    yield from _drop_faults(problem, plate, cut)
    if problem.cutting.method == "shear":
        yield from _shear_faults(problem, plate, cut)


def _day_faults(days: Sequence[date | None], cut: CutPlate) -> Iterator[str]:
    first = min((day for day in days if day), default=date.max)
    said = cut.cut_by or date.max
    if said > first:
        yield f"is to be cut by {cut.cut_by or 'any day'}, and a piece on it by {first}"
    elif said < first:
        yield f"is to be cut by {said}, and no piece on it asks for that"


def _pose_faults(outline: Rectangle | Sector, turn: bool, put: Placement) -> Iterator[str]:
    name = f"piece {put.piece} copy {put.copy}"
    if put.angle_deg % 90:
        yield f"{name}: turned by {put.angle_deg:g} degrees, only quarter turns are allowed"
        return
    if put.turned and not turn:
        yield f"{name}: turned across the grain"
    if isinstance(outline, Rectangle):
        extents = (outline.length_mm, outline.width_mm)
    else:
        points = sector_points(outline, 0.0)
        extents = _extents([x for x, _ in points]), _extents([y for _, y in points])
    dx, dy = extents[::-1] if put.turned else extents
    if abs(dx - put.dx_mm) > TOLERANCE_MM or abs(dy - put.dy_mm) > TOLERANCE_MM:
        yield f"{name}: drawn {put.dx_mm:g} x {put.dy_mm:g} mm, it is {dx:g} x {dy:g} mm"


def _extents(values: Sequence[float]) -> float:
    return max(values) - min(values)


def _edge_faults(problem: NestProblem, plate: NestPlate, put: Placement) -> Iterator[str]:
    margin = problem.cutting.margin_mm(plate) - TOLERANCE_MM
    name = f"piece {put.piece} copy {put.copy}"
    right, top = plate.length_mm - put.x_mm - put.dx_mm, plate.width_mm - put.y_mm - put.dy_mm
    if min(put.x_mm, put.y_mm, right, top) < margin:
        yield f"{name}: nearer to the plate edge than {margin + TOLERANCE_MM:g} mm"
    if plate.notch is not None:
        over_x = plate.length_mm - plate.notch.length_mm - put.x_mm - put.dx_mm
        over_y = plate.width_mm - plate.notch.width_mm - put.y_mm - put.dy_mm
        if max(over_x, over_y) < margin:
            yield f"{name}: in the part that the L-shaped plate does not have"


def _distance_faults(problem: NestProblem, puts: Sequence[Placement]) -> Iterator[str]:
    outlines = {piece.id: piece.outline for piece in problem.pieces}
    least = problem.cutting.gap_mm - TOLERANCE_MM
    shapes: dict[int, Any] = {}
    ordered = sorted(puts, key=lambda put: put.x_mm)
    for k, one in enumerate(ordered):
        for m in range(k + 1, len(ordered)):
            two = ordered[m]
            if two.x_mm > one.x_mm + one.dx_mm + least:
                break
            distance = _box_distance(one, two)
            if distance >= least:
                continue
            if isinstance(outlines[one.piece], Sector) or isinstance(outlines[two.piece], Sector):
                for index, put in ((k, one), (m, two)):
                    if index not in shapes:
                        shapes[index] = polygon(outlines[put.piece], put)
                if shapes[k].intersection(shapes[m]).area <= TOLERANCE_MM:
                    distance = shapes[k].distance(shapes[m])
            if distance < least:
                names = f"piece {one.piece} copy {one.copy} and piece {two.piece} copy {two.copy}"
                yield f"{names}: {'overlap' if distance < 0 else 'too near'} ({distance:.2f} mm apart)"


def _box_distance(one: Placement, two: Placement) -> float:
    """Return the distance of two boxes in mm, negative when they overlap."""
    dx = max(one.x_mm - two.x_mm - two.dx_mm, two.x_mm - one.x_mm - one.dx_mm)
    dy = max(one.y_mm - two.y_mm - two.dy_mm, two.y_mm - one.y_mm - one.dy_mm)
    if dx < 0 and dy < 0:
        return max(dx, dy)
    return hypot(max(dx, 0.0), max(dy, 0.0))


def _drop_faults(problem: NestProblem, plate: NestPlate, cut: CutPlate) -> Iterator[str]:
    boxes = [Placement("drop", k, d.x_mm, d.y_mm, d.dx_mm, d.dy_mm) for k, d in enumerate(cut.drops, 1)]
    if len(boxes) > problem.drops.most_per_plate:
        yield f"{len(boxes)} drops are kept, at most {problem.drops.most_per_plate} count"
    for drop, box in zip(cut.drops, boxes, strict=True):
        yield from _edge_faults(problem, plate, box)
        if not problem.drops.keeps(drop.dx_mm + TOLERANCE_MM, drop.dy_mm + TOLERANCE_MM):
            yield f"a drop of {drop.dx_mm:g} x {drop.dy_mm:g} mm is too small to keep"
        if drop.value > _most_value(problem, plate, drop) + Decimal("0.01"):
            yield f"a drop counts for {drop.value}, more than the shop's share of its price"
        if any(_box_distance(box, put) < -TOLERANCE_MM for put in cut.placements) and _really(
            problem, box, cut.placements
        ):
            yield "a drop lies over a piece"
    for k, one in enumerate(boxes):
        if any(_box_distance(one, two) < -TOLERANCE_MM for two in boxes[k + 1 :]):
            yield "two drops overlap"


def _really(problem: NestProblem, box: Placement, puts: Sequence[Placement]) -> bool:
    area = polygon(Rectangle(box.dy_mm, box.dx_mm), box)
    return any(polygon(problem.piece(p.piece).outline, p).intersection(area).area > 1.0 for p in puts)


def _most_value(problem: NestProblem, plate: NestPlate, drop: Drop) -> Decimal:
    share = Decimal(drop.dx_mm * drop.dy_mm / plate.area_mm2)
    return problem.drops.share_of(plate) * plate.price * share


def _shear_faults(problem: NestProblem, plate: NestPlate, cut: CutPlate) -> Iterator[str]:
    cutting = problem.cutting
    for put in cut.placements:
        if min(put.dx_mm, put.dy_mm) < cutting.least_strip_mm - TOLERANCE_MM:
            yield f"piece {put.piece}: narrower than the least strip of {cutting.least_strip_mm:g} mm"
    wanted = [Area(p.x_mm, p.y_mm, p.x_mm + p.dx_mm, p.y_mm + p.dy_mm) for p in cut.placements]
    wanted += [Area(d.x_mm, d.y_mm, d.x_mm + d.dx_mm, d.y_mm + d.dy_mm) for d in cut.drops]
    found = plate_cuts(problem, plate, wanted)
    if found is None:
        yield "no sequence of guillotine cuts frees these pieces"
    elif stages(found) > cutting.stages:
        yield f"needs {stages(found)} stages of cuts, the shear does {cutting.stages}"
    for stroke in cut.cuts:
        if stroke.length_mm > cutting.longest_cut_mm + TOLERANCE_MM:
            reach = f"the shear cuts {cutting.longest_cut_mm:g}"
            yield f"stroke {stroke.number} is {stroke.length_mm:g} mm long, {reach}"
