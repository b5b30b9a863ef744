"""Sheet gauges against the law and a printed gauge chart.

1. 15 U.S.C. 206, standard gauge for sheet and plate iron and steel (act of 3 March 1893, 27 Stat. 746):
   number of gauge, approximate thickness in decimal parts of an inch, weight per square foot in pounds.
2. "Sheet Metal Gauge (Gage) Thickness", http://offroaders.com/tech/sheet-metal-gauge-thickness.htm: sheet
   steel weighs 41.82 pounds per square foot per inch of thickness; 10 gauge is 0.1345 in and 5.625 lb.
3. A fabricator's sheet metal gauge chart (name withheld), columns standard steel, galvanized and
   non-ferrous, inches, gauges 3 to 14.
4. A sheet seller's gauge list (name withheld), pounds per square foot of coated sheet, gauges 8 to 25.
"""

from __future__ import annotations

import pytest

from quoting.errors import RangeError
from quoting.units import MM_PER_INCH, gauge_to_mm

LB_PER_SQUARE_FOOT_INCH = 41.82  # source 2

LAW = {  # source 1: gauge -> (thickness in, weight lb/ft2)
    3: (0.25, 10), 4: (0.234375, 9.375), 5: (0.21875, 8.75), 6: (0.203125, 8.125), 7: (0.1875, 7.5),
    8: (0.171875, 6.875), 9: (0.15625, 6.25), 10: (0.140625, 5.625), 11: (0.125, 5),
    12: (0.109375, 4.375), 13: (0.09375, 3.75), 14: (0.078125, 3.125), 15: (0.0703125, 2.8125),
    16: (0.0625, 2.5), 17: (0.05625, 2.25), 18: (0.05, 2), 19: (0.04375, 1.75), 20: (0.0375, 1.5),
    21: (0.034375, 1.375),
}  # fmt: skip
CHART = {  # source 3: gauge -> (steel, galvanized or None, aluminium)
    3: (0.2391, None, 0.2294), 4: (0.2242, None, 0.2043), 5: (0.2092, None, 0.1819),
    6: (0.1943, None, 0.1620), 7: (0.1793, None, 0.1443), 8: (0.1644, None, 0.1285),
    9: (0.1495, 0.1532, 0.1144), 10: (0.1345, 0.1382, 0.1019), 11: (0.1196, 0.1233, 0.0907),
    12: (0.1046, 0.1084, 0.0808), 13: (0.0897, 0.0934, 0.0720), 14: (0.0747, 0.0785, 0.0641),
}  # fmt: skip
COATED_LB = {  # source 4
    8: 7.031, 9: 6.406, 10: 5.781, 11: 5.156, 12: 4.531, 13: 3.906, 14: 3.281, 15: 2.969, 16: 2.656,
    17: 2.406, 18: 2.156, 19: 1.906, 20: 1.656, 21: 1.531, 22: 1.406, 23: 1.281, 24: 1.156, 25: 1.031,
}  # fmt: skip


def inches(gauge: int, table: str) -> float:
    return gauge_to_mm(gauge, table) / MM_PER_INCH


@pytest.mark.parametrize("gauge", LAW)
def test_sheet_steel_weighs_what_the_law_says(gauge: int) -> None:
    assert inches(gauge, "steel") * LB_PER_SQUARE_FOOT_INCH == pytest.approx(LAW[gauge][1], abs=0.0025)


@pytest.mark.parametrize("gauge", LAW)
def test_stainless_keeps_the_thickness_of_the_law(gauge: int) -> None:
    assert inches(gauge, "stainless") == pytest.approx(LAW[gauge][0], abs=1e-9)


@pytest.mark.parametrize("gauge", CHART)
def test_the_printed_chart(gauge: int) -> None:
    steel, galvanized, aluminium = CHART[gauge]
    assert inches(gauge, "steel") == pytest.approx(steel, abs=1e-9)
    assert inches(gauge, "aluminium") == pytest.approx(aluminium, abs=1e-9)
    if galvanized is not None:
        assert inches(gauge, "galvanized") == pytest.approx(galvanized, abs=1e-9)


@pytest.mark.parametrize("gauge", COATED_LB)
def test_galvanized_sheet_weighs_what_the_seller_prints(gauge: int) -> None:
    assert inches(gauge, "galvanized") * LB_PER_SQUARE_FOOT_INCH == pytest.approx(
        COATED_LB[gauge], abs=0.0025
    )


def test_ten_gauge_is_four_different_thicknesses() -> None:
    tables = ("steel", "galvanized", "stainless", "aluminium")
    assert len({round(inches(10, table), 4) for table in tables}) == 4


def test_a_gauge_that_no_table_holds_is_refused() -> None:
    with pytest.raises(RangeError, match="steel gauge = 99 is out of range"):
        gauge_to_mm(99, "steel")
