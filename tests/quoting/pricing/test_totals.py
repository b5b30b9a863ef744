"""Order totals, and money shared out without losing a cent."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from quoting.core import RangeError
from quoting.pricing import LinePrice, allocate, price_line, priced_at, total_order
from tests.quoting.pricing.samples import CUTTING, DRIVERS, RATES, RULES


def sold_at(unit: str, quantity: int = 1) -> LinePrice:
    return priced_at(price_line(replace(DRIVERS, quantity=quantity), RATES, RULES, CUTTING), Decimal(unit))


def test_the_total_is_the_sum_of_the_rounded_lines() -> None:
    total = total_order([sold_at("155.63", 8), sold_at("33.34", 3)], RULES)
    assert total.lines == Decimal("1345.06")
    assert total.minimum_top_up == 0
    assert total.tax == Decimal("110.97")  # 8.25 % of 1345.06 = 110.96745
    assert total.total == Decimal("1456.03")


def test_a_small_order_is_topped_up_to_the_least_order() -> None:
    total = total_order([sold_at("100")], RULES)
    assert total.minimum_top_up == 150
    assert total.before_tax == 250
    assert total.tax == Decimal("20.63")  # 20.625 rounds half up


def test_an_order_with_no_priced_line_costs_nothing() -> None:
    assert total_order([], RULES).total == 0


def test_a_negative_tax_is_refused() -> None:
    with pytest.raises(RangeError, match=r"tax share = -0\.1 is out of range: 0 or more"):
        total_order([], replace(RULES, tax_share=Decimal("-0.1")))


def test_the_cents_left_over_go_to_the_largest_remainders() -> None:
    # 4.2857, 4.2857 and 1.42857: two cents are left over, for the third line and then the first
    assert allocate(Decimal("10.00"), (3, 3, 1)) == (Decimal("4.29"), Decimal("4.28"), Decimal("1.43"))
    assert allocate(Decimal("0.01"), (1, 1)) == (Decimal("0.01"), Decimal("0.00"))


def test_an_amount_finer_than_a_cent_is_still_shared_exactly() -> None:
    assert sum(allocate(Decimal("10.12345"), (1, 2, 4))) == Decimal("10.12345")


def test_a_piece_that_weighs_nothing_pays_nothing() -> None:
    assert allocate(Decimal("7.77"), (0, 1)) == (Decimal("0.00"), Decimal("7.77"))


@pytest.mark.parametrize(
    ("amount", "weights", "message"),
    [
        (Decimal(10), (), "sum of weights = 0"),
        (Decimal(10), (0, 0), "sum of weights = 0"),
        (Decimal(10), (1, -1), "weight = -1"),
        (Decimal(10), (1, float("nan")), "weight = nan"),
        (Decimal(-1), (1,), "amount to share out = -1"),
        (Decimal("NaN"), (1,), "amount to share out = NaN"),
    ],
)
def test_shares_that_make_no_sense_are_refused(
    amount: Decimal, weights: tuple[float, ...], message: str
) -> None:
    with pytest.raises(RangeError, match=message):
        allocate(amount, weights)


@given(st.decimals(0, 1_000_000, places=2), st.lists(st.floats(0, 1e6), min_size=1, max_size=40))
def test_shares_add_up_and_are_within_a_cent_of_exact(amount: Decimal, weights: list[float]) -> None:
    assume(sum(weights) > 1e-3)
    shares = allocate(amount, weights)
    assert sum(shares) == amount
    for share, weight in zip(shares, weights, strict=True):
        assert share >= 0
        assert float(share) == pytest.approx(float(amount) * weight / sum(weights), abs=0.0101, rel=1e-9)
