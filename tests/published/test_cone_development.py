"""Flat pattern of a cone frustum against published numbers.

1. "The Net of a Frustum", school geometry text (ceemrr.com, Geometry2, DrawingsNets6): ducts of 5 and 8 in
   diameter, 4 in apart: whole cone's small height 6.6667 in, inner radius 7.12 in, outer radius 11.39 in,
   sector angle 126.4 degrees.
2. A blacksmiths' shop-mathematics page on cones (anvilfire.com, 21centbs/math/cones1): the flat of a cone
   with a 90 degree point is a sector of 0.7071 x 360 = 254.6 degrees.
3. "Instructions for constructing a concentric reducer" (hunker.com, 12607093): major diameter 8 in,
   extended cone 12 in high: outer radius of the pattern 12.65 in.
4. E. M. Longfield, Sheet Metal Drafting (1921), section 38: lateral area of a cone is the base
   circumference times half the slant; 5 in base (15.7080 in round) and 12 in slant. Section 43: lateral
   area of a frustum is half the sum of the two circumferences times the slant.
"""

from __future__ import annotations

from math import pi

import pytest

from quoting.blanks import HowCut, cone_form, develop
from quoting.blanks.cone import cone_sector
from quoting.core import Basis, Cone, Ends, Sector


def flat(large: float, small: float, height: float) -> Sector:
    return cone_sector(cone_form(Cone(large, small, Basis.MEAN, height), 0.01))


def test_school_geometry_net_of_a_frustum() -> None:
    sector = flat(8, 5, 4)
    assert round(sector.inner_radius_mm, 2) == 7.12  # source 1
    assert round(sector.outer_radius_mm, 2) == 11.39  # source 1
    assert round(sector.angle_deg, 1) == 126.4  # source 1
    assert (sector.inner_radius_mm**2 - 2.5**2) ** 0.5 == pytest.approx(6.6667, abs=5e-5)  # source 1


@pytest.mark.parametrize("small", [10.0, 40.0, 90.0])
def test_ninety_degree_point(small: float) -> None:
    sector = flat(100.0, small, (100.0 - small) / 2)
    assert round(sector.angle_deg, 1) == 254.6  # source 2


def test_concentric_reducer() -> None:
    assert round(flat(8, 4, 6).outer_radius_mm, 2) == 12.65  # source 3: 8 in at the base of 12 in


def test_area_is_half_the_sum_of_the_circumferences_times_the_slant() -> None:
    large, small, height = 40 / pi, 24 / pi, 9.0
    form = cone_form(Cone(large, small, Basis.MEAN, height), 0.01)
    assert cone_sector(form).area_mm2 == pytest.approx((40 + 24) / 2 * form.slant_mm)  # source 4, section 43


def test_a_cone_cut_close_to_its_point_has_nearly_the_whole_area() -> None:
    height = (12**2 - 2.5**2) ** 0.5
    nearly_whole = flat(5, 0.02, height * (1 - 0.02 / 5))
    assert nearly_whole.area_mm2 == pytest.approx(15.7080 * 12 / 2, rel=1e-4)  # source 4, section 38


def test_part_weight_is_the_mean_area_times_thickness() -> None:
    plan = develop(
        Cone(1200, 800, Basis.MEAN, 500), 10, 7850, ends=Ends.PRE_BEND, how=HowCut(courses=2, seams=3)
    )
    slant = (500**2 + 200**2) ** 0.5
    area = pi * (1200 + 800) / 2 * slant  # source 4, section 43
    assert plan.part_weight_kg == pytest.approx(area * 10 * 7850e-9)
