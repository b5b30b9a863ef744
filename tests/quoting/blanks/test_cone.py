"""The mean surface of a cone with edges square to the wall."""

from __future__ import annotations

from math import atan2, cos, hypot, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.blanks import cone_form
from quoting.blanks.cone import cone_sector, overall_height
from quoting.core import Basis, Cone, RangeError


@st.composite
def cones(draw: st.DrawFn) -> tuple[Cone, float]:
    large = draw(st.floats(200, 4000))
    small = large * draw(st.floats(0.2, 0.99))
    height = draw(st.floats(20, 3000))
    return Cone(large, small, draw(st.sampled_from(Basis)), height), draw(st.floats(1, 15))


@given(cones())
def test_middle_of_the_wall_is_half_a_thickness_from_the_measured_face(case: tuple[Cone, float]) -> None:
    cone, thickness = case
    form = cone_form(cone, thickness)
    lean = atan2((cone.large_mm - cone.small_mm) / 2, cone.height_mm)
    # Step from the measured corner half a thickness along the wall's normal: where is the middle?
    out = {Basis.INSIDE: 1, Basis.MEAN: 0, Basis.OUTSIDE: -1}[cone.basis] * thickness / 2
    assert form.large_mm / 2 == pytest.approx(cone.large_mm / 2 + out * cos(lean))
    assert form.small_mm / 2 == pytest.approx(cone.small_mm / 2 + out * cos(lean))
    assert form.slant_mm == pytest.approx(hypot(cone.height_mm, (cone.large_mm - cone.small_mm) / 2))


@given(cones())
def test_flat_edges_are_as_long_as_the_rolled_circles(case: tuple[Cone, float]) -> None:
    form = cone_form(*case)
    flat = cone_sector(form)
    assert flat.outer_radius_mm * flat.angle_deg / 360 == pytest.approx(form.large_mm / 2)
    assert flat.inner_radius_mm * flat.angle_deg / 360 == pytest.approx(form.small_mm / 2, rel=1e-6)
    assert 0 < flat.angle_deg < 360


def test_overall_height_adds_the_leaning_edge() -> None:
    cone = Cone(1000, 600, Basis.INSIDE, 900)
    form = cone_form(cone, 20)
    assert overall_height(form, 20) == pytest.approx(900 + 20 * sin(atan2(200, 900)))


def test_small_end_needs_an_inside() -> None:
    with pytest.raises(RangeError, match="cone small diameter = 30 mm"):
        cone_form(Cone(300, 30, Basis.OUTSIDE, 500), 20)
