"""True shapes for the checker: a polygon that contains the piece, arcs at most `SAGITTA_MM` off."""

from __future__ import annotations

from math import acos, ceil, cos, radians, sin
from typing import Any

from quoting.core import Rectangle, Sector
from quoting.nesting.nest_result import Placement

SAGITTA_MM = 0.01


def polygon(outline: Rectangle | Sector, put: Placement) -> Any:
    """Return a placed piece as a shapely polygon, mm on the plate."""
    from shapely.geometry import Polygon, box  # noqa: PLC0415 - heavy

    if isinstance(outline, Rectangle):
        return box(put.x_mm, put.y_mm, put.x_mm + put.dx_mm, put.y_mm + put.dy_mm)
    points = sector_points(outline, put.angle_deg)
    left, low = min(x for x, _ in points), min(y for _, y in points)
    return Polygon([(x - left + put.x_mm, y - low + put.y_mm) for x, y in points])


def sector_points(sector: Sector, angle_deg: float) -> list[tuple[float, float]]:
    """Return a polygon that contains the sector turned by the angle, its apex at the origin, mm."""
    half, middle = radians(sector.angle_deg) / 2, radians(angle_deg)
    step = 2 * acos(1 - SAGITTA_MM / sector.outer_radius_mm)
    n = max(8, 4 * ceil(2 * half / step / 4))
    angles = [middle - half + 2 * half * k / n for k in range(n + 1)]
    outer = sector.outer_radius_mm / cos(half / n)
    points = [(sector.outer_radius_mm * cos(angles[0]), sector.outer_radius_mm * sin(angles[0]))]
    points += [(outer * cos(a + half / n), outer * sin(a + half / n)) for a in angles[:-1]]
    points.append((sector.outer_radius_mm * cos(angles[-1]), sector.outer_radius_mm * sin(angles[-1])))
    inner = sector.inner_radius_mm
    return points + [(inner * cos(a), inner * sin(a)) for a in reversed(angles)]
