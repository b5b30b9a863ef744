"""The roll is chosen by what it may cost, and a springback nobody can promise is refused."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from quoting.core import Basis, Cylinder, OrderLine, State
from quoting.estimating import LineResult, estimate, with_risk
from quoting.estimating.judging.trouble import over_rating_chance, thickness_ratio
from quoting.labour import trial_passes
from quoting.shop import Shop
from tests.quoting.lines import order, shell

INCH = 25.4


def price_one(shop: Shop, line: OrderLine) -> LineResult:
    (found,) = with_risk(estimate([order(line)], shop, today=date(2026, 11, 30), effort="quick")).lines
    return found


def cylinder(diameter_in: float, length_in: float) -> Cylinder:
    return Cylinder(diameter_in * INCH, Basis.INSIDE, length_in * INCH)


HALF_INCH = {"shape": cylinder(60, 96), "thickness_mm": 12.7}


def test_a_roll_that_is_likely_too_weak_gives_way_to_the_stronger_one(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", **HALF_INCH))
    assert found.route
    assert found.route.roll == "Heavy 10 ft"
    assert found.route.trouble_chance < 0.01
    (other,) = found.routes[1:]
    assert other.trouble_chance > 0.5


def test_a_shop_that_takes_the_risk_gets_the_cheaper_hour(shop: Shop) -> None:
    bold = replace(shop, risk=replace(shop.risk, trouble_weight=0.0, most_trouble_chance=1.0))
    found = price_one(bold, shell("A-1", **HALF_INCH))
    assert found.route
    assert found.route.rough_cost == min(route.rough_cost for route in found.routes)


def test_the_chance_is_that_of_the_draws(shop: Shop) -> None:
    line = shell("A-1", shape=cylinder(48, 96), thickness_mm=9.525)
    found = price_one(shop, line)
    assert found.route
    assert found.risk
    assert found.route.trouble_chance == pytest.approx(found.risk.over_rating_chance, abs=0.05)


def test_the_chance_rises_with_the_share_and_a_certificate_settles_the_yield(shop: Shop) -> None:
    line = shell("A-1", thickness_mm=12.7)
    chances = [over_rating_chance(used, line, shop) for used in (0.3, 0.6, 0.8, 0.9, 1.0, 1.2)]
    assert chances == sorted(chances)
    assert chances[0] == 0
    assert chances[-1] == 1
    certain = replace(line, yield_mpa=250.0)
    assert over_rating_chance(0.85, certain, shop) < over_rating_chance(0.85, line, shop)


def test_thin_plate_on_a_large_diameter_is_refused_with_the_thickness_that_would_do(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", shape=cylinder(96, 48), thickness_mm=1.311, material="galvanized"))
    assert found.state is State.NO_QUOTE
    assert "nobody can promise a radius" in found.reason
    assert "thick up we can" in found.reason


def test_a_wide_spread_takes_trial_passes_and_is_flagged_and_a_certificate_ends_it(shop: Shop) -> None:
    line = shell("A-1", shape=cylinder(48, 48), thickness_mm=9.525, material="AR400")
    found = price_one(shop, line)
    assert found.route
    assert any("springback" in flag for flag in found.route.flags)
    steps = [step.name for step in found.route.rollings[0].minutes.steps]
    assert "trial and correction" in steps
    known = price_one(shop, replace(line, yield_mpa=1050.0))
    assert known.route
    assert not any("springback" in flag for flag in known.route.flags)
    assert known.route.minutes.likely < found.route.minutes.likely


def test_trial_passes_follow_the_spread(shop: Shop) -> None:
    rules = shop.passes
    assert [trial_passes(spread, rules) for spread in (0.0, 0.15, 0.16, 0.31, 5.0, float("inf"))] == [
        0,
        0,
        2,
        4,
        4,
        4,
    ]


def test_thick_plate_comes_further_over_than_the_setting_says(shop: Shop) -> None:
    thin, thick = (thickness_ratio(shell("A-1", thickness_mm=t), shop) for t in (6.35, 38.1))
    assert (thin.high - 1) * 6.35 == pytest.approx(max(shop.risk.thickness_over_mm, 0.762), abs=0.02)
    assert (thick.high - 1) * 38.1 == pytest.approx(1.524)  # ASTM A6: 0.06 in from 1 in up
