"""What a roll's chart says against published formulas of capability, each where it alone governs.

No maker's table is used, and none of a roll without a maker's name was found that could be read.

1. Perfectly plastic plate, as makers' charts assume it (H. V. Gajjar, A. H. Gandhi, T. A. Jafri, H. K. Raval,
   Bendability analysis for bending of C-Mn steel plates on heavy duty 3-roller bending machine, World Academy
   of Science, Engineering and Technology 1(8) 2007, abstract): the moment goes as yield x thickness squared,
   so the equivalent thickness is t sqrt(Y_ref / Y).
2. The rolls as beams with a load over the plate's width in the middle (beam tables of
   civilengcalculations.com): largest moment F (2 L - w) / 8, so t goes as sqrt(1 / (w (2 L - w))).
3. Power-law plate (the same paper: K' and its place in the moment, n from 0.1 to 0.3): the moment goes as
   K t^(n+2), so the equivalent thickness is t (K_ref / K)^(1 / (n + 2)).
4. Least diameter: 1.1 to 1.5 times the top roll (from memory).
5. Bending force F = k L R t^2 / d: worked examples of two calculators' pages, calculator.academy (bend force)
   and easycalculation.com (v-bending force), both read. `rollwright chart` prints 2, 3 and 5 beside its own.
"""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest

from quoting.forming import by_formula, capability_table
from quoting.forming.judging.by_formula import bend_force
from quoting.shop import Material
from tests.quoting.forming.shop import INCH, MILD, PRE_BEND, RULES, light_roll

ROLL = replace(light_roll(rated=(PRE_BEND,)), largest_thickness_mm=14.0)
SPAN = ROLL.working_length_mm


def chart(width_in: float, diameter_in: float, material: Material = MILD, yield_mpa: float = 250.0) -> float:
    """Return the largest thickness in mm that is pre-bent at this width and diameter."""
    table = capability_table(
        ROLL,
        material,
        RULES,
        pre_bend=True,
        yield_mpa=yield_mpa,
        widths_mm=[width_in * INCH],
        diameters_mm=[diameter_in * INCH],
    )
    ((thickness,),) = table.thickness_mm
    assert thickness is not None
    return thickness


@pytest.mark.parametrize("yield_mpa", [200.0, 300.0, 345.0])
def test_thickness_goes_with_the_root_of_the_yield(yield_mpa: float) -> None:
    equivalent = chart(30, 24) * sqrt(250 / yield_mpa)
    assert chart(30, 24, yield_mpa=yield_mpa) == pytest.approx(equivalent, rel=0.005)


def test_hard_plate_takes_less_than_the_root_says_because_it_springs_back() -> None:
    assert 0.6 < chart(60, 24, yield_mpa=690) / (chart(60, 24) * sqrt(250 / 690)) < 0.75


@pytest.mark.parametrize("width_in", [20.0, 30.0, 40.0, 50.0])
def test_thickness_goes_with_the_width_as_beams_bend(width_in: float) -> None:
    full, width = 60 * INCH, width_in * INCH
    equivalent = chart(60, 24) * sqrt(full * (2 * SPAN - full) / (width * (2 * SPAN - width)))
    assert chart(width_in, 24) == pytest.approx(equivalent, rel=0.012)


@pytest.mark.parametrize("strength_mpa", [1000.0, 1200.0])
def test_thickness_of_hardening_plate_goes_with_its_strength(strength_mpa: float) -> None:
    reference = chart(30, 12, replace(MILD, strength_mpa=800.0, hardening=0.21))
    stronger = chart(30, 12, replace(MILD, strength_mpa=strength_mpa, hardening=0.21))
    assert stronger == pytest.approx(reference * (800 / strength_mpa) ** (1 / 2.21), rel=0.03)


def test_the_least_diameter_is_within_the_usual_share_of_the_top_roll() -> None:
    factors = [
        diameter / 100
        for diameter in range(90, 160, 5)
        if capability_table(
            ROLL,
            MILD,
            RULES,
            pre_bend=True,
            widths_mm=[30 * INCH],
            diameters_mm=[diameter / 100 * ROLL.top_roll_mm],
        ).thickness_mm[0][0]
    ]
    assert 1.1 <= min(factors) <= 1.5


def test_the_bending_force_is_that_of_the_printed_examples() -> None:
    assert bend_force(1.33, 3, 50, 1.5, 12) == pytest.approx(37.406, abs=5e-4)
    safety, k = 4, 1.46 - 0.016 * 6
    assert safety * bend_force(k, 3, 4, 3, 18) == pytest.approx(32.736, abs=5e-4)


@pytest.mark.parametrize("yield_mpa", [205.0, 250.0, 275.0])
def test_the_chart_printed_beside_the_formulas_is_never_bolder_than_they_are(yield_mpa: float) -> None:
    material = replace(MILD, yield_low_mpa=yield_mpa)
    found = by_formula(ROLL, material, RULES, pre_bend=True)
    assert found is not None
    rated, rows = found
    force, beam, power = zip(*(row.formulas_mm for row in rows), strict=True)
    assert rows[0].chart_mm == pytest.approx(rated.thickness_mm * sqrt(250 / yield_mpa), rel=0.06)
    for row, by_force, by_beam in zip(rows, force, beam, strict=True):
        assert row.chart_mm is not None
        assert by_beam is not None
        assert row.chart_mm <= 1.01 * by_beam
        assert by_beam <= by_force
        assert row.chart_mm == pytest.approx(by_beam, rel=0.06)
    assert all(one is not None for one in power)


def test_a_hard_grade_is_not_compared_with_the_soft_plate_that_was_measured() -> None:
    found = by_formula(ROLL, replace(MILD, yield_low_mpa=700.0), RULES, pre_bend=True)
    assert found is not None
    assert {row.formulas_mm[2] for row in found[1]} == {None}
