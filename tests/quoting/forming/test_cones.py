from __future__ import annotations

from dataclasses import replace
from math import cos, pi, radians, sin, tan

import numpy as np
import pytest

from quoting.blanks import ConeForm
from quoting.core import RangeError
from quoting.forming import cone_segments
from quoting.forming.machine import cone_setting, nip_of
from quoting.forming.plate import plate_law
from quoting.forming.task import half_apex_rad
from tests.quoting.forming.shop import RULES, assess, job, light_roll

THIRTY = ConeForm(large_mm=600, small_mm=400, height_mm=100 / tan(radians(30)), slant_mm=200)


def test_curvature_across_the_straight_line_is_that_of_the_cone() -> None:
    """A plane square to the straight line cuts the cone in a conic of that radius; by differences."""
    apex = radians(30)
    radius = 200.0
    # Points of the cone in a frame whose z axis is the straight line at angle 0.
    turn = np.array([-1e-4, 0.0, 1e-4])
    normal = (cos(apex) * np.cos(turn) - cos(apex)) * radius
    sideways = np.sin(turn) * radius
    curvature = -(normal[0] - 2 * normal[1] + normal[2]) / (sideways[2] - sideways[1]) ** 2
    found = cone_setting(THIRTY, plate_law(4.0, 200.0, 200e3, 0.3, 300), None, 8.0, 0.4)
    assert 1 / found.radius_small_mm == pytest.approx(curvature, rel=1e-6)


def test_settings_of_a_cone() -> None:
    nip = nip_of(light_roll())
    found = cone_setting(THIRTY, plate_law(4.0, 200.0, 200e3, 0.3, 300), nip, 8.0, 0.4)
    assert found.half_apex_deg == pytest.approx(30)
    assert found.speed_mismatch == pytest.approx(1 / 3)
    assert found.slip_mm == pytest.approx(pi * 200)
    assert found.segments == 1
    assert found.lift_small_mm is not None
    assert found.lift_large_mm is not None
    assert found.tilt_mm_per_m == pytest.approx((found.lift_small_mm - found.lift_large_mm) * 5)
    assert found.radius_large_mm * sin(radians(60)) == pytest.approx(300)


@pytest.mark.parametrize(("small", "pieces"), [(240, 1), (239, 2), (120, 2), (1, 2)])
def test_steep_cones_are_split(small: float, pieces: int) -> None:
    assert cone_segments(ConeForm(600, small, 300, 400), 0.4) == pieces


def test_a_segment_is_not_split_again() -> None:
    assert cone_segments(ConeForm(600, 60, 300, 405), 0.4, arc_deg=180) == 1


def test_a_roll_that_does_not_do_cones_says_so() -> None:
    task = replace(job(4.0, 200, 396), cone=THIRTY)
    refused = assess(task, light_roll(cones=False), RULES)
    assert not refused.ok
    assert refused.limit == "cones"
    assert assess(task, light_roll(), RULES).ok


def test_a_cone_without_slant_is_refused() -> None:
    with pytest.raises(RangeError, match="cone slant_mm = 90"):
        half_apex_rad(ConeForm(600, 400, 0.0, 90))
