"""The shear's strokes as the operator does them: which part is in hand, where the stop stands, what falls."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quoting.core import MM_PER_INCH, format_length
from quoting.nesting import CutPlate, NestPlate, ShearCut

_NEAR_MM = 0.2
"""Parts are told apart to this; the nest cuts to 0.05 mm."""


@dataclass(frozen=True, slots=True)
class Part:
    """A rectangle of the plate by its low and high corner, mm; x runs along the grain."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def size(self) -> tuple[float, float]:
        """Return the sides in mm across and along the grain."""
        return self.y1 - self.y0, self.x1 - self.x0

    def split(self, axis: str, at: float) -> tuple[Part, Part]:
        """Return the low and the high part of a cut across the axis."""
        if axis == "x":
            return Part(self.x0, self.y0, at, self.y1), Part(at, self.y0, self.x1, self.y1)
        return Part(self.x0, self.y0, self.x1, at), Part(self.x0, at, self.x1, self.y1)

    def holds(self, other: Part) -> bool:
        """Return whether another rectangle lies inside this one."""
        return (
            self.x0 - other.x0 <= _NEAR_MM
            and self.y0 - other.y0 <= _NEAR_MM
            and other.x1 - self.x1 <= _NEAR_MM
            and other.y1 - self.y1 <= _NEAR_MM
        )

    def same(self, other: Part) -> bool:
        """Return whether another rectangle is this one."""
        return self.holds(other) and other.holds(self)


@dataclass(frozen=True, slots=True)
class Stroke:
    """One stroke: `part` is in hand, the stop stands `stop_mm` from its low edge, `off` falls, `rest` stays.

    The low edge is the one nearer to the corner that the drawing counts from. `off` and `rest` are words: the
    name of a piece or drop, `scrap`, or how many pieces are still in it.
    """

    cut: ShearCut
    part: Part
    stop_mm: float
    off: str
    rest: str

    def stop_words(self, *, inch: bool) -> str:
        """Return the stop as the scale on the shear is read: to a 64th of an inch, in mm as any length."""
        step = MM_PER_INCH / 64
        return format_length(round(self.stop_mm / step) * step if inch else round(self.stop_mm, 2), inch=inch)


def strokes(
    plate: NestPlate, cut: CutPlate, names: Mapping[str, str], drops: Sequence[str]
) -> tuple[Stroke, ...]:
    """Return the strokes of a sheared plate in their order. Raises ValueError when one cuts no part in hand.

    `names` gives the pieces' names by id, `drops` the names of the plate's drops in their order.
    """
    wanted = [
        (Part(p.x_mm, p.y_mm, p.x_mm + p.dx_mm, p.y_mm + p.dy_mm), names[p.piece]) for p in cut.placements
    ]
    wanted += [
        (Part(d.x_mm, d.y_mm, d.x_mm + d.dx_mm, d.y_mm + d.dy_mm), name)
        for d, name in zip(cut.drops, drops, strict=True)
    ]
    parts = [Part(0.0, 0.0, plate.length_mm, plate.width_mm)]
    done = []
    for stroke in cut.cuts:
        part = _in_hand(parts, stroke)
        low, high = part.split(stroke.axis, stroke.at_mm)
        parts[parts.index(part) : parts.index(part) + 1] = [low, high]
        stop = stroke.at_mm - (part.x0 if stroke.axis == "x" else part.y0)
        done.append(Stroke(stroke, part, stop, _words(low, wanted), _words(high, wanted)))
    return tuple(done)


def _in_hand(parts: Sequence[Part], cut: ShearCut) -> Part:
    for part in parts:
        along = (part.x0, part.x1) if cut.axis == "x" else (part.y0, part.y1)
        across = (part.y0, part.y1) if cut.axis == "x" else (part.x0, part.x1)
        if (
            along[0] < cut.at_mm < along[1]
            and abs(across[0] - cut.start_mm) <= _NEAR_MM
            and abs(across[1] - cut.end_mm) <= _NEAR_MM
        ):
            return part
    raise ValueError(f"stroke {cut.number} goes through no part in hand")


def _words(part: Part, wanted: Sequence[tuple[Part, str]]) -> str:
    inside = [(other, name) for other, name in wanted if part.holds(other)]
    if not inside:
        return "scrap"
    if len(inside) == 1 and part.same(inside[0][0]):
        return inside[0][1]
    return f"part with {inside[0][1]}" if len(inside) == 1 else f"part with {len(inside)} of these"
