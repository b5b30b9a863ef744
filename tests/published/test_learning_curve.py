"""Learning curves against published numbers, both forms.

1. A strategy institute's article "Graph of the week: learning about learning" (aspistrategist.org.au), unit
   form, 90 %: 1,000 hours for the first, 900 the 2nd, 810 the 4th, 729 the 8th, "a little over 600" the
   25th.
2. The R package learningCurve 1.1.2, reference manual: unit_curve(100, 125) at .80, .85, .90, .95 =
   21.13225, 32.23647, 48.00243, 69.95640; unit_cum_exact(100, 125, .85) = 5201.085; ca_unit(110, 2200,
   .885) = 23.34001.
3. Project-management paper, appendix "Learning curve mathematics", cumulative average, 80 %: the second
   unit takes 60 % of the first; four units average 64 %.
4. Totals of ten units at 90 %: 7.99 (unit form) and 7.05 (cumulative average), worked out from the
   definitions.
"""

from __future__ import annotations

import pytest

from quoting.labour.learning import (
    cumulative_average_factor,
    cumulative_average_total,
    unit_factor,
    unit_total,
)


def test_unit_form_at_ninety_per_cent() -> None:
    hours = [round(1000 * unit_factor(piece, 0.9)) for piece in (1, 2, 4, 8)]
    assert hours == [1000, 900, 810, 729]  # source 1
    assert 1000 * unit_factor(25, 0.9) == pytest.approx(613, abs=0.5)  # source 1: a little over 600


@pytest.mark.parametrize(
    ("rate", "hours"), [(0.80, 21.13225), (0.85, 32.23647), (0.90, 48.00243), (0.95, 69.95640)]
)
def test_the_125th_unit(rate: float, hours: float) -> None:
    assert 100 * unit_factor(125, rate) == pytest.approx(hours, abs=5e-6)  # source 2


def test_total_of_125_units() -> None:
    assert 100 * unit_total(125, 0.85) == pytest.approx(5201.085, abs=5e-4)  # source 2


def _unit(piece: int, rate: float) -> float:
    return cumulative_average_total(piece, rate) - cumulative_average_total(piece - 1, rate)


def test_cumulative_average_form() -> None:
    assert _unit(2, 0.8) == pytest.approx(0.60)  # source 3
    assert cumulative_average_factor(4, 0.8) == pytest.approx(0.64)  # source 3
    assert 110 * _unit(2200, 0.885) == pytest.approx(23.34001, abs=5e-6)  # source 2


def test_the_two_forms_differ_and_must_be_named() -> None:
    assert round(unit_total(10, 0.9), 2) == 7.99  # source 4
    assert round(cumulative_average_total(10, 0.9), 2) == 7.05  # source 4
