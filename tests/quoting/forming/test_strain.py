from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from quoting.core import RangeError
from quoting.forming.judging.capability import assess
from quoting.forming.plate import cylinder_strain
from quoting.forming.plate.strain import RoundnessRule, forming_strain, out_of_roundness_mm
from tests.quoting.forming.shop import MILD, RULES, job, light_roll


def test_a_tight_shell_is_flagged_for_the_code_and_not_refused() -> None:
    task = job(8.0, 200, 140, arc_deg=90)
    found = forming_strain(task)
    assert found.percent == pytest.approx(50 * 8 / 74)
    assert found.flags == (
        "forming strain 5.4 % is over 5 %: check the code for heat treatment after forming",
    )
    verdict = assess(task, light_roll(), RULES)
    assert found.flags[0] in verdict.flags


def test_an_easy_shell_has_no_flags() -> None:
    assert forming_strain(job(6.0, 900, 600)).flags == ()


def test_very_hard_bends_and_brittle_grades() -> None:
    assert any("over 40 %" in flag for flag in forming_strain(job(10.0, 100, 12)).flags)
    stiff = replace(MILD, key="wear plate", least_bend_radius_t=6.0)
    flags = forming_strain(job(6.0, 500, 60, material=stiff)).flags
    assert any("inside radius 5.0 t is under the 6 t of wear plate" in flag for flag in flags)


def test_roundness_limits() -> None:
    assert out_of_roundness_mm(1000, 8, RoundnessRule.EN_13445_4) == 15
    assert out_of_roundness_mm(1000, 12, RoundnessRule.EN_13445_4) == 10
    assert out_of_roundness_mm(1000, 8, RoundnessRule.UG_80) == 10


def test_arrays_and_bad_values() -> None:
    assert cylinder_strain(10, np.array([100, 200])) == pytest.approx([5, 2.5])
    with pytest.raises(RangeError, match="more than half the thickness"):
        cylinder_strain(10, 5)
    with pytest.raises(RangeError, match="infinite for flat plate"):
        cylinder_strain(10, 100, 4)
