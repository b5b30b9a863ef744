"""Gauge tables and pipe sizes against their published sources.

- 15 U.S.C. 206, "Standard gauge for sheet and plate iron and steel": fractions of an inch and lb/ft2 by gauge
  number (as printed in the United States Code; 10 gauge is 9/64 in and 5.625 lb/ft2).
- Manufacturers' Standard Gage for Sheet Steel: 41.82 lb/ft2 per inch of thickness, 10 ga = 0.1345 in
  (trade page "Sheet Metal Gauge (Gage) Thickness", offroaders.com).
- American wire gauge: each step divides by 92^(1/39), 36 gauge is 0.005 in (definition as in ASTM B258).
- ASME B36.10M, scope: outside diameters exceed the nominal size up to NPS 12, equal it from NPS 14;
- ASME B36.10M, scope: outside diameters exceed the nominal size up to NPS 12 and equal it from NPS 14;
  12 -> 323.8 mm, 8 -> 219.1 mm, 6 -> 168.3 mm as printed in dimension tables that follow it.
"""

from __future__ import annotations

import pytest

from quoting.core import gauge_tables, gauge_to_mm
from quoting.core.units.gauges import pipe_outside_mm

USC_FRACTIONS = {
    3: 1 / 4,
    7: 3 / 16,
    8: 11 / 64,
    10: 9 / 64,
    11: 1 / 8,
    12: 7 / 64,
    14: 5 / 64,
    16: 1 / 16,
    20: 3 / 80,
}
USC_POUNDS = {3: 10.0, 7: 7.5, 8: 6.875, 10: 5.625, 11: 5.0, 12: 4.375, 14: 3.125, 16: 2.5, 20: 1.5, 22: 1.25}


@pytest.mark.parametrize(("number", "inches"), USC_FRACTIONS.items())
def test_stainless_follows_the_united_states_standard_gauge(number: int, inches: float) -> None:
    assert gauge_to_mm(number, "stainless") / 25.4 == pytest.approx(inches, abs=1e-9)


@pytest.mark.parametrize(("number", "pounds"), USC_POUNDS.items())
def test_steel_is_the_weight_divided_by_41_82(number: int, pounds: float) -> None:
    assert gauge_to_mm(number, "steel") / 25.4 == pytest.approx(pounds / 41.82, abs=0.00006)


def test_ten_gauge_is_not_one_thickness() -> None:
    assert gauge_to_mm(10, "steel") / 25.4 == pytest.approx(0.1345)
    assert gauge_to_mm(10, "galvanized") / 25.4 == pytest.approx(0.1382)
    assert gauge_to_mm(10, "stainless") / 25.4 == pytest.approx(0.1406, abs=0.0001)


def test_aluminium_steps_by_the_wire_gauge_ratio() -> None:
    for number in range(0, 31):
        exact = 0.005 * 92 ** ((36 - number) / 39)
        assert gauge_to_mm(number, "aluminium") / 25.4 == pytest.approx(exact, abs=0.00005001)
    assert gauge_to_mm(10, "aluminium") / 25.4 == pytest.approx(0.1019)


def test_every_table_falls_with_the_number_and_names_its_source() -> None:
    for table in gauge_tables().values():
        sizes = [table.thickness_mm[number] for number in sorted(table.thickness_mm)]
        assert sizes == sorted(sizes, reverse=True)
        assert table.source


@pytest.mark.parametrize(
    ("size", "mm"), [(6, 168.3), (8, 219.1), (10, 273.0), (12, 323.8), (14, 355.6), (24, 609.6)]
)
def test_pipe_sizes(size: int, mm: float) -> None:
    assert pipe_outside_mm(size, dn=False) == pytest.approx(mm, abs=0.1)
    assert pipe_outside_mm(600, dn=True) == pytest.approx(609.6)
