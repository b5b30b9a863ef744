"""The smallest rectangle round an annular sector: what a cone blank asks of a plate."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, pi, radians

from quoting.core import Sector

SCAN_STEPS = 90
"""Orientations tried between 0 and 45 degrees; the best one is refined afterwards."""


@dataclass(frozen=True, slots=True)
class SectorBounds:
    """A rectangle round a sector. `turn_deg` is its turn from the sector's line of symmetry."""

    width_mm: float
    length_mm: float
    turn_deg: float

    @property
    def area_mm2(self) -> float:
        """Return the area in mm2."""
        return self.width_mm * self.length_mm


def sector_bounds(sector: Sector) -> SectorBounds:
    """Return the rectangle of least area round the sector, width <= length, in mm.

    Every rectangle tried encloses the sector exactly; the orientation is found by a scan of half a degree and
    a golden-section refinement, so the area may be a hair above the least, never below what is needed.

    >>> bounds = sector_bounds(Sector(200.0, 100.0, 180.0))
    >>> round(bounds.width_mm, 6), round(bounds.length_mm, 6)
    (200.0, 400.0)
    """
    step = pi / 4 / SCAN_STEPS
    best = min(_orientations(sector), key=lambda turn: _area(sector, turn))
    low, high = max(0.0, best - step), min(pi / 4, best + step)
    refined = _golden(sector, low, high)
    turn = min((best, refined), key=lambda angle: _area(sector, angle))
    width, length = sorted(box_at(sector, turn))
    return SectorBounds(width, length, turn * 180 / pi)


def sector_fits(sector: Sector, width_mm: float, length_mm: float) -> bool:
    """Return whether a plate of this size holds the sector in some orientation (to half a degree)."""
    small, large = sorted((width_mm, length_mm))
    if sector.area_mm2 > small * large:
        return False
    for turn in _orientations(sector):
        across, along = box_at(sector, turn)
        if min(across, along) <= small and max(across, along) <= large:
            return True
    return False


def box_at(sector: Sector, turn: float) -> tuple[float, float]:
    """Return the extents in mm along and across a direction `turn` radians from the line of symmetry.

    The sector's mirror symmetry makes 0 to pi/4 cover every orientation of a rectangle.
    """
    along = _reach(sector, turn) + _reach(sector, turn + pi)
    across = _reach(sector, turn + pi / 2) + _reach(sector, turn - pi / 2)
    return along, across


def _reach(sector: Sector, direction: float) -> float:
    """Return how far the sector reaches from its centre in a direction: the arc, or the nearest corner."""
    half = radians(sector.angle_deg) / 2
    off = abs((direction + pi) % (2 * pi) - pi)
    if off <= half:
        return sector.outer_radius_mm
    lean = cos(off - half)
    return lean * (sector.outer_radius_mm if lean >= 0 else sector.inner_radius_mm)


def _orientations(sector: Sector) -> Iterator[float]:
    """Yield the orientations worth trying: an even scan and the one flush with a straight edge."""
    for index in range(SCAN_STEPS + 1):
        yield index * pi / 4 / SCAN_STEPS
    flush = (radians(sector.angle_deg) / 2) % (pi / 2)
    yield min(flush, pi / 2 - flush)


def _area(sector: Sector, turn: float) -> float:
    along, across = box_at(sector, turn)
    return along * across


def _golden(sector: Sector, low: float, high: float) -> float:
    shrink = (5**0.5 - 1) / 2
    left, right = high - shrink * (high - low), low + shrink * (high - low)
    for _ in range(40):
        if _area(sector, left) < _area(sector, right):
            high, right = right, left
            left = high - shrink * (high - low)
        else:
            low, left = left, right
            right = low + shrink * (high - low)
    return (low + high) / 2
