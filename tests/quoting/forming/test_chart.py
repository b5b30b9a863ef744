from __future__ import annotations

import math
from itertools import pairwise

import pytest

from quoting.core import RangeError
from quoting.forming import capability_table
from quoting.forming.judging.chart import least_inside_diameter_mm
from tests.quoting.forming.shop import INCH, MILD, PLAIN, PRE_BEND, RULES, assess, job, light_roll

ROLL = light_roll(rated=(PRE_BEND, PLAIN))


def test_the_rated_point_stands_on_the_chart() -> None:
    table = capability_table(
        ROLL, MILD, RULES, pre_bend=True, widths_mm=[60 * INCH], diameters_mm=[24 * INCH]
    )
    assert table.thickness_mm[0][0] == pytest.approx(0.25 * INCH, rel=1e-3)
    assert table.rated == ((60 * INCH, 0.25 * INCH, 24 * INCH),)


def test_wider_or_tighter_never_takes_thicker_plate() -> None:
    table = capability_table(ROLL, MILD, RULES, pre_bend=True)
    for row in table.thickness_mm:
        values = [value for value in row if value is not None]
        assert values == sorted(values, reverse=True)
    for column in zip(*table.thickness_mm, strict=True):
        values = [value for value in column if value is not None][:4]  # past that the weight may stop it
        assert values == sorted(values)


def test_every_value_is_a_yes_and_one_per_cent_more_a_no() -> None:
    table = capability_table(ROLL, MILD, RULES, pre_bend=True, widths_mm=[800, 1500], diameters_mm=[220, 500])
    for diameter, row in zip(table.diameters_mm, table.thickness_mm, strict=True):
        for width, thickness in zip(table.widths_mm, row, strict=True):
            assert thickness is not None
            assert assess(job(thickness * 0.999, width, diameter), ROLL, RULES).ok
            assert not assess(job(thickness * 1.01, width, diameter), ROLL, RULES).ok


def test_without_pre_bend_the_roll_takes_more() -> None:
    pre_bent, plain = (
        capability_table(
            ROLL, MILD, RULES, pre_bend=way, widths_mm=[1500.0], diameters_mm=[600.0]
        ).thickness_mm[0][0]
        for way in (True, False)
    )
    assert pre_bent is not None
    assert plain is not None
    assert plain > pre_bent


def test_a_diameter_out_of_reach_is_empty() -> None:
    table = capability_table(ROLL, MILD, RULES, pre_bend=True, widths_mm=[800], diameters_mm=[150, 600])
    assert table.thickness_mm[0][0] is None
    assert table.thickness_mm[1][0] is not None


def test_a_negative_width_is_refused() -> None:
    with pytest.raises(RangeError, match="width_mm = -1"):
        capability_table(ROLL, MILD, RULES, pre_bend=True, widths_mm=[-1.0], diameters_mm=[600])


def test_least_diameter_of_thin_plate_is_what_comes_off_the_top_roll() -> None:
    assert least_inside_diameter_mm(job(2.0, 800, 600), ROLL, RULES) == pytest.approx(1.3 * 152.4, rel=2e-3)
    half = least_inside_diameter_mm(job(2.0, 800, 600, arc_deg=180), ROLL, RULES)
    assert half < 1.3 * 152.4


def test_least_diameter_at_the_rated_width_and_thickness_is_the_rated_one() -> None:
    found = least_inside_diameter_mm(job(0.25 * INCH, 60 * INCH, 900), light_roll(), RULES)
    assert found == pytest.approx(24 * INCH, rel=5e-3)


def test_plate_too_thick_for_the_roll_has_no_least_diameter() -> None:
    assert math.isnan(least_inside_diameter_mm(job(9.5, 800, 600), ROLL, RULES))


def test_a_six_inch_roll_is_rated_quarter_by_five_feet_and_falls_off_sensibly_around_it() -> None:
    """A 6 in top roll, 5 ft working length, is sold for 1/4 in x 5 ft to 24 in (common practice, no source).

    Half the width takes more, by no more than the square root of the half; a wider diameter takes a little
    more, a tighter one a little less, and nowhere does the least diameter take half of the rating or less.
    """
    roll = light_roll(rated=(PRE_BEND,))
    table = capability_table(
        roll,
        MILD,
        RULES,
        pre_bend=True,
        widths_mm=[30 * INCH, 60 * INCH],
        diameters_mm=[9 * INCH, 18 * INCH, 24 * INCH, 48 * INCH],
    )
    (least, _), (tight, _), (half, rated), (wide_half, _) = table.thickness_mm
    full = [row[1] for row in table.thickness_mm]
    assert rated == pytest.approx(0.25 * INCH, rel=1e-3)
    assert None not in full
    assert all(a is not None and b is not None and a < b for a, b in pairwise(full[:3]))
    assert least
    assert tight
    assert half
    assert wide_half
    assert rated is not None
    assert rated * 1.15 < half < rated * math.sqrt(2) * 1.02
    assert full[0] is not None
    assert full[0] > 0.5 * rated
