from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import RangeError
from quoting.forming.machine import (
    beam_deflection,
    beam_moment,
    couple_arm,
    drive_power,
    drive_torque,
    lightest_pinch,
    plastic_work,
)
from quoting.forming.machine.load import flat_share
from quoting.forming.plate import final_curvature, moment, plate_law
from quoting.forming.plate.bending import yield_curvature

MILD = plate_law(6.35, 1524, 200e3, 0.3, 250)


def test_nothing_stays_in_the_plate_of_an_elastic_bend() -> None:
    assert float(plastic_work(MILD, 0.9 * yield_curvature(MILD))) == pytest.approx(0, abs=1e-12)


def test_work_of_a_hard_bend_nears_plastic_moment_times_final_curvature() -> None:
    k = 200 * yield_curvature(MILD)
    assert float(plastic_work(MILD, k)) == pytest.approx(
        float(moment(MILD, k) * final_curvature(MILD, k)), rel=0.01
    )


@given(st.floats(1.1, 10), st.floats(1.1, 5))
def test_passes_share_the_work(first: float, more: float) -> None:
    k1 = first * yield_curvature(MILD)
    k2 = k1 * more
    parts = plastic_work(MILD, k1) + plastic_work(MILD, k2, k1)
    assert float(parts) == pytest.approx(float(plastic_work(MILD, k2)), rel=1e-9)


def test_flat_is_the_couple_arm_less_what_the_rising_moment_bends() -> None:
    """The share follows from the angle missing on an end held at the pinch roll; here step by step."""
    k_i = 8 * float(yield_curvature(MILD))
    top = float(moment(MILD, k_i))
    curvatures = np.linspace(1e-9, k_i, 200_001)
    moments = moment(MILD, curvatures)
    residual = final_curvature(MILD, curvatures)
    angle = float(np.trapezoid(residual, moments / top))
    assert float(flat_share(MILD, k_i)) == pytest.approx(
        1 - angle / float(final_curvature(MILD, k_i)), rel=1e-6
    )
    assert float(couple_arm(MILD, k_i, 12.7)) == pytest.approx(12.7 / float(flat_share(MILD, k_i)))


def test_lightest_pinch_falls_with_friction_and_with_the_bending_force() -> None:
    assert float(lightest_pinch(10, 20, 0.2)) < float(lightest_pinch(10, 20, 0.1))
    assert float(lightest_pinch(10, 60, 0.1)) < float(lightest_pinch(10, 20, 0.1))
    assert float(lightest_pinch(1, 60, 0.3)) == 0


def test_torque_and_power_belong_together() -> None:
    pull, top_roll, speed = 50_000.0, 280.0, 4572.0
    turns_per_second = speed / (np.pi * top_roll) / 60
    watt = float(drive_torque(pull, top_roll)) / 1000 * 2 * np.pi * turns_per_second
    assert float(drive_power(pull, speed)) == pytest.approx(watt / 1000)


def test_a_narrow_load_bends_a_roll_more_than_a_wide_one() -> None:
    assert float(beam_moment(1000, 2000, 0)) == 2 * float(beam_moment(1000, 2000, 2000))
    assert float(beam_deflection(1000, 2000, 0, 200)[0]) > float(beam_deflection(1000, 2000, 2000, 200)[0])


def test_impossible_loads_are_named() -> None:
    with pytest.raises(RangeError, match=r"plate width \(mm\) = 2100 is out of range: 0 up to the span"):
        beam_deflection(1000, 2000, 2100, 200)
    with pytest.raises(RangeError, match="friction = 0 is out of range"):
        lightest_pinch(10, 10, 0)
    with pytest.raises(RangeError, match="flat after pre-bend"):
        couple_arm(MILD, 0.004, 0.0)
