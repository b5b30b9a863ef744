"""Weight of a blank against published plate weights.

1. A plate seller's page on 3/4 in carbon steel plate (name withheld): 0.75 x 144 in3 x 0.2836 lb/in3 =
30.6288,
   "rounded to 30.63 lbs/sq ft".
2. Sheet metal gauge page (offroaders.com): sheet steel by weight, 41.82 lb/ft2 per inch of thickness; 10
gauge
   0.1345 in = 5.625 lb/ft2.
"""

from __future__ import annotations

from math import pi

import pytest

from quoting.blanks import develop
from quoting.core import Basis, Cylinder, Ends

INCH = 25.4
LB = 0.45359237


def pounds_per_square_foot(thickness_in: float, density_lb_in3: float) -> float:
    """Return the weight of a shell whose mean girth and length are 3 ft and 4 ft, for each square foot."""
    density = density_lb_in3 * LB / (INCH / 1000) ** 3
    shell = Cylinder(36 * INCH / pi, Basis.MEAN, 48 * INCH)
    plan = develop(shell, thickness_in * INCH, density, ends=Ends.LEAVE_FLAT)
    return plan.part_weight_kg / LB / 12


def test_three_quarter_inch_plate() -> None:
    assert pounds_per_square_foot(0.75, 0.2836) == pytest.approx(30.6288, abs=5e-5)  # source 1
    steel = pounds_per_square_foot(0.75, 7850 * (INCH / 1000) ** 3 / LB)
    assert round(steel, 2) == 30.63  # source 1, with 7,850 kg/m3


def test_ten_gauge_sheet_by_its_weight() -> None:
    assert pounds_per_square_foot(0.1345, 41.82 / 144) == pytest.approx(5.625, abs=5e-4)  # source 2
