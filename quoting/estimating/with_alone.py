"""What each order would come to if it were the only one: its price leans on blanks that may not be won."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from quoting.estimating.costing import cost_drivers, price_of
from quoting.estimating.result import Estimate, LineResult, OrderEstimate
from quoting.estimating.stocking import RoutedLine, nest_problems, share_costs
from quoting.nesting import nest
from quoting.pricing import total_order
from quoting.shop import Shop


def with_alone(estimate: Estimate) -> Estimate:
    """Return the estimate with the price before tax of every order alone, where it shares plates with others.

    Its blanks are nested anew by themselves, at quick effort; routes, minutes and everything else stay. An
    order that shares no nest, or whose blanks do not all fit the plates alone, has none.
    """
    owner = {result.line.id: order.order.file for order in estimate.orders for result in order.lines}
    shared = {
        line
        for group in estimate.nests
        for line in group.lines
        if len({owner[other] for other in group.lines}) > 1
    }
    return replace(
        estimate,
        orders=tuple(
            replace(order, alone=_alone(order, shared, estimate.shop, estimate.today))
            for order in estimate.orders
        ),
    )


def _alone(order: OrderEstimate, shared: set[str], shop: Shop, today: date) -> Decimal | None:
    moved = {result.line.id: result for result in order.lines if result.line.id in shared and result.price}
    if not moved:
        return None
    prices = {result.line.id: result.price for result in order.lines if result.price}
    for problem in nest_problems([_routed(result) for result in moved.values()], shop, today):
        line_of = {
            blank.id: id for id, result in moved.items() if result.route for blank in result.route.plan.blanks
        }
        found = nest(problem, effort="quick")
        if found.unplaced:
            return None
        for id, share in share_costs(problem, found, line_of, shop).items():
            routed = _routed(moved[id])
            prices[id] = price_of(cost_drivers(routed.line, routed.route, share, shop), shop)
    return total_order([price for price in prices.values() if price], shop.pricing).before_tax


def _routed(result: LineResult) -> RoutedLine:
    assert result.route is not None
    return RoutedLine(result.line, result.route)
