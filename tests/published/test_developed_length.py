"""Developed length of rolled cylinders against published numbers.

1. A knowledge-base page on re-rolling a pressure-vessel shell (UG-79): 1.0 in (25.4 mm) SA-516-70 plate
   wanted 610 mm inside, rolled to 610 mm outside; blank 1,836.6 mm instead of 1,996.2 mm, 159.6 mm short.
2. A sheet-metal shop's formula page "Formulas for metal fabrication: rolled cylinders": shortcuts OD pi -
   3t and ID pi + 3t, worked for 1/2 in plate, 24 in outside (23 in inside): 73.9 and 73.8 in (73.898 and
   73.757).
3. TAFE NSW, fabrication learning material "What is meant by mean diameter?" (sielearning.tafensw.edu.au,
   toolbox 905, tem6_2_2): 10 mm mild steel to 650 mm outside: mean diameter 640 mm, length 2,010.624 mm
   (the number of pi = 3.1416), rounded to 2,011 mm.
"""

from __future__ import annotations

from math import pi

import pytest

from quoting.blanks import develop
from quoting.core import Basis, Cylinder, Ends, Rectangle

INCH = 25.4


def blank_length(diameter_mm: float, basis: Basis, thickness_mm: float) -> float:
    plan = develop(Cylinder(diameter_mm, basis, 1000.0), thickness_mm, 7850.0, ends=Ends.PRE_BEND)
    outline = plan.blanks[0].outline
    assert isinstance(outline, Rectangle)
    return outline.length_mm


def test_outside_taken_for_inside_is_two_pi_thicknesses_short() -> None:
    wanted = blank_length(610, Basis.INSIDE, 25.4)
    rolled = blank_length(610, Basis.OUTSIDE, 25.4)
    assert wanted == pytest.approx(1996.17, abs=0.005)  # source 1 prints 1,996.2
    assert rolled == pytest.approx(1836.58, abs=0.005)  # source 1 prints 1,836.6
    assert wanted - rolled == pytest.approx(159.6, abs=0.05)  # source 1
    assert wanted - rolled == pytest.approx(2 * pi * 25.4)


def test_exact_length_lies_between_the_two_shop_shortcuts() -> None:
    exact = blank_length(24 * INCH, Basis.OUTSIDE, 0.5 * INCH) / INCH
    from_outside, from_inside = 24 * pi - 3 * 0.5, 23 * pi + 3 * 0.5
    assert from_outside == pytest.approx(73.898, abs=5e-4)  # source 2, printed 73.9
    assert from_inside == pytest.approx(73.757, abs=5e-4)  # source 2, printed 73.8
    assert exact == pytest.approx(73.827, abs=5e-4)
    assert from_inside < exact < from_outside


def test_vocational_school_example() -> None:
    length = blank_length(650, Basis.OUTSIDE, 10)
    assert round(length) == 2011  # source 3
    assert length == pytest.approx(2010.624, abs=0.01)  # source 3
    assert length / pi == pytest.approx(640)  # source 3, mean diameter
    assert blank_length(630, Basis.INSIDE, 10) == pytest.approx(length)  # source 3: 630 mm inside
