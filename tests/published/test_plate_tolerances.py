"""Thickness tolerances of plate against pages that reprint the standards.

1. ASTM A6/A6M, plate ordered to thickness, a plate seller's table (name withheld), in inches; table A1.1 of
   A6/A6M-11 for widths up to 1200 mm, https://www.scribd.com/document/192590226: under 0.3 mm.
2. EN 10029:1991, https://www.scribd.com/document/426981604 and tubingchina.com: class A, and class D, which
   has half of the sum of A to either side.
3. EN 10051 category A, tubingchina.com.
4. EN 10029:1991, same sources: classes B and C have the sum of class A too.
"""

from __future__ import annotations

import pytest

from quoting.shop.grades.plate_tolerance import PlateStandard, plate_standard, thickness_tolerance

INCH = 25.4

A6 = """
0.1875  48 .03  60 .03  72 .03  84 .03  96 .03  108 .03  120 .03  132 .03  144 .04
0.25    48 .03  60 .03  72 .03  84 .03  96 .03  108 .03  120 .03  132 .04  144 .04
0.375   48 .03  60 .03  72 .03  84 .03  96 .03  108 .03  120 .04  132 .04  144 .05
0.625   48 .03  60 .03  72 .03  84 .03  96 .03  108 .04  120 .04  132 .04  144 .05
0.75    48 .03  60 .03  72 .03  84 .03  96 .04  108 .04  120 .05  132 .05  144 .06
1.0     48 .06  60 .06  72 .06  84 .06  96 .06  108 .07  120 .08  132 .10  144 .10
2.0     48 .09  60 .09  72 .09  84 .10  96 .10  108 .11  120 .12  132 .13  144 .14
"""


@pytest.mark.parametrize("row", A6.strip().splitlines(), ids=lambda row: row.split()[0])
def test_a6_over_by_width_in_inches_and_under_a_hundredth(row: str) -> None:
    thickness, *pairs = (float(text) for text in row.split())
    for width, over in zip(pairs[::2], pairs[1::2], strict=True):
        found = thickness_tolerance(PlateStandard.A6, thickness * INCH, width * INCH)
        assert found == pytest.approx((0.01 * INCH, over * INCH))


@pytest.mark.parametrize(
    ("thickness_mm", "over_mm"), [(6, 0.8), (10, 0.8), (12, 0.8), (15, 0.8), (40, 1.6), (45, 1.6), (50, 1.8)]
)
def test_the_metric_table_of_a6_agrees_where_both_are_rounded_alike(
    thickness_mm: float, over_mm: float
) -> None:
    """Narrow plate only; from 25 to 38 mm the metric table goes by 2 to 3 mm, the inch one by a jump."""
    under, over = thickness_tolerance(PlateStandard.A6, thickness_mm, 1200.0) or (0.0, 0.0)
    assert round(under, 1) == 0.3
    assert over == pytest.approx(over_mm, abs=0.3)


@pytest.mark.parametrize(
    ("from_mm", "under", "over", "half"),
    [
        (3, 0.4, 0.8, 0.60),
        (5, 0.4, 1.1, 0.75),
        (8, 0.5, 1.2, 0.85),
        (15, 0.6, 1.3, 0.95),
        (25, 0.8, 1.4, 1.1),
        (40, 1.0, 1.8, 1.4),
        (80, 1.0, 2.2, 1.6),
    ],
)
def test_en_10029_class_a_and_the_sum_of_class_d(
    from_mm: float, under: float, over: float, half: float
) -> None:
    found = thickness_tolerance(PlateStandard.EN_10029, from_mm, 2000.0)
    assert found == (under, over)
    assert sum(found or ()) / 2 == pytest.approx(half)


@pytest.mark.parametrize(
    ("from_mm", "class_b", "class_c"),
    [
        (3, (0.3, 0.9), (0, 1.2)),
        (5, (0.3, 1.2), (0, 1.5)),
        (8, (0.3, 1.4), (0, 1.7)),
        (15, (0.3, 1.6), (0, 1.9)),
        (25, (0.3, 1.9), (0, 2.2)),
        (40, (0.3, 2.5), (0, 2.8)),
        (80, (0.3, 2.9), (0, 3.2)),
    ],
)
def test_classes_b_and_c_are_as_wide_as_class_a(
    from_mm: float, class_b: tuple[float, float], class_c: tuple[float, float]
) -> None:
    whole = sum(thickness_tolerance(PlateStandard.EN_10029, from_mm, 2000.0) or ())
    assert (sum(class_b), sum(class_c)) == pytest.approx((whole, whole))


EN_10051 = """
2.0   0.17 0.19 0.21
2.5   0.18 0.21 0.23 0.25
3.0   0.20 0.22 0.24 0.26
4.0   0.22 0.24 0.26 0.27
5.0   0.24 0.26 0.28 0.29
6.0   0.26 0.28 0.29 0.31
8.0   0.29 0.30 0.31 0.35
10.0  0.32 0.33 0.34 0.40
12.5  0.35 0.36 0.37 0.43
15.0  0.37 0.38 0.40 0.46
"""


@pytest.mark.parametrize("row", EN_10051.strip().splitlines(), ids=lambda row: row.split()[0])
def test_en_10051_category_a_either_way(row: str) -> None:
    thickness, *values = (float(text) for text in row.split())
    for width, value in zip((1200, 1500, 1800, 2000), values, strict=False):
        found = thickness_tolerance(PlateStandard.EN_10051, thickness, width)
        assert found == pytest.approx((value, value))


def test_thicker_than_the_table_is_not_guessed() -> None:
    assert thickness_tolerance(PlateStandard.A6, 80.0, 1000.0) is None


@pytest.mark.parametrize(
    ("grade", "thickness_mm", "standard"),
    [
        ("A36", 6.35, PlateStandard.A6),
        ("A516-70", 25.4, PlateStandard.A6),
        ("S355J2", 12.0, PlateStandard.EN_10029),
        ("S235JR", 2.5, PlateStandard.EN_10051),
        ("P265GH", 10.0, PlateStandard.EN_10029),
        ("1018", 6.35, None),
        ("304/304L", 6.35, None),
        ("AR400", 9.525, None),
    ],
)
def test_which_standard_a_grade_is_bought_to(
    grade: str, thickness_mm: float, standard: PlateStandard | None
) -> None:
    assert plate_standard(grade, thickness_mm) is standard
