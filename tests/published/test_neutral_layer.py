"""Neutral layer of tight bends against DIN 6935 as quoted in public texts (the standard itself was not
read).

1. "Zuschnittsermittlung", engineering blog (excelution.at, August 2019): DIN 6935 gives the correction
factor k =
   0.65 + 0.5 log10(r/s).
2. "K-Faktor und Biegezugabe im Zusammenhang mit der DIN 6935" (scribd.com, 373651793), angles up to 90
degrees: v =
   pi (180 - b)/180 (r + k s/2) - 2 (r + s), b the opening angle, so the neutral layer lies k s/2 from the
   inside.
3. A metalworking encyclopedia, "Gestreckte Laenge beim Biegen" (metalltechnik-lexikon.de): at large radii
the
   neutral layer is in the middle, at small ones it moves towards the inside.
"""

from __future__ import annotations

from math import log10, pi

import pytest

from quoting.blanks.girth import developed_girth, neutral_layer_factor


@pytest.mark.parametrize("ratio", [0.65, 1.0, 1.5, 2.5, 4.0])
def test_factor_is_the_one_quoted(ratio: float) -> None:
    assert neutral_layer_factor(ratio * 8.0, 8.0) == pytest.approx(0.65 + 0.5 * log10(ratio))  # source 1


@pytest.mark.parametrize(("radius", "thickness"), [(10.0, 10.0), (16.0, 8.0), (12.0, 4.0)])
def test_a_quarter_bend_has_the_length_of_the_standard(radius: float, thickness: float) -> None:
    factor = 0.65 + 0.5 * log10(radius / thickness)
    compensation = pi * (180 - 90) / 180 * (radius + factor * thickness / 2) - 2 * (radius + thickness)
    legs = 2 * (radius + thickness)  # source 2: outside lengths of a bend with no straight legs
    girth = developed_girth(2 * radius + thickness, thickness, arc_deg=90)
    assert girth == pytest.approx(legs + compensation)  # source 2


def test_large_radii_keep_the_middle_and_small_ones_move_inwards() -> None:
    assert neutral_layer_factor(100, 10) == 1.0  # source 3
    factors = [neutral_layer_factor(ratio * 10.0, 10.0) for ratio in (0.65, 1, 2, 3, 5, 6)]
    assert factors == sorted(factors)  # source 3
