"""Girth welds in fabricated pipe against API Specification 2B (sixth edition, 2001, and 2007 text).

1.1: typically 14 in outside diameter and larger, wall 3/8 in and greater. 5.5: "No two girth welds shall be
located closer together than one pipe diameter or 3 ft, whichever is less. There shall be no more than two
girth welds in any 10-ft interval of pipe." Read in public extracts of the standard.
"""

from __future__ import annotations

import pytest

from quoting.blanks import HowCut, develop
from quoting.blanks.courses import girth_weld_notes
from quoting.core import Basis, Cylinder, Ends

FT = 304.8
INCH = 25.4


def test_three_welds_within_ten_feet_are_named() -> None:
    assert any("any 10 ft" in note for note in girth_weld_notes(24 * INCH, 12.7, (5 * FT,) * 4))
    assert not girth_weld_notes(24 * INCH, 12.7, (5.1 * FT,) * 4)


def test_two_welds_are_never_too_many() -> None:
    assert not girth_weld_notes(24 * INCH, 12.7, (4 * FT,) * 3)


@pytest.mark.parametrize(("diameter_in", "least_ft"), [(24, 2.0), (60, 3.0)])
def test_spacing_is_a_diameter_or_three_feet_whichever_is_less(diameter_in: float, least_ft: float) -> None:
    closer, apart = (8 * FT, (least_ft - 0.01) * FT, 8 * FT), (8 * FT, (least_ft + 0.01) * FT, 8 * FT)
    assert any("no closer than" in note for note in girth_weld_notes(diameter_in * INCH, 12.7, closer))
    assert not girth_weld_notes(diameter_in * INCH, 12.7, apart)


def test_small_or_thin_shells_are_out_of_scope() -> None:
    assert not girth_weld_notes(13.9 * INCH, 12.7, (FT,) * 5)
    assert not girth_weld_notes(24 * INCH, 9.0, (FT,) * 5)


def test_the_blank_plan_says_it_conditionally() -> None:
    plan = develop(Cylinder(610, Basis.OUTSIDE, 5000), 12.7, 7850, ends=Ends.PRE_BEND, how=HowCut(courses=5))
    notes = [note for note in plan.notes if "API 2B" in note]
    assert notes
    assert all(note.startswith("if this is fabricated pipe") for note in notes)
