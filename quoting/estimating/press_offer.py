"""The way out of a piece that is too short for the rolls: formed in a press, with about its price."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from math import ceil

from quoting.core import Ends, OrderLine, Rectangle
from quoting.estimating.costing import cost_drivers, price_of
from quoting.estimating.plates import RoutedLine, by_weight
from quoting.estimating.result import Rolling, Route
from quoting.labour import weight_band
from quoting.pricing import CostDrivers
from quoting.shop import PressRules, Shop

_REFERENCE_MPA = 250.0
CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class PressOffer:
    """Forming in a press in words, with about its price, and the unit price that they round."""

    words: str
    unit: Decimal


def press_offer(line: OrderLine, route: Route, shop: Shop) -> PressOffer | None:
    """Return what forming in a press would cost, None where the rolls reach or the press does not.

    Plate by weight, nothing nested; the blank is the developed one, without anything to cut off.
    """
    if not any(_too_short(rolling) for rolling in route.rollings):
        return None
    rules = shop.operations.press
    if not all(_takes(rules, rolling, line, shop) for rolling in route.rollings):
        return None
    drivers = _drivers(line, _untrimmed(route), shop)
    where = "on our press" if rules.here else "in a press, bought in"
    price = price_of(drivers, shop).unit
    words = f"formed {where} without extra length, about {price:,.0f} {shop.rates.currency} each"
    return PressOffer(words, price)


def _too_short(rolling: Rolling) -> bool:
    least = rolling.passes.least_length_mm
    return least is not None and rolling.blank.girth_mm < least and rolling.blank.cone is None


def _takes(rules: PressRules, rolling: Rolling, line: OrderLine, shop: Shop) -> bool:
    """Return whether the press is long and strong enough; its force goes as t x length x yield."""
    blank = rolling.blank
    strong = (line.yield_mpa or shop.material(line.material).yield_likely_mpa) / _REFERENCE_MPA
    force = blank.thickness_mm * blank.width_mm * strong
    return (
        blank.thickness_mm <= rules.thickest_mm
        and blank.width_mm <= rules.longest_mm
        and force <= rules.thickest_mm * rules.longest_mm
    )


def _untrimmed(route: Route) -> Route:
    """Return the route with blanks of the developed length."""
    return replace(route, ends=Ends.LEAVE_FLAT, rollings=tuple(_plain(rolling) for rolling in route.rollings))


def _plain(rolling: Rolling) -> Rolling:
    blank = rolling.blank
    trims = blank.trim_mm + blank.trim_tail_mm
    outline = blank.outline
    if not trims or not isinstance(outline, Rectangle):
        return rolling
    length = outline.length_mm - trims
    plain = replace(
        blank,
        outline=Rectangle(outline.width_mm, length),
        weight_kg=blank.weight_kg * length / outline.length_mm,
        ends=Ends.LEAVE_FLAT,
        trim_mm=0.0,
        trim_tail_mm=0.0,
    )
    return replace(rolling, blank=plain)


def _drivers(line: OrderLine, route: Route, shop: Shop) -> CostDrivers:
    rules = shop.operations.press
    minutes = sum(_minutes(rolling, rules, shop) * rolling.quantity for rolling in route.rollings)
    drivers = cost_drivers(line, route, by_weight(RoutedLine(line, route), shop), shop)
    if rules.here:
        return replace(
            drivers,
            setup_minutes=rules.setup_minutes,
            rolling_minutes=minutes,
            crew=1,
            crane_minutes=0.0,
            roll_rate=rules.rate_per_hour,
        )
    hours = Decimal(str(round((rules.setup_minutes + minutes) / 60, 6)))
    bought = max(rules.least, (hours * rules.rate_per_hour).quantize(CENT, ROUND_HALF_UP))
    return replace(
        drivers,
        setup_minutes=0.0,
        rolling_minutes=0.0,
        crane_minutes=0.0,
        outside_cost=drivers.outside_cost + bought,
    )


def _minutes(rolling: Rolling, rules: PressRules, shop: Shop) -> float:
    """Return the minutes of one piece: laid in, hit across its arc, checked, set down."""
    handling = weight_band(rolling.blank.weight_kg, shop.labour)
    hits = ceil(rolling.blank.arc_deg / rules.degrees_per_hit - 1e-9) + 1
    lifts = handling.load.likely + handling.unload.likely
    return lifts + hits * rules.hit_minutes + shop.labour.check.likely
