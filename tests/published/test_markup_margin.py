"""Markup is a share of the cost, margin the same money as a share of the price.

Sources:
[1] "Margin -> Markup chart", marginvsmarkup.com/chart/: margin = markup / (1 + markup), markup = margin /
    (1 - margin); 20 % margin = 25 % markup, 33.33 % = 50 %, 50 % = 100 %.
[2] Question 66334, algebra.com: bought at 12,000 and sold at 15,000 is 25 % markup on the purchase price and
    20 % on the selling price.
[3] Worked out by arithmetic: markup 20 % = margin 16.7 %, 30 % = 23.1 %, 50 % = 33.3 %.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.pricing import LinePrice, price_line, priced_at
from tests.quoting.pricing.samples import CUTTING, DRIVERS, RATES, RULES

BARE = replace(
    DRIVERS,
    quantity=1,
    plate_cost=Decimal(0),
    drop_credit=Decimal(0),
    cutting_cost=Decimal(12_000),
    edge_m=0,
    setup_minutes=0,
    rolling_minutes=0,
    crane_minutes=0,
    outside_cost=Decimal(0),
    certificate=False,
)


def processing_only(margin: Decimal) -> LinePrice:
    """Return a line of 12,000 of processing at cost, priced by this margin."""
    return price_line(BARE, RATES, replace(RULES, overhead_share=Decimal(0), margin=margin), CUTTING)


def test_a_margin_of_twenty_per_cent_sells_twelve_thousand_at_fifteen() -> None:  # [2]
    line = processing_only(Decimal("0.20"))
    assert line.parts.cost == 12_000
    assert line.extended == 15_000
    assert line.markup == Decimal("0.25")
    assert line.margin == Decimal("0.20")


@pytest.mark.parametrize(
    ("markup", "margin"),
    [("20", "16.7"), ("25", "20.0"), ("30", "23.1"), ("50", "33.3"), ("100", "50.0")],
)
def test_a_markup_and_its_margin(markup: str, margin: str) -> None:  # [1] and [3]
    line = priced_at(processing_only(Decimal(0)), 120 * (100 + Decimal(markup)))
    assert line.markup * 100 == Decimal(markup)
    assert round(line.margin * 100, 1) == Decimal(margin)


@given(st.decimals(0, Decimal("0.95"), places=3))
def test_the_two_conversions(margin: Decimal) -> None:  # [1]
    line = processing_only(margin)
    assert abs(line.margin - margin) < Decimal("1e-5")
    assert abs(line.markup - margin / (1 - margin)) < Decimal("1e-5")
    assert abs(line.margin - line.markup / (1 + line.markup)) < Decimal("1e-20")
