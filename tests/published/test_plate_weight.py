"""Theoretical plate weights against printed tables.

1. Dennis R. Moss, Pressure Vessel Design Manual, table 2-18 "Weights of carbon steel plate and stainless
   steel sheet, PSF", p. 97, column raw weight (read at digilib.universitaspertamina.ac.id/ebook/
   Pressure%20Vessel%20Design%20Manual/files/basic-html/page117.html). The table is built on 40.8 lb/ft2 per
   inch; our 7,850 kg/m3 is 40.84, so it agrees to 0.2 per cent. Its rows that do not follow its own 40.8
   (1.375 and 1.625 in, and 0.625 in as scanned) are left out.
2. Plate weight page, https://ezcalculator.net/construction-calculators/plate-weight: a table of lb/ft2; 48 x
   96 in mild steel plate of 1/4 in about 327 lb, 3/8 in 490, 1/2 in 654, 1 in 1,307.
3. Worked out with 0.2836 lb/in3: 96 x 240 in of 1/2 in 3,267 lb, of 1 in 6,534 lb.
"""

from __future__ import annotations

import pytest

from quoting.core import MM_PER_INCH
from quoting.shop import KG_PER_POUND
from quoting.shop.book import starter_text
from quoting.shop.book.read_book import read_book
from quoting.shop.quantities import DENSITY

STEEL = read_book(starter_text(), "shop.toml").material("A36")

HANDBOOK = {0.125: 5.1, 0.1875: 7.66, 0.25: 10.2, 0.3125: 12.76, 0.375: 15.3, 0.4375: 17.86,
            0.5: 20.4, 0.75: 30.6, 0.875: 35.7, 0.9375: 38.28, 1.0: 40.8, 1.125: 45.94, 1.25: 51.0, 1.5: 61.2,
            1.75: 71.4, 1.875: 76.56, 2.0: 81.6}  # fmt: skip
PAGE = {0.1875: 7.656, 0.25: 10.21, 0.375: 15.31, 0.5: 20.41, 0.75: 30.63, 1.0: 40.84}


def pounds(thickness_in: float, width_in: float, length_in: float) -> float:
    volume_mm3 = thickness_in * width_in * length_in * MM_PER_INCH**3
    return volume_mm3 * 1e-9 * STEEL.density_kg_m3 / KG_PER_POUND


@pytest.mark.parametrize("thickness", HANDBOOK)
def test_a_square_foot_weighs_what_the_handbook_prints(thickness: float) -> None:
    assert pounds(thickness, 12, 12) == pytest.approx(HANDBOOK[thickness], rel=0.002)


@pytest.mark.parametrize("thickness", PAGE)
def test_a_square_foot_weighs_what_the_page_prints(thickness: float) -> None:
    assert pounds(thickness, 12, 12) == pytest.approx(PAGE[thickness], abs=0.011)


@pytest.mark.parametrize(("thickness", "weight"), [(0.25, 327), (0.375, 490), (0.5, 654), (1, 1307)])
def test_a_four_by_eight_plate_weighs_what_the_page_prints(thickness: float, weight: float) -> None:
    assert pounds(thickness, 48, 96) == pytest.approx(weight, abs=1)


@pytest.mark.parametrize(("thickness", "weight"), [(0.5, 3267), (1, 6534)])
def test_a_mill_plate_weighs_what_was_worked_out(thickness: float, weight: float) -> None:
    assert pounds(thickness, 96, 240) == pytest.approx(weight, abs=1)


def test_the_density_in_pounds_is_the_one_the_trade_uses() -> None:
    assert STEEL.density_kg_m3 / DENSITY.units["lb_in3"] == pytest.approx(0.2836, abs=5e-5)  # sources 2, 3
