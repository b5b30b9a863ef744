"""PD 5500 limit of out-of-roundness as printed in the article "Cylindrical Shell Shape Imperfection": the
lesser of (0.5 + 625 / D) percent, D in mm, and 1 percent. The percentages at 2000 and 3000 mm are that
formula's, rounded.
"""

from __future__ import annotations

import pytest

from quoting.forming.plate.strain import RoundnessRule, out_of_roundness_mm


@pytest.mark.parametrize(
    ("diameter_mm", "percent"), [(600.0, 1.0), (1250.0, 1.0), (2000.0, 0.81), (3000.0, 0.71)]
)
def test_limit_in_percent_of_the_diameter(diameter_mm: float, percent: float) -> None:
    limit = out_of_roundness_mm(diameter_mm, 10.0, RoundnessRule.PD_5500)
    assert round(100 * limit / diameter_mm, 2) == percent


def test_at_1250_mm_both_rules_give_exactly_one_percent() -> None:
    assert out_of_roundness_mm(1250.0, 10.0, RoundnessRule.PD_5500) == pytest.approx(12.5, abs=1e-12)
