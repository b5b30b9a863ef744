"""Who lifts: one person, two, or the crane."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.blanks import HowCut, develop
from quoting.core import Basis, Cone, Cylinder, Ends, RangeError
from quoting.labour import LiftMethod, PieceSize, choose_lift, two_person_limit
from quoting.labour.lifting import needs_support
from tests.quoting.labour.shop_settings import LIFT_RULES

SMALL = PieceSize(500, 1500, 480)
LARGE_THIN = PieceSize(1000, 6000, 1900)

ORDER = (LiftMethod.HAND, LiftMethod.TWO_PEOPLE, LiftMethod.CRANE, LiftMethod.CRANE_OVERHEAD)


@given(st.floats(0.1, 5000), st.floats(0, 5000), st.floats(0.5, 40))
def test_a_heavier_piece_never_needs_less_help(weight: float, more: float, thickness: float) -> None:
    light = choose_lift(weight, thickness, SMALL, LIFT_RULES)
    heavy = choose_lift(weight + more, thickness, SMALL, LIFT_RULES)
    assert ORDER.index(light.method) <= ORDER.index(heavy.method)
    assert light.crew <= heavy.crew


@given(st.floats(0.1, 5000), st.floats(0.5, 40))
def test_nobody_lifts_more_than_the_settings_say(weight: float, thickness: float) -> None:
    lift = choose_lift(weight, thickness, SMALL, LIFT_RULES)
    if lift.method is LiftMethod.HAND:
        assert weight <= LIFT_RULES.hand_limit_kg
    if not lift.method.crane:
        assert weight <= two_person_limit(LIFT_RULES)
        assert thickness <= LIFT_RULES.crane_over_thickness_mm or lift.method is LiftMethod.HAND


def test_a_four_by_eight_of_sixteen_gauge_beats_one_person() -> None:
    # 48 x 96 in, 0.0598 in steel: 78 lb = 35 kg, over one person's and two people's limit here
    assert choose_lift(35.4, 1.52, SMALL, LIFT_RULES).method.crane
    assert choose_lift(15.0, 1.52, SMALL, LIFT_RULES).method is LiftMethod.TWO_PEOPLE


def test_a_small_thick_piece_goes_by_hand_with_a_tool_and_a_heavier_one_by_crane() -> None:
    light = choose_lift(4.0, 10.0, SMALL, LIFT_RULES)
    assert light.method is LiftMethod.HAND
    assert any("tongs" in line for line in light.cautions)
    assert not any("Crane" in line for line in light.cautions)
    heavy = choose_lift(15.0, 10.0, SMALL, LIFT_RULES)
    assert heavy.method is LiftMethod.CRANE
    assert heavy.why == "piece 15 kg (33 lb) is over one person's limit, and plate is over 6.5 mm thick"


def test_a_long_piece_takes_two_however_light() -> None:
    strip = PieceSize(50, 4000, 1270)
    lift = choose_lift(5.0, 3.0, replace(strip, diameter_mm=300), LIFT_RULES)
    assert lift.method is LiftMethod.TWO_PEOPLE
    assert "long" in lift.why


def test_thin_and_large_hangs_from_the_crane_while_it_closes() -> None:
    lift = choose_lift(150.0, 3.0, LARGE_THIN, LIFT_RULES)
    assert lift.method is LiftMethod.CRANE_OVERHEAD
    assert any(line.startswith("Overhead support") for line in lift.cautions)
    assert "hangs from the crane" in lift.why


def test_thin_but_light_takes_a_second_person_and_no_crane() -> None:
    duct = PieceSize(300, 950, 300)
    lift = choose_lift(2.5, 0.9, duct, LIFT_RULES)
    assert lift.method is LiftMethod.TWO_PEOPLE
    assert "one holds it" in lift.why
    assert lift.cautions == ("Thin for its diameter: a second person holds it up as it closes.",)


def test_a_shallow_arc_lies_on_the_tables_and_needs_no_support() -> None:
    assert not needs_support(3.0, replace(LARGE_THIN, arc_deg=60), LIFT_RULES)
    assert needs_support(3.0, LARGE_THIN, LIFT_RULES)


def test_size_of_a_cone_is_taken_at_its_large_end() -> None:
    (blank,) = develop(Cone(1500, 700, Basis.MEAN, 900), 3, 7850, ends=Ends.PRE_BEND).blanks
    assert PieceSize.of(blank).diameter_mm == 1500
    (shell,) = develop(Cylinder(900, Basis.MEAN, 400), 3, 7850, ends=Ends.TRIM, how=HowCut(trim_mm=50)).blanks
    assert PieceSize.of(shell).length_mm == pytest.approx(shell.girth_mm + 100)


def test_weightless_plate_is_refused() -> None:
    with pytest.raises(RangeError, match="more than 0"):
        choose_lift(0.0, 3.0, SMALL, LIFT_RULES)
