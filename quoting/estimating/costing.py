"""What one line costs at one quantity: its share of the nest, its minutes, and the price they make."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from quoting.core import Ends, OrderLine
from quoting.estimating.line_work import line_work
from quoting.estimating.plates import PlateShare, RoutedLine, line_problem
from quoting.estimating.result import BreakPlan, LineResult, Rolling, Route
from quoting.labour import LiftMethod, cautions_for, minutes_at, roll_minutes, typical_setup
from quoting.nesting import nest_for_less
from quoting.pricing import BreakPrice, CostDrivers, LinePrice, break_prices, price_line
from quoting.shop import Family, Shop

CRANE_STEPS = frozenset({"load", "turn end for end", "unload"})
"""The steps that hold the crane when the piece is lifted by crane."""

MOST_BREAK_PIECES = 300
"""Break quantities with more blanks than this take the plate of the quoted quantity, piece for piece."""

BREAK_LAYOUTS = 4
"""Layouts tried for a break quantity: one kind of piece needs few, and there are many breaks to price."""

FINE = Decimal("0.000001")
"""Shares of plate are kept so fine; only prices are whole cents, so that equal lines cost equal cents."""


def setup_minutes(line: OrderLine, route: Route, shop: Shop) -> float:
    """Return the minutes a line is costed with for setting up once, whatever its quantity."""
    return typical_setup(
        shop.setups,
        line.thickness_mm,
        cone=any(rolling.blank.cone is not None for rolling in route.rollings),
        crane=any(rolling.lift.method.crane for rolling in route.rollings),
        family=shop.material(line.material).family,
    ).minutes


def at_quantity(line: OrderLine, route: Route, quantity: int, shop: Shop) -> tuple[OrderLine, Route]:
    """Return the line and its route at another quantity: same passes, minutes worked out anew."""
    return replace(line, quantity=quantity), replace(
        route, rollings=tuple(_at_quantity(rolling, quantity, shop) for rolling in route.rollings)
    )


def _at_quantity(rolling: Rolling, quantity: int, shop: Shop) -> Rolling:
    pieces = rolling.blank.per_part * quantity
    task = replace(rolling.task, quantity=pieces)
    minutes = minutes_at(rolling.minutes, task, shop.labour, pieces)
    return replace(rolling, quantity=pieces, task=task, minutes=minutes)


def crane_minutes(route: Route) -> float:
    """Return the likely minutes that the crane is held for a line; overhead support holds it throughout."""
    return sum(_crane_minutes(rolling) for rolling in route.rollings)


def _crane_minutes(rolling: Rolling) -> float:
    match rolling.lift.method:
        case LiftMethod.CRANE_OVERHEAD:
            return rolling.minutes.total.likely
        case LiftMethod.CRANE:
            held = sum(step.band.likely for step in rolling.minutes.steps if step.name in CRANE_STEPS)
            return held * rolling.quantity
        case _:
            return 0.0


def cost_drivers(line: OrderLine, route: Route, share: PlateShare, shop: Shop) -> CostDrivers:
    """Return what the line takes at its quantity."""
    work = line_work(line, route, shop)
    return CostDrivers(
        quantity=line.quantity,
        plate_cost=share.plate_cost,
        drop_credit=share.drop_credit,
        cutting_cost=share.cutting_cost,
        edge_m=sum((item.edge_m for item in work), 0.0),
        setup_minutes=setup_minutes(line, route, shop),
        rolling_minutes=route.minutes.likely,
        crew=route.crew,
        crane_minutes=crane_minutes(route),
        outside_cost=sum((item.outside for item in work), Decimal(0)),
        certificate=line.certificate,
        roll_rate=shop.roll(route.roll).rate_per_hour,
        bench_minutes=sum((item.bench_minutes for item in work), 0.0),
        weld_minutes=sum((item.weld_minutes for item in work), 0.0),
        consumables=sum((item.consumables for item in work), Decimal(0)),
    )


def at_minutes_of(result: LineResult, shop: Shop) -> CostDrivers:
    """Return what a priced line takes by the minutes of another shop's book; plate and cutting stay.

    Minutes that a person changed afterwards are changed by the same share. ValueError for a line without a
    price.
    """
    route, drivers = result.route, result.drivers
    if route is None or drivers is None:
        raise ValueError(f"line {result.line.id} is not priced")
    speed = shop.roll(route.roll).surface_speed_mm_min
    rollings = []
    for rolling in route.rollings:
        task = replace(rolling.task, roll_speed_mm_min=speed)
        rollings.append(replace(rolling, task=task, minutes=roll_minutes(task, shop.labour)))
    now = replace(route, rollings=tuple(rollings))
    changed = drivers.rolling_minutes / route.minutes.likely if route.minutes.likely else 1.0
    return replace(
        drivers,
        setup_minutes=setup_minutes(result.line, now, shop),
        rolling_minutes=now.minutes.likely * changed,
        crane_minutes=crane_minutes(now),
    )


def price_of(drivers: CostDrivers, shop: Shop) -> LinePrice:
    """Return the price of these drivers by the shop's rules."""
    return price_line(drivers, shop.rates, shop.pricing, shop.cutting)


def break_plans(
    line: OrderLine, route: Route, share: PlateShare, shop: Shop, *, nested: bool = True
) -> tuple[BreakPlan, ...]:
    """Return what the line takes at the customer's break quantities, or at the shop's, beside the quoted one.

    At another quantity set-up, learning and minutes are worked out anew; plate costs each piece what it costs
    in this run's nest, or less where more pieces nested alone on plates that can be bought need less plate
    each (not looked at unless `nested`). Free-issue plate costs nothing at any quantity.
    """
    quantities = {*(line.breaks or shop.pricing.break_quantities)} - {line.quantity}
    plans: list[BreakPlan] = []
    most = 0
    for quantity in sorted(quantities):
        moved_line, moved_route = at_quantity(line, route, quantity, shop)
        moved, plates = _share_at(line, route, share, quantity, shop, nested)
        drivers = cost_drivers(moved_line, moved_route, moved, shop)
        plans.append(BreakPlan(quantity, drivers, opened=plates > most))
        most = max(most, plates)
    return tuple(plans)


def line_breaks(price: LinePrice, plans: Sequence[BreakPlan], shop: Shop) -> tuple[BreakPrice, ...]:
    """Return the unit prices at the planned quantities around the quoted one, which keeps its price."""
    at = {plan.quantity: plan for plan in plans}

    def priced(quantity: int) -> LinePrice:
        return price if quantity == price.quantity else price_of(at[quantity].drivers, shop)

    def opened(quantity: int) -> bool:
        return quantity != price.quantity and at[quantity].opened

    return tuple(
        BreakPrice(price.quantity, price.unit, price.extended) if offer.quantity == price.quantity else offer
        for offer in break_prices(priced, {*at, price.quantity}, opened)
    )


def _share_at(
    line: OrderLine, route: Route, share: PlateShare, quantity: int, shop: Shop, nested: bool
) -> tuple[PlateShare, int]:
    """Return the plate of another quantity, and how many plates it takes nested alone (0: pro rata)."""
    part = Decimal(quantity) / line.quantity
    pro_rata = PlateShare(
        (share.plate_cost * part).quantize(FINE),
        (share.drop_credit * part).quantize(FINE),
        (share.cutting_cost * part).quantize(FINE),
    )
    pieces = route.plan.pieces_per_part * quantity
    if not nested or line.free_issue or quantity < line.quantity or pieces > MOST_BREAK_PIECES:
        return pro_rata, 0
    problem = line_problem(RoutedLine(line, route), shop, quantity)
    alone = nest_for_less(problem, _net(pro_rata), layouts=BREAK_LAYOUTS) if problem.plates else None
    if alone is None:
        return pro_rata, 0
    return PlateShare(alone.plate_cost, alone.drop_value, pro_rata.cutting_cost), len(alone.cut_plates)


def _net(share: PlateShare) -> Decimal:
    return share.plate_cost - share.drop_credit


def line_cautions(line: OrderLine, route: Route, shop: Shop) -> tuple[str, ...]:
    """Return the cautions of a line, each once, in the order the job meets them."""
    material = shop.material(line.material)
    clean = material.family is Family.STAINLESS
    hard = (line.yield_mpa or material.yield_likely_mpa) >= shop.operations.handwork.hard_edge_yield_mpa
    found: dict[str, None] = {}
    for rolling in route.rollings:
        pre_bend = route.ends is Ends.PRE_BEND
        lines = cautions_for(
            rolling.blank,
            rolling.lift,
            pre_bend=pre_bend,
            clean_rolls=clean,
            magnetic=material.family is Family.CARBON,
            hard=hard,
        )
        found |= dict.fromkeys(lines)
    return tuple(found)
