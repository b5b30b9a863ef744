"""Which plates hold a cone blank, against a polygon library's minimum rotated rectangle."""

from __future__ import annotations

from itertools import pairwise
from math import cos, dist, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from shapely.affinity import rotate

from quoting.blanks.sector_fits import box_at, sector_fits
from quoting.core import Sector

sectors = st.builds(
    lambda outer, share, angle: Sector(outer, outer * share, angle),
    st.floats(100, 10000),
    st.floats(0, 0.98),
    st.floats(1, 359),
)


def polygon(sector: Sector, steps: int = 720) -> Polygon:
    half = radians(sector.angle_deg) / 2
    angles = [-half + 2 * half * step / steps for step in range(steps + 1)]
    outer = [(sector.outer_radius_mm * cos(a), sector.outer_radius_mm * sin(a)) for a in angles]
    inner = [(sector.inner_radius_mm * cos(a), sector.inner_radius_mm * sin(a)) for a in reversed(angles)]
    return Polygon(outer + inner)


@settings(max_examples=60)
@given(sectors, st.floats(0, 45))
def test_box_is_the_exact_extent_in_its_direction(sector: Sector, turn: float) -> None:
    left, low, right, high = rotate(polygon(sector), -turn, origin=(0, 0)).bounds
    along, across = box_at(sector, radians(turn))
    assert along == pytest.approx(right - left, rel=1e-4)
    assert across == pytest.approx(high - low, rel=1e-4)


@settings(max_examples=60)
@given(sectors)
def test_a_plate_of_the_least_rectangle_holds_it_and_a_smaller_one_does_not(sector: Sector) -> None:
    corners = polygon(sector).minimum_rotated_rectangle.exterior.coords
    sides = [dist(a, b) for a, b in pairwise(corners)][:2]
    # the polygon's chords lie inside the arc by less than 1e-4, the orientation is tried to half a degree
    assert sector_fits(sector, sides[0] * 1.01, sides[1] * 1.01)
    assert not sector_fits(sector, sides[0] * 0.99, sides[1])


def test_fit_does_not_ask_which_way_the_plate_lies() -> None:
    flat = Sector(1000, 400, 180)
    assert sector_fits(flat, 1001, 2001)
    assert sector_fits(flat, 2001, 1001)
    assert not sector_fits(flat, 999, 1999)
