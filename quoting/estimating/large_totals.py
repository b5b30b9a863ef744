"""Orders that add up to more than the shop can believe: a quantity, a size or a unit may be wrong."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.estimating.result import OrderEstimate
from quoting.shop import Shop


def large_totals(orders: Sequence[OrderEstimate], shop: Shop) -> tuple[str, ...]:
    """Return a question to the estimator for each order above the shop's `ask_above_total`."""
    most, currency = shop.pricing.ask_above_total, shop.rates.currency
    return tuple(
        f"{order.order.customer} ({order.order.file}) adds up to {order.total.total:,.2f} {currency}, above"
        f" ask_above_total = {most:,}: is a quantity, a size or a unit wrong?"
        for order in orders
        if order.total.total > most
    )
