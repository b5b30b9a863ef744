"""Unit prices at other quantities: never under the floor, and never rising without a reason that is said."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from quoting.core import RangeError
from quoting.pricing.price_parts import BreakPrice, BreakRule, LinePrice


def break_prices(
    line_price_at: Callable[[int], LinePrice],
    quantities: Iterable[int],
    opened: Callable[[int], bool] | None = None,
) -> tuple[BreakPrice, ...]:
    """Return the price at each quantity, smallest first, each planned anew by `line_price_at`.

    `opened(quantity)` says whether the plan for it takes a plate that the next smaller quantity did not.
    A unit price under the shop's floor is raised to it. Where the unit price would rise with the quantity
    it stays risen, and says so, if a plate has to be opened; otherwise the smaller quantity's price is held
    as far as the floor allows. So a rise without a new plate can only be one that the floor forces; its
    note says that the pieces cost more to make. Notes are fit for the customer's eyes; `rule` is for ours.
    If the line's own quantity is among them, its offer here is the one to quote, so that the quote does not
    contradict its break table. Raises RangeError for a quantity below 1.
    """
    offers: list[BreakPrice] = []
    for quantity in sorted(set(quantities)):
        if quantity < 1:
            raise RangeError("break quantity", quantity, "1 or more")
        price = line_price_at(quantity)
        alone = _alone(price)
        if offers and alone.unit > offers[-1].unit:
            alone = _risen(price, alone, offers[-1], opened is not None and opened(quantity))
        offers.append(alone)
    return tuple(offers)


def _alone(price: LinePrice) -> BreakPrice:
    if not price.under_floor:
        return BreakPrice(price.quantity, price.unit, price.extended)
    unit = price.floor_unit
    return BreakPrice(price.quantity, unit, unit * price.quantity, rule=BreakRule.FLOOR)


def _risen(price: LinePrice, alone: BreakPrice, smaller: BreakPrice, plate_opened: bool) -> BreakPrice:
    if plate_opened:
        note = f"{price.quantity} pieces need another plate, so each costs more than at {smaller.quantity}"
        return BreakPrice(price.quantity, alone.unit, alone.extended, note, BreakRule.PLATE_OPENED)
    if smaller.unit >= price.floor_unit:
        note = f"each held at the price for {smaller.quantity}"
        return BreakPrice(price.quantity, smaller.unit, smaller.unit * price.quantity, note, BreakRule.HELD)
    note = f"each costs more to make than at {smaller.quantity}"
    unit = price.floor_unit
    return BreakPrice(price.quantity, unit, unit * price.quantity, note, BreakRule.FLOOR)
