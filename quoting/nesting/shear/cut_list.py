"""The cut list of a sheared plate, worked out from the finished layout alone.

A guillotine layout comes apart by straight cuts through the whole part in hand. Seen along one axis, the
pieces fall into groups whose extents do not overlap; cutting between all groups at once is one stage, and
it is never worse to cut more. So trying both axes first and alternating gives the least number of stages,
or the proof that no sequence exists.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from quoting.nesting.nest_result import Axis, ShearCut

TOLERANCE_MM = 0.05


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle on the plate by its low and high corner, mm."""

    x0: float
    y0: float
    x1: float
    y1: float

    def low(self, axis: Axis) -> float:
        """Return the low end on the axis."""
        return self.x0 if axis == "x" else self.y0

    def high(self, axis: Axis) -> float:
        """Return the high end on the axis."""
        return self.x1 if axis == "x" else self.y1

    def between(self, axis: Axis, low: float, high: float) -> Area:
        """Return the slice of it from low to high on the axis."""
        return Area(low, self.y0, high, self.y1) if axis == "x" else Area(self.x0, low, self.x1, high)


@dataclass(frozen=True, slots=True)
class _Stroke:
    stage: int
    axis: Axis
    at: float
    start: float
    end: float


def shear_cuts(part: Area, wanted: Sequence[Area], longest_mm: float) -> tuple[ShearCut, ...] | None:
    """Return the cuts, in order, that free all `wanted` rectangles from `part`; None when no sequence does.

    Of the two axes to begin with, the one with fewer stages wins, then fewer strokes. No cut is longer than
    `longest_mm`. A cut at the very edge of the part in hand is no cut.

    >>> cuts = shear_cuts(Area(0, 0, 100, 50), [Area(0, 0, 60, 50), Area(60, 0, 90, 20)], 1e9)
    >>> [(cut.stage, cut.axis, cut.at_mm) for cut in cuts]
    [(1, 'x', 60), (1, 'x', 90), (2, 'y', 20)]
    """
    if not wanted:
        return ()
    found = [
        strokes
        for strokes in (_sequence(part, wanted, axis, 1, longest_mm) for axis in _AXES)
        if strokes is not None
    ]
    if not found:
        return None
    best = min(found, key=lambda strokes: (stages(strokes), len(strokes)))
    return tuple(
        ShearCut(number, s.stage, s.axis, s.at, s.start, s.end) for number, s in enumerate(best, start=1)
    )


_AXES: tuple[Axis, Axis] = ("x", "y")


@dataclass(frozen=True, slots=True)
class FreePart:
    """What a cut list leaves over: the part, and the stage and axis of the stroke that frees it."""

    area: Area
    stage: int
    axis: Axis | None


def free_parts(part: Area, wanted: Sequence[Area], longest_mm: float) -> tuple[FreePart, ...]:
    """Return the parts without a wanted rectangle that the cut list of `shear_cuts` leaves.

    >>> for one in free_parts(Area(0, 0, 100, 50), [Area(0, 0, 60, 50), Area(60, 0, 90, 20)], 1e9):
    ...     print(one.area, one.stage, one.axis)
    Area(x0=90, y0=0, x1=100, y1=50) 1 x
    Area(x0=60, y0=20, x1=90, y1=50) 2 y
    """
    cuts = shear_cuts(part, wanted, longest_mm)
    if cuts is None:
        return ()
    parts = [FreePart(part, 0, None)]
    for cut in cuts:
        whole = next(one for one in parts if _through(one.area, cut))
        low, high = (
            whole.area.between(cut.axis, whole.area.low(cut.axis), cut.at_mm),
            whole.area.between(cut.axis, cut.at_mm, whole.area.high(cut.axis)),
        )
        parts.remove(whole)
        parts += [FreePart(half, cut.stage, cut.axis) for half in (low, high)]
    return tuple(one for one in parts if not any(_overlap(one.area, area) for area in wanted))


def _through(part: Area, cut: ShearCut) -> bool:
    other: Axis = "y" if cut.axis == "x" else "x"
    return (
        part.low(cut.axis) < cut.at_mm < part.high(cut.axis)
        and abs(part.low(other) - cut.start_mm) <= TOLERANCE_MM
        and abs(part.high(other) - cut.end_mm) <= TOLERANCE_MM
    )


def _overlap(one: Area, two: Area) -> bool:
    return all(
        min(one.high(axis), two.high(axis)) - max(one.low(axis), two.low(axis)) > TOLERANCE_MM
        for axis in _AXES
    )


def stages(cuts: Sequence[_Stroke] | Sequence[ShearCut]) -> int:
    """Return the number of stages of a cut list."""
    return max((cut.stage for cut in cuts), default=0)


def _sequence(
    part: Area, wanted: Sequence[Area], axis: Axis, stage: int, longest: float
) -> list[_Stroke] | None:
    """Return the strokes that free `wanted` from the part, cutting on `axis` first; None when they cannot."""
    other: Axis = "y" if axis == "x" else "x"
    groups = _groups(wanted, axis)
    strokes = _strokes(part, groups, axis, other, stage)
    if strokes and part.high(other) - part.low(other) > longest + TOLERANCE_MM:
        return None
    if not strokes and len(groups) == 1:
        return [] if len(wanted) == 1 and _same(part, wanted[0], other) else None
    inner: list[_Stroke] = []
    for low, high, members in groups:
        slab = part.between(axis, low, high)
        if len(members) == 1 and _same(slab, members[0], other):
            continue
        below = _sequence(slab, members, other, stage + 1, longest)
        if below is None:
            return None
        inner += below
    return strokes + inner


def _strokes(
    part: Area, groups: Sequence[tuple[float, float, list[Area]]], axis: Axis, other: Axis, stage: int
) -> list[_Stroke]:
    strokes: list[_Stroke] = []
    edge = part.low(axis)
    for low, high, _ in groups:
        for at in (low, high):
            if at - edge > TOLERANCE_MM and part.high(axis) - at > TOLERANCE_MM:
                strokes.append(_Stroke(stage, axis, at, part.low(other), part.high(other)))
                edge = at
    return strokes


def _same(part: Area, wanted: Area, axis: Axis) -> bool:
    return (
        wanted.low(axis) - part.low(axis) <= TOLERANCE_MM
        and part.high(axis) - wanted.high(axis) <= TOLERANCE_MM
    )


def _groups(wanted: Sequence[Area], axis: Axis) -> list[tuple[float, float, list[Area]]]:
    """Return the rectangles grouped so that the groups' extents on the axis do not overlap, in order."""
    groups: list[tuple[float, float, list[Area]]] = []
    for one in sorted(wanted, key=lambda area: (area.low(axis), area.high(axis))):
        low, high = one.low(axis), one.high(axis)
        if groups and low < groups[-1][1] - TOLERANCE_MM:
            start, end, members = groups[-1]
            groups[-1] = (start, max(end, high), [*members, one])
        else:
            groups.append((low, high, [one]))
    return groups
