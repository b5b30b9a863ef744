"""Break prices: never under the floor, never rising unsaid."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import RangeError
from quoting.pricing import LinePrice, break_prices, price_line
from quoting.pricing.price_parts import BreakRule
from tests.quoting.pricing.samples import CUTTING, DRIVERS, RATES, RULES


def plan(plate_each: dict[int, int], margin: str = "0.24") -> Callable[[int], LinePrice]:
    """Return the price at a quantity when each piece takes this much plate and 15 minutes."""

    def at(quantity: int) -> LinePrice:
        drivers = replace(
            DRIVERS,
            quantity=quantity,
            plate_cost=Decimal(plate_each[quantity] * quantity),
            drop_credit=Decimal(0),
            rolling_minutes=15.0 * quantity,
        )
        return price_line(drivers, RATES, replace(RULES, margin=Decimal(margin)), CUTTING)

    return at


def test_the_set_up_spread_over_more_pieces_makes_the_break() -> None:
    offers = break_prices(plan({1: 50, 5: 50, 10: 50}), (10, 1, 5, 5))
    assert [offer.quantity for offer in offers] == [1, 5, 10]
    assert offers[0].unit > offers[1].unit > offers[2].unit
    assert all(offer.rule is BreakRule.AS_PRICED and not offer.note for offer in offers)


def test_a_plate_that_has_to_be_opened_may_raise_the_price_and_the_note_says_so() -> None:
    offers = break_prices(plan({5: 50, 6: 120}), (5, 6), opened=lambda quantity: quantity == 6)
    assert offers[1].unit > offers[0].unit
    assert offers[1].rule is BreakRule.PLATE_OPENED
    assert offers[1].note == "6 pieces need another plate, so each costs more than at 5"


def test_without_a_new_plate_the_smaller_quantitys_price_is_held() -> None:
    priced = plan({5: 50, 6: 65})
    offers = break_prices(priced, (5, 6))
    assert priced(6).unit > priced(5).unit
    assert offers[1].unit == offers[0].unit
    assert offers[1].extended == offers[0].unit * 6
    assert offers[1].rule is BreakRule.HELD
    assert offers[1].note == "each held at the price for 5"


def test_the_price_is_held_only_as_far_as_the_floor_allows() -> None:
    priced = plan({5: 50, 6: 400})
    offers = break_prices(priced, (5, 6))
    assert offers[1].unit == priced(6).floor_unit > offers[0].unit
    assert offers[1].rule is BreakRule.FLOOR
    assert offers[1].note == "each costs more to make than at 5"


def test_a_price_under_the_floor_is_raised_to_it() -> None:
    priced = plan({1: 500, 2: 500}, margin="0")
    cheap = lambda quantity: replace(  # noqa: E731 - a line sold below the floor by decision
        priced(quantity), unit=Decimal(1), extended=Decimal(quantity), under_floor=True
    )
    offers = break_prices(cheap, (1, 2))
    assert [offer.unit for offer in offers] == [priced(1).floor_unit, priced(2).floor_unit]
    assert offers[0].rule is BreakRule.FLOOR


def test_a_note_never_speaks_of_the_floor_to_the_customer() -> None:
    offers = break_prices(plan({1: 50, 2: 400, 5: 410, 6: 420}), (1, 2, 5, 6), opened=lambda q: q == 5)
    assert not any("floor" in offer.note or "margin" in offer.note for offer in offers)


def test_a_quantity_of_none_is_refused() -> None:
    with pytest.raises(RangeError, match="break quantity = 0 is out of range: 1 or more"):
        break_prices(plan({0: 1}), (0,))


@given(
    st.dictionaries(st.integers(1, 60), st.integers(0, 900), min_size=1, max_size=8),
    st.sets(st.integers(1, 60)),
    st.sampled_from(["0", "0.05", "0.24"]),
)
def test_no_break_is_under_the_floor_and_every_rise_has_its_reason(
    plates: dict[int, int], opened: set[int], margin: str
) -> None:
    priced = plan(plates, margin)
    offers = break_prices(priced, plates, opened.__contains__)
    for offer in offers:
        assert offer.unit >= priced(offer.quantity).floor_unit
        assert offer.extended == offer.unit * offer.quantity
    for smaller, larger in pairwise(offers):
        if larger.unit > smaller.unit:
            assert larger.note
            forced = priced(larger.quantity).floor_unit > smaller.unit
            assert larger.quantity in opened or forced
