from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from quoting.core import RangeError
from quoting.forming import RollTask
from quoting.forming.plate import cylinder_strain, strain_flags
from quoting.forming.plate.strain import RoundnessRule, out_of_roundness_mm
from tests.quoting.forming.shop import MILD, RULES, assess, job, light_roll


def flags_of(task: RollTask) -> tuple[str, ...]:
    return strain_flags(task, float(cylinder_strain(task.thickness_mm, task.bend_radius_mm)))


def test_a_tight_shell_is_flagged_for_the_code_and_not_refused() -> None:
    task = job(8.0, 200, 140, arc_deg=90)
    assert float(cylinder_strain(8.0, task.bend_radius_mm)) == pytest.approx(50 * 8 / 74)
    assert flags_of(task) == (
        "forming strain 5.4 % is over 5 %: check the code for heat treatment after forming",
    )
    verdict = assess(task, light_roll(), RULES)
    assert flags_of(task)[0] in verdict.flags


def test_an_easy_shell_has_no_flags() -> None:
    assert flags_of(job(6.0, 900, 600)) == ()


def test_very_hard_bends_and_brittle_grades() -> None:
    assert any("over 40 %" in flag for flag in flags_of(job(10.0, 100, 12)))
    stiff = replace(MILD, key="wear plate", least_bend_radius_t=6.0)
    flags = flags_of(job(6.0, 500, 60, material=stiff))
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
