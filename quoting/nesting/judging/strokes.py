"""A sheared plate is cut stroke by stroke, as the cut list says, and every part is looked at.

A stroke must go through a part in hand from edge to edge, through no piece and no drop, and not through
scrap. Strokes on one part along the same axis are one stage, a change of direction begins the next. The mill
edges of a plate within the blade's reach come off first with four strokes, stage 0. At the end every piece
and drop must lie alone in its part, free on all four sides. An L-shaped remnant is taken as its full
rectangle.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from quoting.nesting.judging.tolerance import TOLERANCE_MM
from quoting.nesting.nest_problem import CuttingRule, NestPlate
from quoting.nesting.nest_result import Axis, CutPlate, ShearCut

Box = tuple[float, float, float, float]
"""Low x, low y, high x, high y in mm."""

_LOW: dict[str, int] = {"x": 0, "y": 1}
_FREED_MM = 2 * TOLERANCE_MM + 0.001
"""A stroke may be off by the tolerance on either side: at the neighbour's edge and at the piece's own."""


@dataclass(frozen=True, slots=True)
class _Part:
    box: Box
    stage: int
    axis: Axis | None
    wanted: Sequence[tuple[str, Box]]


class _WrongStrokeError(Exception):
    """A stroke that cannot be done as the list says; the replay ends there."""


def stroke_faults(cutting: CuttingRule, plate: NestPlate, cut: CutPlate) -> Iterator[str]:
    """Yield what is wrong with the cut list of a sheared plate, in words."""
    for number, stroke in enumerate(cut.cuts, start=1):
        if stroke.number != number:
            yield f"stroke {number} of the list is numbered {stroke.number}"
        if stroke.length_mm > cutting.longest_cut_mm + TOLERANCE_MM:
            reach = f"the shear cuts {cutting.longest_cut_mm:g}"
            yield f"stroke {stroke.number} is {stroke.length_mm:g} mm long, {reach}"
    needed = max((stroke.stage for stroke in cut.cuts), default=0)
    if needed > cutting.stages:
        yield f"needs {needed} stages of cuts, the shear does {cutting.stages}"
    whole = (0.0, 0.0, plate.length_mm, plate.width_mm)
    in_hand = [_Part(whole, 0, None, _wanted(cut))]
    margin = cutting.margin_mm(plate)
    trims = 4 if margin > 0 and trimmed_whole(cutting, plate) else 0
    try:
        for number, stroke in enumerate(cut.cuts):
            part = _through(in_hand, stroke)
            trim = number < trims
            _judge_stage(part, stroke, margin if trim else None, whole)
            in_hand.remove(part)
            in_hand += [one for one in _halves(part, stroke, trim) if one.wanted]
        if len(cut.cuts) < trims:
            raise _WrongStrokeError("its mill edges are not cut off")
    except _WrongStrokeError as wrong:
        yield str(wrong)
        return
    for part in in_hand:
        yield from _not_freed(part)


def trimmed_whole(cutting: CuttingRule, plate: NestPlate) -> bool:
    """Return whether the blade takes the four mill edges off the whole plate, two sides and then two."""
    reach, margin = cutting.longest_cut_mm + TOLERANCE_MM, cutting.margin_mm(plate)
    sides = plate.length_mm, plate.width_mm
    return any(one <= reach and two - 2 * margin <= reach for one, two in (sides, sides[::-1]))


def _wanted(cut: CutPlate) -> list[tuple[str, Box]]:
    found = [
        (f"piece {p.piece} copy {p.copy}", (p.x_mm, p.y_mm, p.x_mm + p.dx_mm, p.y_mm + p.dy_mm))
        for p in cut.placements
    ]
    return found + [
        (f"drop {k}", (d.x_mm, d.y_mm, d.x_mm + d.dx_mm, d.y_mm + d.dy_mm))
        for k, d in enumerate(cut.drops, 1)
    ]


def _through(in_hand: Sequence[_Part], stroke: ShearCut) -> _Part:
    """Return the part that the stroke goes through from edge to edge."""
    low = _LOW.get(stroke.axis)
    if low is None:
        raise _WrongStrokeError(f"stroke {stroke.number} is along no axis of the plate: {stroke.axis}")
    for part in in_hand:
        box = part.box
        if (
            box[low] < stroke.at_mm < box[low + 2]
            and abs(box[1 - low] - stroke.start_mm) <= _FREED_MM
            and abs(box[3 - low] - stroke.end_mm) <= _FREED_MM
        ):
            return part
    raise _WrongStrokeError(f"stroke {stroke.number} goes through no part in hand from edge to edge")


def _judge_stage(part: _Part, stroke: ShearCut, trim_mm: float | None, whole: Box) -> None:
    """Raise unless the stroke is of the stage it says; `trim_mm` where it has to take off a mill edge."""
    if trim_mm is not None:
        far = whole[_LOW[stroke.axis] + 2]
        if min(abs(stroke.at_mm - trim_mm), abs(far - trim_mm - stroke.at_mm)) > TOLERANCE_MM:
            raise _WrongStrokeError(f"stroke {stroke.number} takes off no mill edge, and these come first")
    expected = 0 if trim_mm is not None else part.stage + (stroke.axis != part.axis)
    if stroke.stage != expected:
        raise _WrongStrokeError(
            f"stroke {stroke.number} is of stage {expected}, the list says {stroke.stage}"
        )


def _halves(part: _Part, stroke: ShearCut, trim: bool) -> tuple[_Part, _Part]:
    """Return the two halves of a part, each with what lies in it."""
    low, at = _LOW[stroke.axis], stroke.at_mm
    below = [one for one in part.wanted if one[1][low + 2] <= at + TOLERANCE_MM]
    above = [one for one in part.wanted if one[1][low] >= at - TOLERANCE_MM]
    if len(below) + len(above) != len(part.wanted):
        sides = {name for name, _ in below} ^ {name for name, _ in above}
        names = ", ".join(name for name, _ in part.wanted if name not in sides)
        raise _WrongStrokeError(f"stroke {stroke.number} cuts through {names}")
    box = part.box
    first: Box = (box[0], box[1], at, box[3]) if low == 0 else (box[0], box[1], box[2], at)
    second: Box = (at, box[1], box[2], box[3]) if low == 0 else (box[0], at, box[2], box[3])
    axis = None if trim else stroke.axis
    return _Part(first, stroke.stage, axis, below), _Part(second, stroke.stage, axis, above)


def _not_freed(part: _Part) -> Iterator[str]:
    names = ", ".join(name for name, _ in part.wanted)
    if len(part.wanted) > 1:
        yield f"the strokes leave {names} in one part"
        return
    for name, box in part.wanted:
        off = max(abs(one - two) for one, two in zip(part.box, box, strict=True))
        if not off <= _FREED_MM:
            yield f"the strokes leave {off:.2f} mm beside {name}"
