"""The contour of a shell with flats at its seam."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import RangeError
from quoting.forming.plate.contour import scatter_out_of_round, shell_contour


@given(st.floats(200, 4000), st.floats(0, 0.1), st.floats(0, 0.1))
def test_the_ends_meet_whatever_the_flats(diameter: float, lead: float, tail: float) -> None:
    shell = shell_contour(diameter, lead * diameter, tail * diameter)
    gap = np.hypot(shell.x_mm[0] - shell.x_mm[-1], shell.y_mm[0] - shell.y_mm[-1])
    assert gap < 3 * pi * diameter / len(shell.x_mm)
    assert shell.out_of_round_mm >= -1e-9


@pytest.mark.parametrize(("diameter", "flat"), [(600, 12), (600, 30), (1200, 20), (2500, 60)])
def test_equal_flats_stand_up_as_a_peak(diameter: float, flat: float) -> None:
    """Two tangents of length a from a circle meet at R / cos(d) with tan d = a / R: a peak of about a^2 / 2R
    over the circle, and the opposite flat side counts nothing."""
    radius = (pi * diameter - 2 * flat) / (2 * (pi - flat / (diameter / 2)))
    assert radius == pytest.approx(diameter / 2, rel=1e-9)
    peak = radius * ((1 + (flat / radius) ** 2) ** 0.5 - 1)
    assert shell_contour(diameter, flat, flat).out_of_round_mm == pytest.approx(peak, rel=0.06)


def test_longer_flats_are_further_out_of_round() -> None:
    found = [shell_contour(1000, flat, 20).out_of_round_mm for flat in (20, 60, 120, 200)]
    assert found == sorted(found)


def test_an_oval_of_second_order() -> None:
    """Curvature 1/R (1 + e cos 2a) integrated as it is: widths differ by 4 e R / 3."""
    share, scatter, diameter = 0.25, 0.04, 1000.0
    angle = np.linspace(0, 2 * pi, 20001)
    curvature = 2 / diameter * (1 + share * scatter * np.cos(2 * angle))
    step = diameter / 2 * (angle[1] - angle[0])
    slope = np.cumsum(curvature) * step
    x, y = np.cumsum(np.cos(slope)) * step, np.cumsum(np.sin(slope)) * step
    turns = np.linspace(0, pi, 181)
    across = np.outer(np.cos(turns), x) + np.outer(np.sin(turns), y)
    widths = across.max(axis=1) - across.min(axis=1)
    expected = scatter_out_of_round(diameter, share, scatter)
    assert widths.max() - widths.min() == pytest.approx(expected, rel=0.02)


def test_flats_that_leave_nothing_to_bend_are_refused() -> None:
    with pytest.raises(RangeError, match="flats"):
        shell_contour(100, 100, 100)
