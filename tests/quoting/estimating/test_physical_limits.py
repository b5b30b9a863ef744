"""What no rating says: too short for the roll, too heavy for the crane, too large for the door."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Ends, OrderLine, State
from quoting.estimating import LineResult, estimate
from quoting.shop import Shop
from tests.quoting.lines import order, shell

INCH = 25.4


def price_one(shop: Shop, line: OrderLine) -> LineResult:
    (found,) = estimate([order(line)], shop, today=date(2026, 11, 30), effort="quick").lines
    return found


def arc(radius_in: float, angle: float, width_in: float = 6) -> Arc:
    return Arc(radius_in * INCH, Basis.INSIDE, angle, width_in * INCH)


def test_a_piece_that_does_not_reach_the_bending_roll_is_refused_and_offered_longer(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", shape=arc(10, 10), ends=Ends.PRE_BEND))
    assert found.state is State.NO_QUOTE
    assert 'only 1.768" long' in found.reason
    assert "must reach the bending roll" in found.reason
    assert "extra length at both ends" in found.nearest[0]
    assert "about" in found.nearest[0]


def test_a_press_is_offered_for_a_short_piece_with_its_price_where_it_takes_the_plate(shop: Shop) -> None:
    short = shell("A-1", shape=arc(10, 10), ends=Ends.PRE_BEND)
    found = price_one(shop, short)
    assert any("in a press, bought in without extra length, about" in offer for offer in found.offers)
    chosen = price_one(shop, replace(short, ends=None))
    assert chosen.state is State.PRICED
    assert "in a press" in chosen.offers[0]
    rules = replace(shop.operations.press, here=True)
    own = replace(shop, operations=replace(shop.operations, press=rules))
    assert any("on our press" in offer for offer in price_one(own, short).offers)
    weak = replace(shop.operations.press, thickest_mm=3.0)
    none = replace(shop, operations=replace(shop.operations, press=weak))
    assert not any("press" in offer for offer in price_one(none, short).offers)


def test_a_cheaper_press_is_told_to_the_customer_and_a_dearer_one_only_to_the_estimator(shop: Shop) -> None:
    short = shell("A-1", shape=arc(10, 10), quantity=20, ends=None)
    cheaper = price_one(shop, short)
    assert cheaper.price
    assert cheaper.told == cheaper.offers != ()
    quiet = replace(shop.operations.press, offer_cheaper=False)
    silent = price_one(replace(shop, operations=replace(shop.operations, press=quiet)), short)
    assert silent.told == ()
    assert silent.offers == cheaper.offers
    dear = replace(shop.operations.press, least=Decimal(5000))
    dearer = price_one(replace(shop, operations=replace(shop.operations, press=dear)), short)
    assert dearer.told == ()
    assert dearer.offers


def test_plate_thicker_than_the_rolls_open_says_so_beside_the_load(shop: Shop) -> None:
    thick = shell("A-1", shape=Cylinder(48 * INCH, Basis.OUTSIDE, 24 * INCH), thickness_mm=50.8)
    found = price_one(shop, replace(thick, free_issue=True))
    assert found.state is State.NO_QUOTE
    assert found.reason.startswith("bending-roll bending: ")
    assert "; largest thickness: 133%" in found.reason


def test_what_the_rolls_reach_needs_no_press(shop: Shop) -> None:
    assert price_one(shop, shell("A-1")).offers == ()


def test_without_slide_geometry_a_short_piece_is_not_priced_as_if_it_reached(shop: Shop) -> None:
    """A roll whose slide nobody measured bends no 1.8 in piece either: its bending roll is a roll away."""
    unmeasured = replace(shop, rolls=tuple(replace(roll, slide=None) for roll in shop.rolls))
    found = price_one(unmeasured, shell("A-1", shape=arc(10, 10), ends=Ends.PRE_BEND))
    assert found.state is State.NO_QUOTE
    assert "must reach the bending roll" in found.reason
    assert price_one(unmeasured, shell("A-1", ends=Ends.PRE_BEND)).state is State.PRICED


def test_where_the_ends_are_ours_to_choose_it_is_rolled_longer_and_cut(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", shape=arc(10, 10), ends=None))
    assert found.state is State.PRICED
    assert found.route
    assert found.route.ends is Ends.TRIM
    (rolling,) = found.route.rollings
    assert rolling.passes.least_length_mm
    assert rolling.blank.flat_length_mm >= rolling.passes.least_length_mm - 1e-6


@pytest.mark.parametrize("angle", [20, 40, 60, 90])
def test_no_priced_piece_is_shorter_than_its_roll_needs(shop: Shop, angle: float) -> None:
    found = price_one(shop, shell("A-1", shape=arc(12, angle), ends=Ends.PRE_BEND))
    if found.state is State.PRICED:
        assert found.route
        for rolling in found.route.rollings:
            least = rolling.passes.least_length_mm
            assert least is None or rolling.blank.flat_length_mm >= least


def test_each_end_is_trimmed_by_its_own_flat(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", ends=Ends.TRIM))
    assert found.route
    (rolling,) = found.route.rollings
    assert rolling.blank.trim_mm == pytest.approx(rolling.passes.flat_lead_mm)
    assert rolling.blank.trim_tail_mm == pytest.approx(rolling.passes.flat_tail_mm)
    assert rolling.blank.trim_tail_mm < rolling.blank.trim_mm


def test_a_piece_heavier_than_the_crane_lifts_is_refused(shop: Shop) -> None:
    weak = replace(shop, lifting=replace(shop.lifting, crane_capacity_kg=50.0))
    found = price_one(weak, shell("A-1"))
    assert found.state is State.NO_QUOTE
    assert "more than our crane lifts" in found.reason


def test_a_shell_that_does_not_pass_the_door_is_refused_and_a_flat_arc_is_not(shop: Shop) -> None:
    ring = Cylinder(90 * INCH, Basis.INSIDE, 96 * INCH)
    narrow = replace(shop, lifting=replace(shop.lifting, door_width_mm=2000.0, door_height_mm=2000.0))
    found = price_one(narrow, shell("A-1", shape=ring, thickness_mm=9.525))
    assert found.state is State.NO_QUOTE
    assert "does not pass our door" in found.reason
    flat = price_one(narrow, shell("A-1", shape=arc(90, 30, 96), thickness_mm=9.525))
    assert flat.state is State.PRICED


@pytest.mark.parametrize(
    "shape",
    [
        Arc(13.0, Basis.INSIDE, 180.0, 3500.0),
        Cylinder(26.0, Basis.INSIDE, 3500.0),
        Cylinder(30.0, Basis.OUTSIDE, 3500.0),
        Cone(60.0, 50.0, Basis.OUTSIDE, 300.0),
    ],
)
def test_a_bend_beyond_any_flat_length_declines_its_line_and_no_other(
    shop: Shop, shape: Arc | Cylinder | Cone
) -> None:
    tight = shell("A-1", shape=shape, thickness_mm=31.75)
    found = estimate([order(tight, shell("A-2"))], shop, today=date(2026, 11, 30), effort="quick").lines
    assert [line.state for line in found] == [State.NO_QUOTE, State.PRICED]
    assert "far tighter than any plate roll" in found[0].reason
