"""Outlines as closed paths of straight lines and true arcs, for the drawings that a cutting table reads.

An arc is given by its bulge, as in the polylines of DXF: the tangent of a quarter of the angle it turns
through, positive counterclockwise, on the vertex where it begins.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, radians, sin, tan

from quoting.core import Outline, Rectangle
from quoting.nesting import NestPlate, Placement


@dataclass(frozen=True, slots=True)
class Vertex:
    """A corner in mm, and the bulge of the line from here to the next corner (0: straight)."""

    x: float
    y: float
    bulge: float = 0.0


Path = tuple[Vertex, ...]
_QUARTER_TURNS = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}


def blank_path(outline: Outline) -> Path:
    """Return the outline as it lies unturned, the low corner of its box at the origin; counterclockwise.

    >>> [(corner.x, corner.y) for corner in blank_path(Rectangle(width_mm=600, length_mm=900))]
    [(0.0, 0.0), (900.0, 0.0), (900.0, 600.0), (0.0, 600.0)]
    """
    low_x, low_y = _low_corner(outline)
    return tuple(Vertex(v.x - low_x, v.y - low_y, v.bulge) for v in _own_path(outline))


def placed_path(placed: Placement, outline: Outline) -> Path:
    """Return the outline where the nest has put it, in mm on the plate."""
    cosine, sine = _turn(placed.angle_deg)
    turned = tuple(
        Vertex(v.x * cosine - v.y * sine, v.x * sine + v.y * cosine, v.bulge) for v in blank_path(outline)
    )
    dx, dy = outline.box()
    corners = [
        (x * cosine - y * sine, x * sine + y * cosine) for x, y in ((0, 0), (dx, 0), (dx, dy), (0, dy))
    ]
    low_x, low_y = min(x for x, _ in corners), min(y for _, y in corners)
    return tuple(Vertex(v.x - low_x + placed.x_mm, v.y - low_y + placed.y_mm, v.bulge) for v in turned)


def plate_path(plate: NestPlate) -> Path:
    """Return the edge of a plate, its notch left out."""
    length, width = plate.length_mm, plate.width_mm
    if plate.notch is None:
        return box_path(0, 0, length, width)
    x, y = length - plate.notch.length_mm, width - plate.notch.width_mm
    corners = ((0.0, 0.0), (length, 0.0), (length, y), (x, y), (x, width), (0.0, width))
    return tuple(Vertex(*corner) for corner in corners)


def box_path(x: float, y: float, dx: float, dy: float) -> Path:
    """Return a rectangle by its low corner and its extents."""
    return (Vertex(x, y), Vertex(x + dx, y), Vertex(x + dx, y + dy), Vertex(x, y + dy))


def arc_radius(start: Vertex, end: Vertex) -> float:
    """Return the radius in mm of the arc between two corners; the bulge must not be 0.

    >>> round(arc_radius(Vertex(0, 0, 1.0), Vertex(10, 0)), 9)
    5.0
    """
    chord = hypot(end.x - start.x, end.y - start.y)
    return chord * (1 + start.bulge**2) / (4 * abs(start.bulge))


def middle_of(placed: Placement, outline: Outline) -> tuple[float, float]:
    """Return a point well inside the placed piece: its middle, for a sector the middle of its ring."""
    if isinstance(outline, Rectangle):
        return placed.x_mm + placed.dx_mm / 2, placed.y_mm + placed.dy_mm / 2
    ring = (outline.inner_radius_mm + outline.outer_radius_mm) / 2 - _low_corner(outline)[0]
    dx, _ = outline.box()
    cosine, sine = _turn(placed.angle_deg)
    off = ring - dx / 2
    return (
        placed.x_mm + placed.dx_mm / 2 + off * cosine,
        placed.y_mm + placed.dy_mm / 2 + off * sine,
    )


def room_in(placed: Placement, outline: Outline) -> tuple[float, float]:
    """Return extents along x and y in mm about `middle_of` in which a text stays inside the piece."""
    if isinstance(outline, Rectangle):
        return placed.dx_mm, placed.dy_mm
    depth = outline.outer_radius_mm - outline.inner_radius_mm
    middle = (outline.inner_radius_mm + outline.outer_radius_mm) / 2
    half = min(radians(outline.angle_deg) / 2, 1.0)
    across = 2 * middle * sin(half) * 0.8
    return (across, depth * 0.7) if placed.turned else (depth * 0.7, across)


def _own_path(outline: Outline) -> Path:
    """Return the outline about its own origin: a rectangle's corner, a sector's apex."""
    if isinstance(outline, Rectangle):
        return box_path(0, 0, outline.length_mm, outline.width_mm)
    half = radians(outline.angle_deg) / 2
    outer, inner = outline.outer_radius_mm, outline.inner_radius_mm
    # Each arc in two halves: none of them turns through 180 degrees or more, which some programs misread.
    bulge = tan(half / 4)
    x, y = cos(half), sin(half)
    path = (Vertex(outer * x, -outer * y, bulge), Vertex(outer, 0, bulge), Vertex(outer * x, outer * y))
    if inner == 0:
        return (*path, Vertex(0, 0))
    return (
        *path,
        Vertex(inner * x, inner * y, -bulge),
        Vertex(inner, 0, -bulge),
        Vertex(inner * x, -inner * y),
    )


def _low_corner(outline: Outline) -> tuple[float, float]:
    """Return the low corner of the box about the outline's own origin."""
    if isinstance(outline, Rectangle):
        return 0.0, 0.0
    dx, dy = outline.box()
    return outline.outer_radius_mm - dx, -dy / 2


def _turn(angle_deg: float) -> tuple[float, float]:
    """Return cosine and sine, exact for quarter turns."""
    exact = _QUARTER_TURNS.get(int(angle_deg % 360)) if angle_deg % 90 == 0 else None
    return exact or (cos(radians(angle_deg)), sin(radians(angle_deg)))
