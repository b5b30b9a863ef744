"""Flat outlines of blanks: rectangles, and annular sectors for cones."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TypeAlias

from quoting.errors import RangeError


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle: `width_mm` lies across the roll, `length_mm` round the girth."""

    width_mm: float
    length_mm: float

    def __post_init__(self) -> None:
        for name in ("width_mm", "length_mm"):
            if not getattr(self, name) > 0:
                raise RangeError(f"blank {name}", getattr(self, name), "more than 0")

    @property
    def area_mm2(self) -> float:
        """Return the area in mm2."""
        return self.width_mm * self.length_mm


@dataclass(frozen=True, slots=True)
class Sector:
    """A sector of a ring: the flat of a concentric cone frustum."""

    outer_radius_mm: float
    inner_radius_mm: float
    angle_deg: float

    def __post_init__(self) -> None:
        if not 0 <= self.inner_radius_mm < self.outer_radius_mm:
            raise RangeError("sector inner radius", self.inner_radius_mm, "0 up to the outer radius")
        if not 0 < self.angle_deg < 360:
            raise RangeError("sector angle", self.angle_deg, "more than 0 and less than 360 degrees")

    @property
    def area_mm2(self) -> float:
        """Return the area in mm2.

        >>> round(Sector(200, 100, 180).area_mm2, 1)
        47123.9
        """
        return pi * (self.outer_radius_mm**2 - self.inner_radius_mm**2) * self.angle_deg / 360


Outline: TypeAlias = Rectangle | Sector
