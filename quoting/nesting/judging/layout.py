"""Where pieces and drops lie: inside the plate, apart by the gap, turned as they may be, and on their day.

Rectangles are judged by their corners, sectors as polygons that contain the true shape.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from math import hypot
from typing import Any

from quoting.core import Rectangle, Sector
from quoting.nesting.judging.tolerance import TOLERANCE_MM
from quoting.nesting.judging.true_shapes import polygon, sector_points
from quoting.nesting.nest_problem import CuttingRule, NestPlate, NestProblem, Piece
from quoting.nesting.nest_result import CutPlate, Placement

_QUARTER, _FULL = 90, 360


def put_faults(problem: NestProblem, plate: NestPlate, piece: Piece, put: Placement) -> Iterator[str]:
    """Yield what is wrong with one piece on its plate, its neighbours aside."""
    yield from _pose_faults(piece, put)
    if piece.needs_heat and not plate.has_heat:
        yield f"piece {put.piece} needs a heat number and the plate has none"
    yield from _edge_faults(problem.cutting, plate, put)
    if problem.cutting.method != "shear":
        return
    if not isinstance(piece.outline, Rectangle):
        yield f"piece {put.piece}: no rectangle, and a shear cuts nothing else"
    least = problem.cutting.least_strip_mm
    if min(put.dx_mm, put.dy_mm) < least - TOLERANCE_MM:
        yield f"piece {put.piece}: narrower than the least strip of {least:g} mm"


def day_faults(days: Sequence[date | None], cut: CutPlate) -> Iterator[str]:
    """Yield that a plate is to be cut later than a piece on it, or sooner than any of them asks for."""
    first = min((day for day in days if day), default=date.max)
    said = cut.cut_by or date.max
    if said > first:
        yield f"is to be cut by {cut.cut_by or 'any day'}, and a piece on it by {first}"
    elif said < first:
        yield f"is to be cut by {said}, and no piece on it asks for that"


def _pose_faults(piece: Piece, put: Placement) -> Iterator[str]:
    name = f"piece {put.piece} copy {put.copy}"
    outline = piece.outline
    turns = _FULL // 2 if isinstance(outline, Rectangle) else _FULL
    if put.angle_deg % _QUARTER or not 0 <= put.angle_deg < turns:
        yield f"{name}: turned by {put.angle_deg:g} degrees, only quarter turns below {turns} are said"
        return
    if put.angle_deg % (2 * _QUARTER) and not piece.turn:
        yield f"{name}: turned across the grain"
    if isinstance(outline, Rectangle):
        extents = (outline.length_mm, outline.width_mm)
    else:
        points = sector_points(outline, 0.0)
        extents = _extent([x for x, _ in points]), _extent([y for _, y in points])
    dx, dy = extents[::-1] if put.angle_deg % (2 * _QUARTER) else extents
    if not (abs(dx - put.dx_mm) <= TOLERANCE_MM and abs(dy - put.dy_mm) <= TOLERANCE_MM):
        yield f"{name}: drawn {put.dx_mm:g} x {put.dy_mm:g} mm, it is {dx:g} x {dy:g} mm"


def _extent(values: Sequence[float]) -> float:
    return max(values) - min(values)


def _edge_faults(cutting: CuttingRule, plate: NestPlate, put: Placement) -> Iterator[str]:
    margin = cutting.margin_mm(plate) - TOLERANCE_MM
    name = f"piece {put.piece} copy {put.copy}"
    right, top = plate.length_mm - put.x_mm - put.dx_mm, plate.width_mm - put.y_mm - put.dy_mm
    if not min(put.x_mm, put.y_mm, right, top) >= margin:
        yield f"{name}: nearer to the plate edge than {margin + TOLERANCE_MM:g} mm"
    if plate.notch is not None:
        over_x, over_y = right - plate.notch.length_mm, top - plate.notch.width_mm
        if not max(over_x, over_y) >= margin:
            yield f"{name}: in the part that the L-shaped plate does not have"


def distance_faults(
    cutting: CuttingRule, puts: Sequence[Placement], pieces: Mapping[str, Piece]
) -> Iterator[str]:
    """Yield the pairs of pieces that overlap or keep less than the gap."""
    least = cutting.gap_mm - TOLERANCE_MM
    shapes: dict[int, Any] = {}
    ordered = sorted(puts, key=lambda put: put.x_mm)
    for k, one in enumerate(ordered):
        reach = one.x_mm + one.dx_mm + least
        for m in range(k + 1, len(ordered)):
            two = ordered[m]
            if two.x_mm > reach:
                break
            distance = _box_distance(one, two)
            if distance >= least:
                continue
            outlines = pieces[one.piece].outline, pieces[two.piece].outline
            if any(isinstance(outline, Sector) for outline in outlines):
                for index, put, outline in zip((k, m), (one, two), outlines, strict=True):
                    if index not in shapes:
                        shapes[index] = polygon(outline, put)
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


def drop_faults(
    problem: NestProblem, plate: NestPlate, cut: CutPlate, pieces: Mapping[str, Piece]
) -> Iterator[str]:
    """Yield what is wrong with the leftovers that go back to the rack: their number, size and place."""
    boxes = [Placement("drop", k, d.x_mm, d.y_mm, d.dx_mm, d.dy_mm) for k, d in enumerate(cut.drops, 1)]
    if len(boxes) > problem.drops.most_per_plate:
        yield f"{len(boxes)} drops are kept, at most {problem.drops.most_per_plate} count"
    if problem.drops.keep_cost and any(drop.value <= 0 for drop in cut.drops):
        yield "a drop is kept that is worth less than keeping it costs"
    least = sorted((problem.drops.least_width_mm, problem.drops.least_length_mm))
    for k, box in enumerate(boxes):
        yield from _edge_faults(problem.cutting, plate, box)
        sides = sorted((box.dx_mm + TOLERANCE_MM, box.dy_mm + TOLERANCE_MM))
        if not all(side >= needed for side, needed in zip(sides, least, strict=True)):
            yield f"a drop of {box.dx_mm:g} x {box.dy_mm:g} mm is too small to keep"
        over = [put for put in cut.placements if _box_distance(box, put) < -TOLERANCE_MM]
        if any(_covers(box, put, pieces) for put in over):
            yield "a drop lies over a piece"
        if any(_box_distance(box, two) < -TOLERANCE_MM for two in boxes[k + 1 :]):
            yield "two drops overlap"


def _covers(box: Placement, put: Placement, pieces: Mapping[str, Piece]) -> bool:
    """Return whether a drop lies over the metal of a piece, not just over the box round it."""
    outline = pieces[put.piece].outline if put.piece in pieces else None
    if not isinstance(outline, Sector):
        return True
    area = polygon(Rectangle(box.dy_mm, box.dx_mm), box)
    return bool(polygon(outline, put).intersection(area).area > 1.0)
