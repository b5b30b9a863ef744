"""A customer's tolerance becomes the girth to reach only where it says so on both sides."""

from __future__ import annotations

from dataclasses import replace
from math import pi
from typing import Any

import pytest

from quoting.core import Basis, ToleranceOn
from quoting.record import ArcRecord, CylinderRecord, ToleranceRecord
from scheduler.jobs import WonLine
from scheduler.papers.checks import checks_of
from scheduler.papers.limits import girth_band_mm, roundness_limit_mm
from scheduler.papers.sizes import Sizes
from tests.scheduler.books.sample import LIGHT, line

OD = CylinderRecord("cylinder", Basis.OUTSIDE, 1000.0, 1500.0)


class Told:
    """The little of a record's line that a check asks for."""

    def __init__(self, words: str, *tolerances: ToleranceRecord, shape: Any = OD) -> None:
        self.tolerance, self.tolerances, self.shape = words, tolerances, shape


def _won(told: Any) -> WonLine:
    return replace(line("L-1", LIGHT, diameter_mm=980.0, thickness_mm=10.0), told=told)


def _on(kind: ToleranceOn, value_mm: float = 0.0, share: float = 0.0, code: str = "") -> ToleranceRecord:
    return ToleranceRecord(kind, value_mm, share, code)


def test_three_mm_on_the_diameter_are_nine_and_a_half_on_the_tape() -> None:
    won = _won(Told("OD +/- 3 mm", _on(ToleranceOn.DIAMETER, 3.0)))
    assert girth_band_mm(won, 1000.0) == pytest.approx((pi * 997, pi * 1003))
    assert dict(checks_of(won, None, Sizes(False)))["Girth outside"] == "3132.2 to 3151.0 mm"


def test_a_tolerance_to_one_side_is_a_band_to_that_side() -> None:
    sided = ToleranceRecord(ToleranceOn.DIAMETER, 1.5, 0.0, "", (0.0, 3.0))
    won = _won(Told("OD +0 -3 mm", sided))
    assert girth_band_mm(won, 1000.0) == pytest.approx((pi * 997, pi * 1000))


def test_the_tighter_of_diameter_and_circumference_holds() -> None:
    both = (_on(ToleranceOn.DIAMETER, 3.0), _on(ToleranceOn.CIRCUMFERENCE, 5.0))
    assert girth_band_mm(_won(Told("± 3 dia, ± 5 circ", *both)), 1000.0) == pytest.approx(
        (pi * 1000 - 5, pi * 1000 + 5)
    )


@pytest.mark.parametrize("words", ["+6/-0", "+ 6 mm, - 0", "plus 6 minus 0", "see drawing", ""])
def test_one_sided_or_untold_limits_stay_words(words: str) -> None:
    won = _won(Told(words, _on(ToleranceOn.DIAMETER, 3.0)))
    assert girth_band_mm(won, 1000.0) is None
    assert " to " not in dict(checks_of(won, None, Sizes(False)))["Girth outside"]


def test_an_arc_has_no_girth_to_reach() -> None:
    arc = ArcRecord("arc", Basis.INSIDE, 500.0, 90.0, 1500.0)
    assert girth_band_mm(_won(Told("+/- 3", _on(ToleranceOn.DIAMETER, 3.0), shape=arc)), 1000.0) is None


def test_the_roundness_limit_is_the_orders_own() -> None:
    won = _won(Told("out of round 4 mm", _on(ToleranceOn.ROUND, 4.0)))
    rows = dict(checks_of(won, None, Sizes(False)))
    assert rows["Max less min dia"] == "4 mm at most"
    assert rows["Max less min"] == ""
    assert roundness_limit_mm(_won(Told("UG-80", _on(ToleranceOn.ROUND, code="UG-80")))) == pytest.approx(9.8)


def test_a_plus_or_minus_is_not_taken_for_the_roundness() -> None:
    assert roundness_limit_mm(_won(Told("+/- 3 on OD, 6 out of round", _on(ToleranceOn.ROUND, 3.0)))) is None
