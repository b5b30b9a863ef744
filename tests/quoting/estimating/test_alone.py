"""A price that leans on another customer's blanks says what it would be without them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from quoting.core import Order
from quoting.estimating import Estimate, estimate, priced_alone, with_alone
from quoting.shop import Shop
from tests.quoting.lines import order, shell

TODAY = date(2026, 11, 30)


def run(shop: Shop, *orders: Order) -> Estimate:
    return with_alone(estimate(orders, shop, today=TODAY, effort="quick"))


def test_an_order_alone_is_what_a_run_of_it_alone_makes(shop: Shop) -> None:
    first = order(shell("A-1"), shell("A-2", thickness_mm=9.525))
    second = replace(order(shell("B-1", quantity=3)), file="other.xlsx", customer="Other (invented)")
    both = run(shop, first, second)
    for found, single in zip(both.orders, (first, second), strict=True):
        (alone,) = run(shop, single).orders
        assert found.alone == alone.total.before_tax
        assert alone.alone is None


def test_an_order_that_shares_no_plate_has_none(shop: Shop) -> None:
    first = order(shell("A-1"))
    second = replace(order(shell("B-1", thickness_mm=9.525)), file="other.xlsx", customer="Other (invented)")
    assert [found.alone for found in run(shop, first, second).orders] == [None, None]


def test_priced_alone_an_order_costs_what_a_run_of_it_alone_makes(shop: Shop) -> None:
    first = order(shell("A-1"), shell("A-2", thickness_mm=9.525))
    second = replace(order(shell("B-1", quantity=3)), file="other.xlsx", customer="Other (invented)")
    both = priced_alone(estimate((first, second), shop, today=TODAY, effort="quick"))
    assert any("as if it were the only one" in text for text in both.warnings)
    for found, single in zip(both.orders, (first, second), strict=True):
        (alone,) = estimate((single,), shop, today=TODAY, effort="quick").orders
        assert found.total == alone.total
        for line, by_itself in zip(found.lines, alone.lines, strict=True):
            assert line.price == by_itself.price
            assert line.breaks == by_itself.breaks


def test_equal_lines_cost_equal_cents(shop: Shop) -> None:
    alike = [shell(f"A-{number}") for number in range(1, 8)]
    found = estimate((order(*alike, shell("A-9", quantity=2)),), shop, today=TODAY, effort="quick")
    prices = {result.price.unit for result in found.lines[:7] if result.price}
    assert len(prices) == 1
