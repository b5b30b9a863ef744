"""Flat outlines of blanks: rectangles, and annular sectors for cones."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, inf, pi, radians, sin
from typing import TypeAlias

from quoting.core.errors import RangeError


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangular blank: `width_mm` lies across the roll, `length_mm` round the girth.

    On a plate, unturned, its length lies along the plate's length.
    """

    width_mm: float
    length_mm: float

    def __post_init__(self) -> None:
        positive("rectangle", width_mm=self.width_mm, length_mm=self.length_mm)

    @property
    def area_mm2(self) -> float:
        """Return the area in mm2."""
        return self.width_mm * self.length_mm

    @property
    def perimeter_mm(self) -> float:
        """Return the length of the outline in mm."""
        return 2 * (self.width_mm + self.length_mm)

    def box(self) -> tuple[float, float]:
        """Return the extents along x and y in mm of the unturned piece."""
        return self.length_mm, self.width_mm


@dataclass(frozen=True, slots=True)
class Sector:
    """A sector of a ring, the flat of a concentric cone frustum.

    On a plate, unturned, its axis of symmetry lies along the plate's length.

    The sector spans -angle/2 .. +angle/2 about +x, seen from its apex.

    >>> [round(extent, 3) for extent in Sector(2000, 1000, 60).box()]
    [1133.975, 2000.0]
    """

    outer_radius_mm: float
    inner_radius_mm: float
    angle_deg: float

    def __post_init__(self) -> None:
        positive("sector", outer_radius_mm=self.outer_radius_mm)
        if not 0 <= self.inner_radius_mm < self.outer_radius_mm:
            raise RangeError(
                "sector inner_radius_mm",
                self.inner_radius_mm,
                f"0 or more and less than the outer, {self.outer_radius_mm}",
            )
        if not 0 < self.angle_deg < 360:
            raise RangeError("sector angle_deg", self.angle_deg, "more than 0 and less than 360 degrees")

    @property
    def area_mm2(self) -> float:
        """Return the area in mm2."""
        return radians(self.angle_deg) / 2 * (self.outer_radius_mm**2 - self.inner_radius_mm**2)

    @property
    def perimeter_mm(self) -> float:
        """Return the length of the outline in mm: two arcs and two straight edges."""
        arcs = radians(self.angle_deg) * (self.outer_radius_mm + self.inner_radius_mm)
        return arcs + 2 * (self.outer_radius_mm - self.inner_radius_mm)

    def box(self) -> tuple[float, float]:
        """Return the exact extents along x and y in mm of the unturned piece."""
        half = radians(self.angle_deg) / 2
        low = min(self.inner_radius_mm * cos(half), self.outer_radius_mm * cos(half))
        high = self.outer_radius_mm if half >= pi / 2 else self.outer_radius_mm * sin(half)
        return self.outer_radius_mm - low, 2 * high


Outline: TypeAlias = Rectangle | Sector


def positive(what: str, **values: float) -> None:
    """Raise RangeError unless every named size of a thing is above 0 and finite."""
    for name, value in values.items():
        if not 0 < value < inf:
            raise RangeError(f"{what} {name}", value, "more than 0")
