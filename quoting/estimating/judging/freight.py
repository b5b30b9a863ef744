"""Freight of rolled parts by the shop's own rates: the dearer of weight and volume; a shell is mostly air."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from math import prod

from quoting.estimating.judging.physical_limits import rolled_size
from quoting.estimating.result import LineResult
from quoting.shop import Shop

CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Freight:
    """What carrying the priced lines of an order costs, and whether volume or weight decides."""

    cost: Decimal
    by_volume: bool
    weight_kg: float
    volume_m3: float


def freight_of(results: Iterable[LineResult], shop: Shop) -> Freight | None:
    """Return the freight of the priced lines by the shop's rates; None where its book has none.

    The volume is that of the box round each rolled piece, mm by mm by mm.
    """
    rules = shop.operations.freight
    if not (rules.per_kg or rules.per_m3):
        return None
    pieces = [
        rolling for result in results if result.price and result.route for rolling in result.route.rollings
    ]
    if not pieces:
        return None
    kg = sum(rolling.blank.weight_kg * rolling.quantity for rolling in pieces)
    cubic = sum(prod(rolled_size(rolling)) * rolling.quantity for rolling in pieces) / 1e9
    by_weight = Decimal(str(round(kg, 4))) * rules.per_kg
    by_volume = Decimal(str(round(cubic, 4))) * rules.per_m3
    cost = max(by_weight, by_volume, rules.least).quantize(CENT, ROUND_HALF_UP)
    return Freight(cost, by_volume > by_weight, kg, cubic)
