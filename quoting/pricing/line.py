"""From what a line takes to its price, in exact decimal arithmetic."""

from __future__ import annotations

from dataclasses import fields, replace
from decimal import Decimal

from quoting.core import RangeError
from quoting.pricing.formulas import LINE_FORMULAS, evaluate
from quoting.pricing.inputs import line_inputs
from quoting.pricing.price_parts import CostDrivers, LinePrice, PriceParts
from quoting.shop import Cutting, PricingRules, Rates

_PART_NAMES = tuple(part.name for part in fields(PriceParts))


def price_line(drivers: CostDrivers, rates: Rates, rules: PricingRules, cutting: Cutting) -> LinePrice:
    """Return the price of one line at one quantity, part by part (the rules stand in `formulas`).

    Plate is priced at cost (less the drop when the shop keeps it) plus a markup; the shop's own work with
    its overhead by margin, cost / (1 - margin); outside work by markup; the certificate passes through.
    The least charge is per line, whatever its quantity. The unit price is rounded once, UP to the step
    `rules.rounding`, so that rounding never takes a line under its least charge or its floor.
    Raises RangeError for a margin of 100 % or more and for negative rates.
    """
    values = evaluate(line_inputs(drivers, rates, rules, cutting), LINE_FORMULAS)
    return LinePrice(
        quantity=drivers.quantity,
        parts=PriceParts(**{name: values[name] for name in _PART_NAMES}),
        unit=values["unit"],
        extended=values["extended"],
        floor=values["floor"],
        floor_unit=values["floor_unit"],
        under_floor=values["under_floor"],
    )


def priced_at(price: LinePrice, unit: Decimal) -> LinePrice:
    """Return the same line sold at another unit price, as given; `parts` keep saying what it was built from.

    Raises RangeError for a negative price.
    """
    if not unit >= 0:
        raise RangeError("unit price", unit, "0 or more")
    return replace(price, unit=unit, extended=unit * price.quantity, under_floor=unit < price.floor_unit)
