"""Beam deflection tables on http://www.civilengcalculations.com/jmm/beam02.html and .../beam06.html (read).

Simply supported, point load F at a: deflection there F a^2 (L - a)^2 / (3 E I L). Uniform load w over the
span: largest deflection 5 w L^4 / (384 E I). A load over part of the span must lie between the two; its
value is checked against the printed influence of point loads (Maxwell: deflection at midspan of a load at x
equals that at x of a load at midspan).
"""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from quoting.forming.machine import beam_deflection
from quoting.forming.machine.load import ROLL_STEEL_MPA
from quoting.forming.range_checks import Floats, floats
from tests.published.forming_check import PublishedCheck

SOURCE = "Beam tables, civilengcalculations.com beam02 and beam06"
LOAD, SPAN, ROLL = 50_000.0, 3000.0, 280.0
BEND = ROLL_STEEL_MPA * pi * ROLL**4 / 64


def point_load() -> float:
    """Return F a^2 (L - a)^2 / (3 E I L) at midspan."""
    half = SPAN / 2
    return LOAD * half**4 / (3 * BEND * SPAN)


def influence(x: Floats) -> Floats:
    """Return the deflection at x of a unit load at midspan, x up to midspan: x (3 L^2 - 4 x^2) / (48 E I)."""
    near = np.minimum(x, SPAN - x)
    return floats(near * (3 * SPAN**2 - 4 * near**2) / (48 * BEND))


def spread(width: float) -> float:
    """Return the midspan deflection of a load spread over a width by adding up point loads."""
    x = np.linspace((SPAN - width) / 2, (SPAN + width) / 2, 4001)
    return float(np.trapezoid(influence(x), x)) * LOAD / width


CHECKS = (
    PublishedCheck(
        "point load at midspan",
        point_load(),
        lambda: float(beam_deflection(LOAD, SPAN, 0.0, ROLL)[0]),
        1e-9,
        "mm",
        worked_out=True,
    ),
    PublishedCheck(
        "load over the whole span",
        5 * LOAD * SPAN**3 / (384 * BEND),
        lambda: float(beam_deflection(LOAD, SPAN, SPAN, ROLL)[0]),
        1e-9,
        "mm",
        worked_out=True,
    ),
    PublishedCheck(
        "load over 1524 mm, by adding up",
        spread(1524.0),
        lambda: float(beam_deflection(LOAD, SPAN, 1524.0, ROLL)[0]),
        1e-5,
        "mm",
        worked_out=True,
    ),
)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.what)
def test_print(check: PublishedCheck) -> None:
    check.verify()


def test_the_influence_line_meets_the_printed_point_load() -> None:
    assert float(influence(np.array(SPAN / 2))) * LOAD == pytest.approx(point_load())


def test_the_edge_of_the_plate_sags_as_the_double_integral_says() -> None:
    width = 1524.0
    x = np.linspace(0, SPAN / 2, 40001)
    start = (SPAN - width) / 2
    moment = LOAD / 2 * x - LOAD / width * np.maximum(x - start, 0) ** 2 / 2
    slope = np.concatenate(([0.0], np.cumsum((moment[1:] + moment[:-1]) / 2 * np.diff(x)))) / BEND
    slope = slope[-1] - slope
    sag = np.concatenate(([0.0], np.cumsum((slope[1:] + slope[:-1]) / 2 * np.diff(x))))
    middle, edge = beam_deflection(LOAD, SPAN, width, ROLL)
    assert float(middle) == pytest.approx(sag[-1], rel=1e-6)
    assert float(edge) == pytest.approx(np.interp(start, x, sag), rel=1e-6)
