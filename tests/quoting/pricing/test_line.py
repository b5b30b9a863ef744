"""The price of one line: worked out on paper, and what must hold for any line."""

from __future__ import annotations

from dataclasses import fields, replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import RangeError
from quoting.pricing import CostDrivers, LinePrice, price_line, priced_at
from quoting.pricing.inputs import exact
from quoting.pricing.price_parts import PriceParts
from quoting.shop import PricingRules, Rates
from tests.quoting.pricing.samples import CUTTING, DRIVERS, RATES, RULES

CENT = Decimal("0.01")
BASE_PARTS = ("plate", "cutting", "edge", "setup", "rolling", "lifting", "outside", "certificate")


def price(drivers: CostDrivers = DRIVERS, rates: Rates = RATES, rules: PricingRules = RULES) -> LinePrice:
    return price_line(drivers, rates, rules, CUTTING)


def money(most: int = 20_000) -> st.SearchStrategy[Decimal]:
    return st.decimals(0, most, places=2)


def amount(most: float = 2_000) -> st.SearchStrategy[float]:
    return st.floats(0, most)


lines = st.builds(
    CostDrivers,
    quantity=st.integers(1, 300),
    plate_cost=money(),
    drop_credit=money(2_000),
    cutting_cost=money(2_000),
    edge_m=amount(),
    setup_minutes=amount(),
    rolling_minutes=amount(),
    crew=st.integers(1, 4),
    crane_minutes=amount(),
    outside_cost=money(),
    certificate=st.booleans(),
    roll_rate=money(300),
)
shares = st.decimals(0, Decimal("0.9"), places=4)
rule_sets = st.builds(
    lambda margin, floor, markup, overhead, least, step, owner: replace(
        RULES,
        margin=margin,
        floor_margin=floor,
        material_markup=markup,
        overhead_share=overhead,
        line_minimum=least,
        rounding=step,
        drop_owner=owner,
    ),
    shares,
    shares,
    shares,
    shares,
    money(500),
    st.sampled_from([Decimal("0.01"), Decimal("0.05"), Decimal("0.25"), Decimal(1), Decimal(5)]),
    st.sampled_from(["shop", "customer"]),
)


def test_eight_shells_worked_out_on_paper() -> None:
    # processing: cutting 50 + edge 10 x 4 + set-up 1/2 h x 80 + rolling 2 h x (95 + 38 + 27)
    # + crane 1/4 h x 24 = 456; overhead a quarter of it, 114; 570 / (1 - 0.24) = 750
    parts = price().parts
    assert parts.plate == 360
    assert parts.cutting == 50
    assert parts.edge == 40
    assert parts.setup == 40
    assert parts.rolling == 320
    assert parts.lifting == 6
    assert parts.overhead == 114
    assert parts.outside == 60
    assert parts.processing == 570
    assert parts.processing_margin == 180
    assert parts.material_markup == 54
    assert parts.outside_markup == 6
    assert parts.certificate == 15
    assert parts.cost == 1005
    assert parts.price == 1245


def test_the_unit_price_is_rounded_up_once_and_the_line_is_unit_times_quantity() -> None:
    line = price()
    assert line.unit == Decimal("155.63")  # 1245 / 8 = 155.625
    assert line.extended == Decimal("1245.04")
    assert line.profit == Decimal("240.04")


def test_floor_is_cost_over_one_less_the_floor_margin() -> None:
    line = price()
    assert line.floor.quantize(CENT) == Decimal("1116.67")  # 1005 / 0.9
    assert line.floor_unit == Decimal("139.59")  # 139.583...
    assert not line.under_floor
    assert price(rules=replace(RULES, margin=Decimal(0), material_markup=Decimal(0))).under_floor


def test_the_customer_who_owns_the_drop_pays_the_whole_plate() -> None:
    assert price(rules=replace(RULES, drop_owner="customer")).parts.plate == 400


def test_the_least_charge_is_for_the_line_not_for_each_piece() -> None:
    small = replace(
        DRIVERS,
        quantity=3,
        plate_cost=Decimal(10),
        drop_credit=Decimal(0),
        cutting_cost=Decimal(0),
        edge_m=0,
        setup_minutes=3,
        rolling_minutes=3,
        crane_minutes=0,
        outside_cost=Decimal(0),
        certificate=False,
    )
    line = price(small, rules=replace(RULES, line_minimum=Decimal(100)))
    assert line.parts.price.quantize(CENT) == 100
    assert line.unit == Decimal("33.34")  # rounded up, or 3 x 33.33 would fall under the least charge
    assert line.extended >= 100


def test_free_issue_plate_costs_nothing_and_earns_no_markup() -> None:
    line = price(replace(DRIVERS, plate_cost=Decimal(0), drop_credit=Decimal(0)))
    assert line.parts.plate == line.parts.material_markup == 0


def test_one_person_at_the_roll_brings_no_helper() -> None:
    assert price(replace(DRIVERS, crew=1)).parts.rolling == 2 * (95 + 38)


@pytest.mark.parametrize("margin", ["1", "1.2", "-0.1"])
@pytest.mark.parametrize("name", ["margin", "floor_margin"])
def test_a_margin_of_a_hundred_per_cent_or_more_is_refused(name: str, margin: str) -> None:
    with pytest.raises(RangeError, match=rf"^{name.replace('_', ' ')} = {margin} is out of range: 0 or more"):
        price(rules=replace(RULES, **{name: Decimal(margin)}))  # type: ignore[arg-type]


def test_what_cannot_be_a_cost_is_refused_by_name() -> None:
    with pytest.raises(RangeError, match="plate cost = -1 is out of range"):
        replace(DRIVERS, plate_cost=Decimal(-1))
    with pytest.raises(RangeError, match="rolling minutes = nan is out of range"):
        replace(DRIVERS, rolling_minutes=float("nan"))
    with pytest.raises(RangeError, match="quantity = 0 is out of range: 1 or more"):
        replace(DRIVERS, quantity=0)
    with pytest.raises(RangeError, match="crane hour = -5"):
        price(rates=replace(RATES, crane_hour=Decimal(-5)))
    with pytest.raises(RangeError, match="rounding step = 0 is out of range: more than 0"):
        price(rules=replace(RULES, rounding=Decimal(0)))
    with pytest.raises(RangeError, match="drop owner = nobody is out of range: shop or customer"):
        price(rules=replace(RULES, drop_owner="nobody"))


def test_an_owners_own_price_keeps_the_parts_and_raises_the_floor_flag() -> None:
    line = priced_at(price(), Decimal("139.58"))
    assert line.extended == Decimal("1116.64")
    assert line.under_floor
    assert line.parts == price().parts
    assert not priced_at(price(), Decimal("139.59")).under_floor
    with pytest.raises(RangeError, match="unit price = -1"):
        priced_at(price(), Decimal(-1))


def test_minutes_become_money_through_a_ten_thousandth() -> None:
    assert exact(0.1) == Decimal("0.1000")
    assert exact(1 / 3) == Decimal("0.3333")


@given(lines, rule_sets)
def test_parts_add_up_to_the_price_to_the_cent(drivers: CostDrivers, rules: PricingRules) -> None:
    line = price(drivers, rules=rules)
    total = sum((getattr(line.parts, part.name) for part in fields(PriceParts)), Decimal(0))
    assert total.quantize(CENT) == line.parts.price.quantize(CENT)
    assert line.extended == line.unit * line.quantity


@given(lines, rule_sets)
def test_nothing_is_negative_and_rounding_only_adds(drivers: CostDrivers, rules: PricingRules) -> None:
    line = price(drivers, rules=rules)
    assert all(getattr(line.parts, part.name) >= 0 for part in fields(PriceParts))
    assert line.unit >= 0
    assert line.unit % rules.rounding == 0
    noise = Decimal("1e-6") * rules.rounding * line.quantity
    assert -noise <= line.extended - line.parts.price < rules.rounding * line.quantity
    assert line.extended >= rules.line_minimum - noise


@given(lines, rule_sets)
def test_the_floor_flag_says_what_the_floor_says(drivers: CostDrivers, rules: PricingRules) -> None:
    line = price(drivers, rules=rules)
    noise = Decimal("1e-6") * rules.rounding * line.quantity
    assert line.under_floor == (line.extended < line.floor - noise)


COST_INPUTS = [
    "plate_cost",
    "cutting_cost",
    "edge_m",
    "setup_minutes",
    "rolling_minutes",
    "crew",
    "crane_minutes",
    "outside_cost",
    "roll_rate",
]


@given(lines, rule_sets, st.sampled_from(COST_INPUTS), st.integers(1, 50))
def test_a_dearer_input_never_lowers_the_price(
    drivers: CostDrivers, rules: PricingRules, name: str, more: int
) -> None:
    dearer = replace(drivers, **{name: getattr(drivers, name) + more})
    before, after = price(drivers, rules=rules), price(dearer, rules=rules)
    assert after.unit >= before.unit
    assert after.floor >= before.floor


@given(
    lines,
    st.sampled_from(["operator_hour", "helper_hour", "setup_hour", "crane_hour", "outside_markup"]),
    st.integers(1, 9),
)
def test_a_dearer_hour_never_lowers_the_price(drivers: CostDrivers, name: str, more: int) -> None:
    dearer = replace(RATES, **{name: getattr(RATES, name) + more})
    assert price(drivers, dearer).unit >= price(drivers).unit


@given(
    lines,
    rule_sets,
    st.sampled_from(["overhead_share", "margin", "material_markup", "line_minimum", "certificate_charge"]),
)
def test_a_higher_share_or_charge_never_lowers_the_price(
    drivers: CostDrivers, rules: PricingRules, name: str
) -> None:
    higher = replace(rules, **{name: getattr(rules, name) + Decimal("0.05")})
    assert price(drivers, rules=higher).unit >= price(drivers, rules=rules).unit


@given(lines, st.sampled_from(COST_INPUTS))
def test_no_input_is_counted_in_two_parts(drivers: CostDrivers, name: str) -> None:
    before = price(drivers).parts
    after = price(replace(drivers, **{name: getattr(drivers, name) + 5000})).parts
    moved = [part for part in BASE_PARTS if getattr(after, part) != getattr(before, part)]
    assert len(moved) <= 1


@given(lines, rule_sets)
def test_everything_the_line_takes_is_charged_once(drivers: CostDrivers, rules: PricingRules) -> None:
    hours = (
        exact(drivers.rolling_minutes) * (drivers.roll_rate + RATES.operator_hour)
        + exact(drivers.rolling_minutes) * RATES.helper_hour * (drivers.crew - 1)
        + exact(drivers.setup_minutes) * RATES.setup_hour
        + exact(drivers.crane_minutes) * RATES.crane_hour
    ) / 60
    work = hours + drivers.cutting_cost + exact(drivers.edge_m) * CUTTING.edge_prep_cost_per_m
    credit = drivers.drop_credit if rules.drop_owner == "shop" else Decimal(0)
    bought = max(drivers.plate_cost - credit, Decimal(0)) + drivers.outside_cost
    papers = rules.certificate_charge if drivers.certificate else Decimal(0)
    expected = work * (1 + rules.overhead_share) + bought + papers
    assert abs(price(drivers, rules=rules).parts.cost - expected) < Decimal("1e-15")
