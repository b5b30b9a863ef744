"""What a roll that is nearly too weak may cost: the chance that delivered plate is beyond it, times the redo.

Loads grow with the yield and with the square of the thickness; both are taken as triangular over what the
grade and the mill deliver, independent of each other.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from math import sqrt

from quoting.core import Cone, OrderLine
from quoting.estimating.result import Rolling
from quoting.shop import Band, Roll, Shop, plate_standard, thickness_tolerance

_YIELDS, _THICKNESSES = 25, 9


def yield_ratio(line: OrderLine, shop: Shop) -> Band:
    """Return the delivered yield against the one the loads were judged at; certain with a certificate."""
    if line.yield_mpa is not None:
        return Band(1, 1, 1)
    grade = shop.material(line.material)
    band = Band(grade.yield_low_mpa, grade.yield_likely_mpa, grade.yield_high_mpa)
    return band.times(1 / grade.yield_low_mpa)


def thickness_ratio(line: OrderLine, shop: Shop) -> Band:
    """Return the delivered thickness against the nominal one.

    The shop's own figures, or what the plate's standard permits at the part's width where that is more: thick
    and wide plate comes further over.
    """
    under, over = shop.risk.thickness_under_mm, shop.risk.thickness_over_mm
    standard = plate_standard(line.material, line.thickness_mm)
    across = line.shape.height_mm if isinstance(line.shape, Cone) else line.shape.length_mm
    permitted = thickness_tolerance(standard, line.thickness_mm, across) if standard else None
    if permitted is not None:
        under, over = max(under, permitted[0]), max(over, permitted[1])
    return Band(max(0.0, 1 - under / line.thickness_mm), 1, 1 + over / line.thickness_mm)


def over_rating_chance(used: float, line: OrderLine, shop: Shop) -> float:
    """Return the chance that plate as it is delivered asks more of the roll than it is rated for."""
    yields, thicknesses = yield_ratio(line, shop), thickness_ratio(line, shop)
    if used * yields.high * thicknesses.high**2 <= 1:
        return 0.0  # as most are: not even the hardest and thickest plate is beyond it
    strong = _quantiles(yields, _YIELDS)
    thick = [ratio**2 for ratio in _quantiles(thicknesses, _THICKNESSES)]
    over = sum(used * one * other > 1 for one in strong for other in thick)
    return over / (len(strong) * len(thick))


def trouble(line: OrderLine, rollings: Iterable[Rolling], roll: Roll, shop: Shop) -> tuple[float, Decimal]:
    """Return the chance that this roll proves too weak for a line, and the money that may cost, expected.

    The redo is another set-up and the shop's share of the rolling on another roll, at this one's rate.
    """
    rollings = tuple(rollings)
    chance = max(over_rating_chance(rolling.verdict.strength_used, line, shop) for rolling in rollings)
    minutes = sum(rolling.minutes.total.likely for rolling in rollings) * shop.risk.trouble_redo_share
    crew = max(rolling.lift.crew for rolling in rollings)
    hour = roll.rate_per_hour + shop.rates.operator_hour + shop.rates.helper_hour * (crew - 1)
    setups = shop.setups
    setup = setups.gap_fixed + setups.bending_roll + setups.first_off
    redo = Decimal(str(minutes)) / 60 * hour + Decimal(str(setup)) / 60 * shop.rates.setup_hour
    return chance, redo * Decimal(str(round(chance * shop.risk.trouble_weight, 6)))


def _quantiles(band: Band, count: int) -> list[float]:
    """Return the middles of equal shares of a triangular distribution."""
    low, top, high = band.low, band.likely, band.high
    if not high > low:
        return [top] * count
    rising = (top - low) / (high - low)
    shares = [(k + 0.5) / count for k in range(count)]
    return [
        low + sqrt(share * (high - low) * (top - low))
        if share < rising
        else high - sqrt((1 - share) * (high - low) * (high - top))
        for share in shares
    ]
