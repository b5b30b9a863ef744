"""The total of an order, and money shared out so that nothing is lost."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction
from math import isfinite

from quoting.core import RangeError
from quoting.pricing.formulas import ORDER_FORMULAS, evaluate
from quoting.pricing.price_parts import LinePrice, OrderTotal
from quoting.shop import PricingRules

CENT_EXPONENT = -2


def total_order(prices: Iterable[LinePrice], rules: PricingRules) -> OrderTotal:
    """Return the sum of the rounded lines, the top-up to the least order, and the tax.

    Tax is rounded half up to the cent. An order with no priced line costs nothing. Raises RangeError for a
    negative minimum or tax share.
    """
    for name, value in (("least order", rules.order_minimum), ("tax share", rules.tax_share)):
        if not value >= 0:
            raise RangeError(name, value, "0 or more")
    lines = sum((price.extended for price in prices), Decimal(0))
    values = evaluate(
        {"lines": lines, "order_minimum": rules.order_minimum, "tax_share": rules.tax_share}, ORDER_FORMULAS
    )
    return OrderTotal(lines=lines, minimum_top_up=values["order_top_up"], tax=values["tax"])


def allocate(amount: Decimal, weights: Sequence[float]) -> tuple[Decimal, ...]:
    """Share an amount of money by weight; the shares add up to it exactly (largest-remainder method).

    Shares are whole cents, or whole units of the amount's own last digit when that is finer. Each gets its
    share rounded down, then the units left over go to the largest remainders, the earlier line first when
    equal. Raises RangeError for a negative amount or weight, and when no weight is above 0.

    >>> allocate(Decimal("100.00"), (1, 1, 1))
    (Decimal('33.34'), Decimal('33.33'), Decimal('33.33'))
    """
    if not (amount.is_finite() and amount >= 0):
        raise RangeError("amount to share out", amount, "0 or more")
    for weight in weights:
        if not (isfinite(weight) and weight >= 0):
            raise RangeError("weight", weight, "a number of 0 or more")
    exact_weights = [Fraction(weight) for weight in weights]
    whole = sum(exact_weights)
    if not whole:
        raise RangeError("sum of weights", 0, "more than 0, or there is nobody to charge")
    exponent = amount.as_tuple().exponent
    assert isinstance(exponent, int)  # finite, checked above
    step = Decimal(1).scaleb(min(exponent, CENT_EXPONENT))
    units = int(amount / step)
    shares = [units * weight / whole for weight in exact_weights]
    counts = [int(share) for share in shares]
    by_remainder = sorted(range(len(shares)), key=lambda index: counts[index] - shares[index])
    for index in by_remainder[: units - sum(counts)]:
        counts[index] += 1
    return tuple(count * step for count in counts)
