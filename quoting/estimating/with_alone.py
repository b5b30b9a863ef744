"""What each order would come to if it were the only one: its price leans on blanks that may not be won."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import cast

from quoting.core import Effort
from quoting.estimating.costing import break_plans, cost_drivers, line_breaks, price_of
from quoting.estimating.plates import PlateShare, RoutedLine, nest_problems, share_costs
from quoting.estimating.result import Estimate, LineResult, OrderEstimate
from quoting.nesting import nest
from quoting.pricing import total_order
from quoting.shop import Shop

PRICED_ALONE = (
    "each order is priced as if it were the only one; the cut list shares plates between them and needs less"
)


def with_alone(estimate: Estimate) -> Estimate:
    """Return the estimate with the price before tax of every order alone, where it shares plates with others.

    Its blanks are nested anew by themselves, at quick effort; routes, minutes and everything else stay. An
    order that shares no nest, or whose blanks do not all fit the plates alone, has none.
    """
    shared = _shared(estimate)
    orders = []
    for order in estimate.orders:
        moved = _moved(order, shared, estimate, "quick")
        orders.append(replace(order, alone=_total(order, moved, estimate.shop) if moved else None))
    return replace(estimate, orders=tuple(orders))


def priced_alone(estimate: Estimate) -> Estimate:
    """Return the estimate with every order at its price alone, breaks with it; nests stay those of the run.

    Nothing then hangs on what another customer decides. An order whose blanks do not all fit the plates
    alone keeps its price, which the warnings say.
    """
    shared = _shared(estimate)
    orders, warnings = [], [PRICED_ALONE] if shared else []
    for order in estimate.orders:
        moved = _moved(order, shared, estimate, cast(Effort, estimate.effort))
        if moved is None and any(result.line.id in shared for result in order.lines):
            warnings.append(
                f"{order.order.customer}: not priced alone, the blanks do not fit the plates alone"
            )
        orders.append(_repriced(order, moved or {}, estimate.shop))
    return replace(estimate, orders=tuple(orders), warnings=(*estimate.warnings, *warnings))


def _shared(estimate: Estimate) -> set[str]:
    """Return the lines whose nest holds blanks of more than one order."""
    owner = {result.line.id: order.order.file for order in estimate.orders for result in order.lines}
    return {
        line
        for group in estimate.nests
        for line in group.lines
        if len({owner[other] for other in group.lines}) > 1
    }


def _moved(
    order: OrderEstimate, shared: set[str], estimate: Estimate, effort: Effort
) -> dict[str, PlateShare] | None:
    """Return the plate of an order's shared lines nested by themselves; None where none fit."""
    lines = {result.line.id: result for result in order.lines if result.line.id in shared and result.price}
    shares = _nested(lines, estimate.shop, estimate.today, effort, estimate.seed)
    return shares or None


def _nested(
    lines: Mapping[str, LineResult], shop: Shop, today: date, effort: Effort, seed: int
) -> dict[str, PlateShare] | None:
    shares: dict[str, PlateShare] = {}
    routed = [_routed(result) for result in lines.values()]
    line_of = {blank.id: item.line.id for item in routed for blank in item.route.plan.blanks}
    for problem in nest_problems(routed, shop, today):
        found = nest(problem, effort=effort, seed=seed)
        if found.unplaced:
            return None
        shares |= share_costs(problem, found, line_of, shop)
    return shares


def _total(order: OrderEstimate, shares: Mapping[str, PlateShare], shop: Shop) -> Decimal:
    """Return what an order comes to before tax with other shares of plate."""
    prices = []
    for result in order.lines:
        if result.price and result.line.id in shares:
            item = _routed(result)
            drivers = cost_drivers(item.line, item.route, shares[result.line.id], shop)
            prices.append(price_of(drivers, shop))
        elif result.price:
            prices.append(result.price)
    return total_order(prices, shop.pricing).before_tax


def _repriced(order: OrderEstimate, shares: Mapping[str, PlateShare], shop: Shop) -> OrderEstimate:
    lines = tuple(
        _with_share(result, shares[result.line.id], shop) if result.line.id in shares else result
        for result in order.lines
    )
    prices = [result.price for result in lines if result.price]
    return replace(order, lines=lines, total=total_order(prices, shop.pricing))


def _with_share(result: LineResult, share: PlateShare, shop: Shop) -> LineResult:
    item = _routed(result)
    drivers = cost_drivers(item.line, item.route, share, shop)
    price = price_of(drivers, shop)
    plans = break_plans(item.line, item.route, share, shop)
    return replace(
        result,
        drivers=drivers,
        price=price,
        breaks=line_breaks(price, plans, shop),
        break_plans=plans,
        plate_kg=share.plate_kg,
    )


def _routed(result: LineResult) -> RoutedLine:
    assert result.route is not None
    return RoutedLine(result.line, result.route)
