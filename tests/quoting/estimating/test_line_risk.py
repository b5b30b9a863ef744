"""The chance of losing money, from the estimate of each line."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from quoting.estimating import Estimate, LineResult, estimate, with_risk
from quoting.estimating.with_risk import risk_input, simulate_lines
from quoting.labour import roll_minutes
from tests.quoting.books import factories


@pytest.fixture(scope="module")
def run() -> Estimate:
    return with_risk(factories.run())


def _line(found: Estimate, id: str) -> LineResult:
    return next(line for line in found.lines if line.line.id == id)


def test_every_priced_line_and_order_has_its_spread(run: Estimate) -> None:
    for result in run.lines:
        assert (result.risk is None) == (result.price is None)
        if result.risk:
            cost = result.risk.cost
            assert cost.p10 <= cost.p50 <= cost.p90
    assert all(order.risk is not None for order in run.orders)


def test_the_same_seed_gives_the_same_risk(run: Estimate) -> None:
    assert with_risk(factories.run()) == run
    other = with_risk(replace(factories.run(), seed=1))
    assert _line(other, "t-10").risk != _line(run, "t-10").risk


def test_rolling_minutes_leave_out_the_chances_that_are_drawn(run: Estimate) -> None:
    result = _line(run, "t-10")
    assert result.route is not None
    shop = factories.shop()
    certain = replace(shop.labour, re_roll_chance=0.0, scrap_chance=0.0)
    without = sum(roll_minutes(rolling.task, certain).total.high for rolling in result.route.rollings)
    given = risk_input(result, shop)
    assert given.rolling.high == pytest.approx(without)
    assert given.rolling.high < result.route.minutes.high
    assert given.rolling.likely == pytest.approx(result.route.minutes.likely)


def test_a_known_yield_leaves_no_scatter_in_the_strength(run: Estimate) -> None:
    result = _line(run, "t-10")
    assert risk_input(result, factories.shop()).yield_ratio.high > 1
    certified = replace(result, line=replace(result.line, yield_mpa=280.0))
    assert risk_input(certified, factories.shop()).yield_ratio.high == 1


def test_free_issue_plate_is_owed_by_the_shops_share(run: Estimate) -> None:
    shop = factories.shop()
    result = _line(run, "m-2")
    assert risk_input(result, shop).lost_piece == 0
    owing = replace(shop, risk=replace(shop.risk, free_issue_owed_share=1.0))
    blank = result.routes[0].rollings[0].blank
    value = Decimal(str(round(blank.weight_kg, 4))) * shop.material("A36").price_per_kg
    assert risk_input(result, owing).lost_piece == value.quantize(Decimal("0.01"))


def test_thresholds_are_the_shops(run: Estimate) -> None:
    def reasons(**settings: float) -> str:
        shop = factories.shop()
        shop = replace(shop, risk=replace(shop.risk, **settings))  # type: ignore[arg-type]
        report = simulate_lines([_line(run, "t-50")], shop, 0)
        assert report is not None
        return " ".join(report.lines[0].reasons)

    assert "heavy" in reasons(heavy_kg=1.0)
    assert "heavy" not in reasons(heavy_kg=1e6)
    assert "thin and wide" in reasons(thin_wide=10.0)


def test_a_shop_that_spoils_nothing_and_varies_nothing_loses_nothing() -> None:
    shop = factories.shop()
    sure = replace(
        shop,
        labour=replace(shop.labour, re_roll_chance=0.0, scrap_chance=0.0),
        risk=replace(shop.risk, thickness_under_mm=0.0, thickness_over_mm=0.0),
    )
    run = with_risk(estimate((factories.tidy(),), sure, today=factories.TODAY, effort="quick"))
    risk = _line(run, "t-20").risk
    assert risk is not None
    assert risk.cost.loss_chance == 0
