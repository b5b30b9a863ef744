"""Where the numbers of a shear's strokes stand: on the stroke, over no text and no other number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TypeAlias

from quoting.nesting import ShearCut

Box: TypeAlias = tuple[float, float, float, float]
CIRCLE_MM = 2.3
"""Radius of the circle round a number, on paper."""
_CLEAR_MM, _FIRST_MM, _STEP_MM = 0.2, 6.5, 1.0


def mark_places(
    cuts: Sequence[ShearCut], width_mm: float, n: int, texts: Iterable[Box]
) -> Iterator[tuple[float, float]]:
    """Yield the centre of each stroke's number, in mm of plate with y downwards; the drawing is 1:n.

    It is the first place from the stroke's start that is free; its middle when none is. `texts` are the boxes
    of what is written already, `width_mm` is the plate's width.
    """
    radius = (CIRCLE_MM + _CLEAR_MM) * n
    taken = list(texts)
    for cut in cuts:
        middle = cut.length_mm / 2
        steps = max(int((cut.length_mm - radius - _FIRST_MM * n) / (_STEP_MM * n)), 0)
        offs = [(_FIRST_MM + step * _STEP_MM) * n for step in range(steps)]
        places = [_on(cut, off, width_mm) for off in (*offs, middle)]
        free = (place for place in places if not any(_near(place, radius, box) for box in taken))
        x, y = next(free, places[-1])
        taken.append((x - radius, y - radius, x + radius, y + radius))
        yield x, y


def _on(cut: ShearCut, off: float, width_mm: float) -> tuple[float, float]:
    """Return the point on a stroke so far from its start."""
    if cut.axis == "x":
        return cut.at_mm, width_mm - cut.start_mm - off
    return cut.start_mm + off, width_mm - cut.at_mm


def _near(place: tuple[float, float], radius: float, box: Box) -> bool:
    """Return whether the square round a circle overlaps a box."""
    x, y = place
    return x + radius > box[0] and x - radius < box[2] and y + radius > box[1] and y - radius < box[3]
