from __future__ import annotations

from math import atan2, cos

import pytest

from quoting.blanks import develop
from quoting.core import Basis, Cone, Cylinder, Ends
from quoting.forming import RollTask
from tests.quoting.forming.shop import MILD


def test_a_blank_becomes_a_task() -> None:
    plan = develop(Cylinder(600, Basis.INSIDE, 900), 6.0, MILD.density_kg_m3, ends=Ends.PRE_BEND)
    blank = plan.blanks[0]
    task = RollTask.of(blank, MILD, 312.0, re_round=True)
    assert (task.thickness_mm, task.width_mm, task.inside_diameter_mm) == (6.0, 900, 600)
    assert task.closed
    assert task.re_round
    assert task.weight_kg == blank.weight_kg
    assert task.load_yield_mpa == task.shape_yield_mpa == 312.0


def test_without_certificate_loads_take_the_least_and_positions_the_likely_yield() -> None:
    plan = develop(Cylinder(600, Basis.INSIDE, 900), 6.0, MILD.density_kg_m3, ends=Ends.PRE_BEND)
    task = RollTask.of(plan.blanks[0], MILD)
    assert (task.load_yield_mpa, task.shape_yield_mpa) == (250, 300)


def test_a_cone_is_as_wide_as_its_slant_and_as_tight_as_its_small_end() -> None:
    plan = develop(Cone(600, 400, Basis.MEAN, 500), 4.0, MILD.density_kg_m3, ends=Ends.PRE_BEND)
    task = RollTask.of(plan.blanks[0], MILD)
    assert task.width_mm == pytest.approx((500**2 + 100**2) ** 0.5)
    assert task.bend_radius_mm == pytest.approx(200 / cos(atan2(100, 500)))
