"""What two lines cost when they are made as one job: the gap set once, one batch when they are alike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from quoting.core import OrderLine
from quoting.estimating.costing import at_quantity, cost_drivers, price_of
from quoting.estimating.plates import SAME_THICKNESS_MM, PlateShare
from quoting.estimating.result import LineResult, Route, Sensitivity
from quoting.shop import Shop


def best_merge(result: LineResult, lines: Sequence[LineResult], shop: Shop) -> Sensitivity | None:
    """Return the merge with another line of the order that saves most, None when no line goes with it.

    Lines go together that are of one material and thickness and priced on one roll. Their plates are shared
    already; what is saved is set-up, learning and a least charge. Prices are those of the two together.
    """
    found = [_merge(result, other, shop) for other in lines if goes_with(result, other)]
    return min(found, key=lambda merge: merge.difference or Decimal(0), default=None)


def goes_with(result: LineResult, other: LineResult) -> bool:
    """Return whether two different priced lines can be one job on one roll."""
    one, two = result.line, other.line
    return (
        one.id != two.id
        and result.price is not None
        and other.price is not None
        and result.route is not None
        and other.route is not None
        and result.route.roll == other.route.roll
        and (one.material, one.free_issue) == (two.material, two.free_issue)
        and abs(one.thickness_mm - two.thickness_mm) <= SAME_THICKNESS_MM
    )


def _merge(result: LineResult, other: LineResult, shop: Shop) -> Sensitivity:
    assert result.price is not None
    assert other.price is not None
    now = result.price.extended + other.price.extended
    if _alike(result, other):
        merged = _one_batch(result, other, shop)
        words = f"as one line with line {other.line.number}: {merged[1]:,} alike"
        return Sensitivity("merge", words, extended=merged[0], difference=merged[0] - now)
    after = result.price.extended + _following(other, result, shop)
    words = f"made straight after line {other.line.number}, or it after this: one setting of the gap"
    return Sensitivity("merge", words, extended=after, difference=after - now)


def _alike(result: LineResult, other: LineResult) -> bool:
    def what(line: OrderLine) -> OrderLine:
        return replace(
            result.line,
            shape=line.shape,
            ends=line.ends,
            weld_gap_mm=line.weld_gap_mm,
            seam=line.seam,
            re_round=line.re_round,
            grain_along=line.grain_along,
            certificate=line.certificate,
            yield_mpa=line.yield_mpa,
        )

    return what(result.line) == what(other.line)


def _one_batch(result: LineResult, other: LineResult, shop: Shop) -> tuple[Decimal, int]:
    """Return the price and the quantity of two lines of the same part as one."""
    assert result.route is not None
    assert result.drivers is not None
    assert other.drivers is not None
    quantity = result.line.quantity + other.line.quantity
    line, route = at_quantity(result.line, result.route, quantity, shop)
    one, two = result.drivers, other.drivers
    share = PlateShare(
        one.plate_cost + two.plate_cost,
        one.drop_credit + two.drop_credit,
        one.cutting_cost + two.cutting_cost,
    )
    return price_of(cost_drivers(line, route, share, shop), shop).extended, quantity


def _following(other: LineResult, result: LineResult, shop: Shop) -> Decimal:
    """Return the price of the other line when it runs right after this one."""
    assert other.drivers is not None
    assert other.route is not None
    assert result.route is not None
    minutes = min(other.drivers.setup_minutes, following_setup(result.route, other.route, shop))
    return price_of(replace(other.drivers, setup_minutes=minutes), shop).extended


def following_setup(before: Route, after: Route, shop: Shop) -> float:
    """Return the set-up minutes of a job after another of the same material and thickness on the same roll.

    The gap stands. A new diameter moves the bending roll and proves the first piece; a change between flat
    and cone tilts it; a change of lifting rigs the crane.
    """
    setups = shop.setups
    one, two = before.rollings[0], after.rollings[0]
    minutes = setups.same
    if one.blank.mean_diameter_mm != two.blank.mean_diameter_mm:
        minutes = setups.bending_roll + setups.first_off
    if (one.blank.cone is None) != (two.blank.cone is None):
        minutes += setups.cone_tilt
    if one.lift.method.crane != two.lift.method.crane:
        minutes += setups.crane_rig
    return minutes
