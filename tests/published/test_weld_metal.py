"""Weld metal against printed tables of weight a length.

Sources: "Weight per foot of fillet welds and common butt welds" (handbook page, scribd 18332437; inch) and
its metric twin (scribd 408837431), 0.283 lb/in3; "Estimating filler metal cost", B-202 (studylib 18205524),
7.85 g/cm3; the area of a V from TWI Job Knowledge 95. The pages print misprints, found because they break
their own pattern and left out here: 7/16 in S 22.5 (.129), 9/16 S 45 (.451), 5/16 cap 1/8 (.884), and the
same entries of the metric page.
"""

from __future__ import annotations

import pytest

from quoting.labour.weld_metal import Groove, GrooveKind, fillet_kg_per_m

LB_PER_FT = 0.45359237 / 0.3048
DENSITY = 0.283 * 0.45359237 / 0.0254**3
INCH = 25.4

# thickness in 1/16 in: gap 1/8, gap 1/4, then one triangle at 10, 22.5, 30, 45 degrees; lb a foot.
INCH_TABLE = {
    2: (0.053, 0.106, 0.005, 0.011, 0.015, 0.027),
    3: (0.080, 0.159, 0.011, 0.025, 0.035, 0.060),
    4: (0.106, 0.212, 0.019, 0.044, 0.061, 0.106),
    5: (0.133, 0.265, 0.029, 0.069, 0.096, 0.166),
    6: (0.159, 0.318, 0.042, 0.099, 0.138, 0.239),
    7: (0.186, 0.371, 0.057, None, 0.188, 0.325),
    8: (0.212, 0.425, 0.075, 0.176, 0.245, 0.425),
    9: (0.239, 0.478, 0.095, 0.223, 0.311, None),
    10: (0.265, 0.531, 0.117, 0.275, 0.383, 0.664),
    11: (0.292, 0.584, 0.142, 0.332, 0.464, 0.804),
    12: (0.318, 0.637, 0.169, 0.396, 0.552, 0.956),
    13: (0.345, 0.690, 0.198, 0.464, 0.648, 1.121),
    14: (0.371, 0.743, 0.230, 0.538, 0.751, 1.300),
    15: (0.398, 0.796, 0.263, 0.618, 0.863, 1.493),
    16: (0.425, 0.849, 0.300, 0.703, 0.981, 1.698),
}
ANGLES = (10, 22.5, 30, 45)
GAPS = (1 / 8, 1 / 4)

# thickness mm: gaps of 1.588, 3.175, 6.35, 12.7 mm, one triangle at 15, 22.5, 30, 45 degrees; kg a metre.
METRIC_TABLE = {
    3.18: (0.040, 0.079, 0.158, 0.315, 0.010, 0.016, 0.022, 0.040),
    4.76: (0.060, 0.119, 0.237, 0.473, 0.024, 0.037, 0.052, 0.089),
    6.35: (0.079, 0.158, 0.315, 0.632, 0.042, 0.065, 0.091, 0.158),
    7.94: (0.098, 0.198, 0.394, 0.790, 0.065, 0.102, 0.143, 0.247),
    9.53: (0.119, 0.237, 0.473, 0.948, 0.095, 0.147, 0.205, 0.356),
    11.11: (None, 0.277, 0.552, 1.106, 0.129, None, 0.280, 0.484),
    12.70: (0.158, 0.315, 0.632, 1.263, 0.170, 0.262, 0.365, 0.632),
    14.29: (0.177, 0.356, 0.711, 1.421, 0.214, 0.332, 0.463, None),
    15.88: (0.198, 0.394, 0.790, 1.579, 0.265, 0.409, 0.570, 0.988),
    17.46: (0.217, 0.434, 0.869, 1.736, 0.320, 0.494, 0.690, 1.196),
}


def one_triangle(thickness_mm: float, angle_deg: float, density: float) -> float:
    """A single bevel without gap, face or cap is one triangle."""
    return Groove(GrooveKind.SINGLE_BEVEL, thickness_mm, angle_deg=angle_deg).kg_per_m(density)


@pytest.mark.parametrize("sixteenths", INCH_TABLE)
def test_gaps_and_triangles_weigh_what_the_inch_page_prints(sixteenths: int) -> None:
    thickness = sixteenths / 16 * INCH
    printed = INCH_TABLE[sixteenths]
    for gap, weight in zip(GAPS, printed[:2], strict=True):
        square = Groove(GrooveKind.SQUARE, thickness, gap * INCH)
        assert square.kg_per_m(DENSITY) / LB_PER_FT == pytest.approx(weight, abs=0.0011)
    for angle, expected in zip(ANGLES, printed[2:], strict=True):
        if expected is not None:
            found = one_triangle(thickness, angle, DENSITY) / LB_PER_FT
            assert found == pytest.approx(expected, abs=0.0016)


@pytest.mark.parametrize("thickness", METRIC_TABLE)
def test_gaps_and_triangles_weigh_what_the_metric_page_prints(thickness: float) -> None:
    printed = METRIC_TABLE[thickness]
    for gap, expected in zip((1.588, 3.175, 6.35, 12.7), printed[:4], strict=True):
        if expected is not None:
            square = Groove(GrooveKind.SQUARE, thickness, gap)
            assert square.kg_per_m(7833) == pytest.approx(expected, abs=0.0025)
    for angle, expected in zip((15, 22.5, 30, 45), printed[4:], strict=True):
        if expected is not None:
            assert one_triangle(thickness, angle, 7833) == pytest.approx(expected, abs=0.0025)


@pytest.mark.parametrize(
    ("sixteenths", "height", "expected"),
    [
        *((4, 1 / 16, 0.035), (8, 1 / 16, 0.071), (12, 1 / 16, 0.106), (16, 1 / 16, 0.141)),
        *((6, 1 / 8, 0.106), (8, 1 / 8, 0.141), (12, 1 / 8, 0.212), (16, 1 / 8, 0.283)),
    ],
)
def test_a_cap_weighs_what_the_page_prints(sixteenths: int, height: float, expected: float) -> None:
    """A square groove as wide as the cap: its weight with one cap less that without."""
    width = sixteenths / 16 * INCH
    capped = Groove(GrooveKind.SQUARE, 5.0, width, cap_mm=height * INCH, caps=1)
    plain = Groove(GrooveKind.SQUARE, 5.0, width)
    weight = (capped.kg_per_m(DENSITY) - plain.kg_per_m(DENSITY)) / LB_PER_FT
    assert weight == pytest.approx(expected, abs=0.0011)


def test_the_u_butt_of_the_second_page() -> None:
    """38.1 mm plate, root radius 6.35, flanks of 7 degrees, 25.4 deep; cap 28.6 wide, 3.2 high: 4.12."""
    flanks = Groove(GrooveKind.SINGLE_V, 25.4, angle_deg=7).kg_per_m(7850)
    middle = Groove(GrooveKind.SQUARE, 25.4, 12.7).kg_per_m(7850)
    half_disc = Groove(GrooveKind.U, 6.3501, radius_mm=6.35).kg_per_m(7850)
    assert flanks == pytest.approx(0.621, abs=0.002)
    assert middle == pytest.approx(2.530, abs=0.003)
    assert half_disc == pytest.approx(0.497, abs=0.002)
    cap = 2 / 3 * 28.575 * 3.175 * 7850e-6
    assert flanks + middle + half_disc + cap == pytest.approx(4.12, abs=0.01)


@pytest.mark.parametrize(("thickness", "expected"), [(25.4, 2.694), (28.575, 3.229)])
def test_double_v_of_60_degrees_with_both_caps(thickness: float, expected: float) -> None:
    """Gap 3.2 mm and caps 3.2 mm high; the page does not state them, these reproduce two of its four rows."""
    joint = Groove(GrooveKind.DOUBLE_V, thickness, 3.175, 0.0, 30, 3.175, 2)
    assert joint.kg_per_m(7850) == pytest.approx(expected, rel=0.005)


def test_a_half_inch_fillet_without_over_welding() -> None:
    """.424 lb a foot (filler metal handbook, section 8)."""
    assert fillet_kg_per_m(12.7, DENSITY) / LB_PER_FT == pytest.approx(0.424, abs=0.001)


@pytest.mark.parametrize(
    ("leg", "expected"), [(3.175, 0.048), (4.7625, 0.107), (6.35, 0.192), (7.9375, 0.299)]
)
def test_the_second_page_counts_a_fifth_of_over_welding(leg: float, expected: float) -> None:
    """Its flat fillets are 1.20 to 1.21 times the triangle: a leg 10 % over."""
    assert fillet_kg_per_m(leg * 1.1, 7850) == pytest.approx(expected, rel=0.012)
