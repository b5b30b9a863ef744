"""Whether a plate holds an annular sector, however it lies: what a cone blank asks of a plate."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, radians

from quoting.core import Sector

SCAN_STEPS = 90
"""Orientations tried between 0 and 45 degrees."""


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
