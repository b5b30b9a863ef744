"""The length a plate is cut to, on the mean diameter or the moved neutral layer."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.blanks.girth import (
    LEAST_RADIUS_T,
    TIGHT_RADIUS_T,
    developed_girth,
    neutral_diameter,
    neutral_layer_factor,
)
from quoting.core import RangeError

thicknesses = st.floats(0.5, 100)
ratios = st.floats(LEAST_RADIUS_T * 1.01, 400)


@given(thicknesses, ratios, st.floats(1e-6, 50))
def test_girth_grows_with_the_diameter(thickness: float, ratio: float, more: float) -> None:
    mean = thickness * (2 * ratio + 1)
    assert developed_girth(mean + more, thickness) > developed_girth(mean, thickness)


@given(thicknesses, ratios)
def test_neutral_layer_lies_between_the_inner_face_and_the_middle(thickness: float, ratio: float) -> None:
    mean = thickness * (2 * ratio + 1)
    neutral = neutral_diameter(mean, thickness)
    assert mean - thickness < neutral <= mean


@given(thicknesses, st.floats(TIGHT_RADIUS_T * 1.001, 400))
def test_ordinary_plate_work_uses_the_mean_diameter_itself(thickness: float, ratio: float) -> None:
    mean = thickness * (2 * ratio + 1)
    assert neutral_diameter(mean, thickness) == mean


def test_factor_meets_one_at_the_limit() -> None:
    # 0.65 at r = t; 0.9995 at r = 5 t, then 1
    assert neutral_layer_factor(10, 10) == pytest.approx(0.65)
    assert neutral_layer_factor(50, 10) == pytest.approx(0.9995, abs=5e-5)
    assert neutral_layer_factor(50.01, 10) == 1.0


def test_tight_bend_is_cut_shorter_than_on_the_mean_diameter() -> None:
    girth = developed_girth(40, 10)
    assert girth < pi * 40
    assert girth == pytest.approx(pi * (30 + 10 * neutral_layer_factor(15, 10)))


def test_a_wall_thicker_than_the_radius_allows_is_refused() -> None:
    with pytest.raises(RangeError, match="mean diameter = 10 mm is out of range: more than the thickness"):
        developed_girth(10, 12)
    with pytest.raises(RangeError, match="inside radius over thickness"):
        developed_girth(22, 10)
