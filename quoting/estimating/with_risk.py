"""How likely each priced line and each order is to lose money: from the estimate to the draws and back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from quoting.estimating.judging import thickness_ratio, yield_ratio
from quoting.estimating.result import Estimate, LineResult, OrderEstimate, Rolling, Route
from quoting.labour import roll_minutes
from quoting.pricing import Drawing, RiskInput, RiskReport, RiskRules, simulate
from quoting.shop import Band, LabourSteps, Shop

MOST_DRAWS_OF_AN_ORDER = 3_000_000
FEWEST_DRAWS = 1_000
"""Very long orders are drawn less often, each line still 1,000 times: a chance of 10 % to 2 points."""

CENT = Decimal("0.01")


def with_risk(estimate: Estimate) -> Estimate:
    """Return the estimate with the spread of cost and the chance of a loss on every priced line and order.

    Seeded by the run's seed; lines are independent. The order's spread is that of its lines sold at the sum
    of their prices; a top-up to the least order is not counted.
    """
    orders = tuple(_with_risk(order, estimate.shop, estimate.seed) for order in estimate.orders)
    return replace(estimate, orders=orders)


def _with_risk(order: OrderEstimate, shop: Shop, seed: int) -> OrderEstimate:
    report = simulate_lines(order.lines, shop, seed)
    if report is None:
        return order
    found = {risk.line: risk for risk in report.lines}
    lines = tuple(replace(line, risk=found.get(line.line.id)) for line in order.lines)
    return replace(order, lines=lines, risk=report.order)


def simulate_lines(lines: Sequence[LineResult], shop: Shop, seed: int) -> RiskReport | None:
    """Return the simulation of the priced ones of these lines, None when there are none."""
    inputs = [risk_input(result, shop) for result in lines if result.price and result.drivers]
    if not inputs:
        return None
    draws = min(shop.risk.draws, max(FEWEST_DRAWS, MOST_DRAWS_OF_AN_ORDER // len(inputs)))
    drawing = Drawing(seed, draws)
    return simulate(inputs, shop.rates, shop.pricing, shop.cutting, risk_rules(shop), drawing)


def risk_rules(shop: Shop) -> RiskRules:
    """Return when this shop calls a line risky; what is near capacity is what the pass plan calls so."""
    return RiskRules(
        near_capacity=shop.passes.near_capacity,
        extra_passes=shop.passes.near_capacity_extra_passes,
        heavy_kg=shop.risk.heavy_kg,
        thin_wide=shop.risk.thin_wide,
        loss_chance=shop.risk.loss_chance,
        inch=shop.inch,
    )


def risk_input(result: LineResult, shop: Shop) -> RiskInput:
    """Return what can go otherwise on one priced line; ValueError for a line that is not priced.

    One piece is one blank: a part of two courses can be spoiled twice. The used share is that of the loads,
    which grow with the plate's yield and thickness; limits of size and room do not.
    """
    route, drivers, price = result.route, result.drivers, result.price
    if route is None or drivers is None or price is None:
        raise ValueError(f"line {result.line.id} is not priced")
    pieces = sum(rolling.quantity for rolling in route.rollings)
    certain = replace(shop.labour, re_roll_chance=0.0, scrap_chance=0.0)
    heaviest = max(route.rollings, key=lambda rolling: rolling.blank.weight_kg)
    # Minutes that a person has changed afterwards spread as the computed ones do.
    changed = drivers.rolling_minutes / route.minutes.likely if route.minutes.likely else 1.0
    setup = Band(shop.risk.setup_least_share, 1.0, shop.risk.setup_most_share).times(drivers.setup_minutes)
    return RiskInput(
        line=result.line.id,
        drivers=replace(drivers, quantity=pieces),
        price=price.extended,
        setup=setup,
        rolling=_total([roll_minutes(rolling.task, certain).total for rolling in route.rollings]).times(
            changed
        ),
        re_roll=_total([_another_pass(rolling, shop.labour) for rolling in route.rollings]).times(1 / pieces),
        extra_pass_minutes=sum(_another_pass(rolling, shop.labour).likely for rolling in route.rollings),
        used=max(rolling.verdict.strength_used for rolling in route.rollings),
        re_roll_chance=shop.labour.re_roll_chance,
        scrap_chance=shop.labour.scrap_chance,
        lost_piece=_lost_piece(result, route, pieces, shop),
        piece_kg=heaviest.blank.weight_kg,
        thickness_mm=result.line.thickness_mm,
        width_mm=max(rolling.blank.width_mm for rolling in route.rollings),
        yield_ratio=yield_ratio(result.line, shop),
        thickness_ratio=thickness_ratio(result.line, shop),
        first_off=pieces == 1,
        free_issue=result.line.free_issue,
    )


def _another_pass(rolling: Rolling, labour: LabourSteps) -> Band:
    """Return the minutes of one more pass, with adjusting and checking, over all pieces."""
    factor = labour.cone_factor if rolling.blank.cone else 1.0
    travel = rolling.task.travel_minutes
    one = Band(travel, travel, travel) + labour.adjust_per_pass + labour.check
    return one.times(factor * rolling.quantity)


def _total(bands: Sequence[Band]) -> Band:
    total = Band(0, 0, 0)
    for band in bands:
        total = total + band
    return total


def _lost_piece(result: LineResult, route: Route, pieces: int, shop: Shop) -> Decimal:
    """Return the plate that goes with one lost piece: its share of the nest, or what is owed for it."""
    if not result.line.free_issue:
        assert result.drivers is not None
        return (result.drivers.plate_cost / pieces).quantize(CENT)
    kg = sum(rolling.blank.weight_kg * rolling.quantity for rolling in route.rollings) / pieces
    owed = Decimal(str(shop.risk.free_issue_owed_share)) * shop.material(result.line.material).price_per_kg
    return (Decimal(str(round(kg, 4))) * owed).quantize(CENT)
