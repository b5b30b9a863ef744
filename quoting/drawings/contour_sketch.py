"""The expected contour of a finished shell beside the true circle, its departures drawn larger."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, hypot, pi, sin

from quoting.drawings.sketch import QUIET, Item, Pen, Sketch, Words, open_line

Point = tuple[float, float]
_SHOWN = 0.16
"""The largest departure is drawn as this share of the radius."""
_SIZE_MM, _RADIUS_MM = 74.0, 27.0
_PENS = (Pen(0.45), Pen(0.35, QUIET, dash=(2.2, 1.0)))
_TEXT_MM = 2.7


def contour_sketch(
    contours: Sequence[tuple[str, Sequence[Point]]], mean_radius_mm: float, title: str
) -> Sketch:
    """Return the circle as a thin line and each contour, named below; the seam is at the bottom.

    Contours are points in mm round the middle, the seam first. All are drawn with one factor, which is said.
    """
    worst = max(abs(hypot(x, y) - mean_radius_mm) for _, points in contours for x, y in points)
    factor = max(1.0, _SHOWN * mean_radius_mm / worst) if worst > 0 else 1.0
    middle = (_SIZE_MM / 2, _SIZE_MM / 2 + 9)
    circle = [(mean_radius_mm * cos(k * pi / 90), mean_radius_mm * sin(k * pi / 90)) for k in range(181)]
    items: list[Item] = [open_line(*_placed(circle, mean_radius_mm, 1.0, middle, 0.0), pen=Pen(0.15, QUIET))]
    for (name, points), pen, row in zip(contours, _PENS, (6.4, 2.6), strict=False):
        turn = -pi / 2 - atan2(points[0][1], points[0][0])
        items.append(open_line(*_placed([*points, points[0]], mean_radius_mm, factor, middle, turn), pen=pen))
        items.append(open_line((2, row + 1), (9, row + 1), pen=pen))
        items.append(Words(11, row, name, _TEXT_MM))
    low = middle[1] - _RADIUS_MM * (1 + _SHOWN) - 3.2
    items.append(Words(middle[0], low, "seam", _TEXT_MM, "middle"))
    items.append(Words(middle[0], middle[1], f"departures x {factor:.0f}", _TEXT_MM, "middle", ink=QUIET))
    return Sketch(0, 0, _SIZE_MM, _SIZE_MM + 11, 1.0, tuple(items), title)


def _placed(points: Sequence[Point], radius: float, factor: float, middle: Point, turn: float) -> list[Point]:
    """Return points on paper, their departure from the circle multiplied."""
    placed = []
    for x, y in points:
        angle = atan2(y, x) + turn
        paper = _RADIUS_MM * (1 + factor * (hypot(x, y) - radius) / radius)
        placed.append((middle[0] + paper * cos(angle), middle[1] + paper * sin(angle)))
    return placed
