"""A strip too narrow for the shear is cut by heat, not refused."""

from __future__ import annotations

from datetime import date

from quoting.core import Basis, Cylinder, State
from quoting.estimating import estimate
from quoting.shop import Shop
from tests.quoting.lines import order, shell


def test_a_ring_narrower_than_the_least_strip_is_cut_by_heat(shop: Shop) -> None:
    ring = Cylinder(762.0, Basis.OUTSIDE, 30.0)
    found = estimate([order(shell("A-1", shape=ring))], shop, today=date(2026, 11, 30), effort="quick")
    (line,) = found.lines
    assert line.state is State.PRICED
    (group,) = found.nests
    assert group.problem.cutting.method == "thermal"
