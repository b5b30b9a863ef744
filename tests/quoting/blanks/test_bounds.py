"""The rectangle round a cone blank, against a polygon library's minimum rotated rectangle."""

from __future__ import annotations

from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from shapely.affinity import rotate

from quoting.blanks.sector_bounds import box_at, sector_bounds, sector_fits
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
@given(sectors)
def test_no_rectangle_is_smaller_by_more_than_the_polygon_error(sector: Sector) -> None:
    least = polygon(sector).minimum_rotated_rectangle.area
    found = sector_bounds(sector)
    assert found.width_mm <= found.length_mm
    assert found.area_mm2 >= least * (1 - 1e-9)
    assert found.area_mm2 <= least * (1 + 1e-4)


@settings(max_examples=60)
@given(sectors, st.floats(0, 45))
def test_box_is_the_exact_extent_in_its_direction(sector: Sector, turn: float) -> None:
    left, low, right, high = rotate(polygon(sector), -turn, origin=(0, 0)).bounds
    along, across = box_at(sector, radians(turn))
    assert along == pytest.approx(right - left, rel=1e-4)
    assert across == pytest.approx(high - low, rel=1e-4)


@settings(max_examples=60)
@given(sectors)
def test_a_plate_of_the_bounds_holds_it_and_a_smaller_one_does_not(sector: Sector) -> None:
    found = sector_bounds(sector)
    assert sector_fits(sector, found.width_mm * 1.001, found.length_mm * 1.001)
    assert not sector_fits(sector, sector.area_mm2 / found.length_mm * 0.999, found.length_mm)


def test_half_ring_lies_best_square_to_its_chord() -> None:
    bounds = sector_bounds(Sector(1000, 400, 180))
    assert bounds.width_mm == pytest.approx(1000)
    assert bounds.length_mm == pytest.approx(2000)


def test_fit_does_not_ask_which_way_the_plate_lies() -> None:
    flat = Sector(1000, 400, 180)
    assert sector_fits(flat, 1001, 2001)
    assert sector_fits(flat, 2001, 1001)
    assert not sector_fits(flat, 999, 1999)
