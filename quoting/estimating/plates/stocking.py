"""Which plate: groups of blanks to nest, on which sizes, cut how."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from quoting.core import OrderLine, Rectangle
from quoting.estimating.result import Route
from quoting.nesting import CuttingRule, DropRule, NestPlate, NestProblem, Piece, Waiting
from quoting.shop import Shop, StockPlate

SAME_THICKNESS_MM = 0.05
"""Thicknesses closer than this are one stock thickness: 0.25 in and 6.35 mm are, 6 mm and 1/4 in are not."""

_MOST_SHUT_DAYS = 60
"""A shop that is shut for longer than this says so itself."""


@dataclass(frozen=True, slots=True)
class RoutedLine:
    """A line with the route it will be priced on."""

    line: OrderLine
    route: Route


def stock_for(shop: Shop, material: str, thickness_mm: float) -> tuple[StockPlate, ...]:
    """Return the rack plates and buyable sizes of one material and thickness."""
    return tuple(
        plate
        for plate in shop.stock
        if plate.material == material and abs(plate.thickness_mm - thickness_mm) <= SAME_THICKNESS_MM
    )


def sides_to_grain(plate: StockPlate) -> tuple[float, float]:
    """Return the sides in mm across and along the grain: along it is the length that a nest counts."""
    if plate.grain_across:
        return plate.length_mm, plate.width_mm
    return plate.width_mm, plate.length_mm


def nest_problems(
    routed: Iterable[RoutedLine], shop: Shop, today: date = date.min
) -> tuple[NestProblem, ...]:
    """Return one problem per material and thickness, in a stable order.

    Lines whose plate the customer supplies are not nested. No piece is to be cut before `today`.
    """
    groups: dict[tuple[str, float], list[RoutedLine]] = defaultdict(list)
    for item in routed:
        if not item.line.free_issue:
            groups[item.line.material, round(item.line.thickness_mm, 1)].append(item)
    return tuple(_problem(items, shop, today) for _, items in sorted(groups.items()))


def line_problem(item: RoutedLine, shop: Shop, quantity: int) -> NestProblem:
    """Return the problem of one line alone at another quantity, on sizes that can be bought."""
    pieces = _pieces(item, shop, quantity)
    plates = [plate for plate in stock_for(shop, item.line.material, item.line.thickness_mm) if plate.buyable]
    return _nest_problem(pieces, plates, shop, item.line)


def _problem(items: Sequence[RoutedLine], shop: Shop, today: date) -> NestProblem:
    pieces = [piece for item in items for piece in _pieces(item, shop, item.line.quantity, today)]
    first = items[0].line
    return _nest_problem(pieces, stock_for(shop, first.material, first.thickness_mm), shop, first)


def _nest_problem(
    pieces: Sequence[Piece], plates: Iterable[StockPlate], shop: Shop, line: OrderLine
) -> NestProblem:
    wait = Waiting(shop.cutting.waiting_extra_share) if shop.cutting.later_pieces_may_wait else None
    return NestProblem(
        pieces=tuple(pieces),
        plates=tuple(_nest_plate(plate) for plate in plates),
        cutting=cutting_rule(pieces, line.thickness_mm, shop),
        drops=DropRule(
            least_width_mm=shop.cutting.least_drop_width_mm,
            least_length_mm=shop.cutting.least_drop_length_mm,
            value_share=shop.cutting.drop_value_share,
            keep_cost=shop.cutting.drop_keep_cost,
            most_in_rack=shop.cutting.most_remnants or None,
        ),
        material=line.material,
        thickness_mm=line.thickness_mm,
        waiting=wait,
    )


def _pieces(item: RoutedLine, shop: Shop, quantity: int, today: date = date.min) -> list[Piece]:
    line = item.line
    days = timedelta(days=shop.cutting.cut_before_due_days)
    grain = line.grain_along or shop.material(line.material).grain_matters
    return [
        Piece(
            id=blank.id,
            outline=blank.outline,
            quantity=blank.per_part * quantity,
            turn=not grain,
            needs_heat=line.certificate,
            cut_by=max(_last_open_day(line.due - days, shop), today) if line.due else None,
        )
        for blank in item.route.plan.blanks
    ]


def _last_open_day(day: date, shop: Shop) -> date:
    """Return the day, or the last one before it on which the shop works: nobody cuts when it is shut."""
    earlier = (day - timedelta(days=back) for back in range(_MOST_SHUT_DAYS))
    return next((one for one in earlier if shop.working_time.open_on(one)), day)


def _nest_plate(plate: StockPlate) -> NestPlate:
    across, along = sides_to_grain(plate)
    return NestPlate(
        id=plate.id,
        width_mm=across,
        length_mm=along,
        count=plate.count,
        price=plate.price,
        edge=plate.edge.value,
        remnant=plate.remnant,
        heat=plate.heat or None,
        certified=plate.buyable,
    )


def cutting_rule(pieces: Sequence[Piece], thickness_mm: float, shop: Shop) -> CuttingRule:
    """Return how this group is cut: sheared when it is thin, square, short and wide enough, else by heat.

    Whole groups go one way, because one plate is not carried from the shear to the torch and back. The
    station's hour is in the cost of a metre and of a stroke, so that the nest weighs time against plate.
    """
    cutting = shop.cutting
    hour = cutting.rate_per_hour / 60
    minutes_per_m = Decimal(str(shop.labour.cutting_minutes_per_m))
    minutes_per_stroke = Decimal(str(shop.labour.shear_minutes_per_stroke))
    square = [piece.outline for piece in pieces if isinstance(piece.outline, Rectangle)]
    least_strip = cutting.shear_least_strip_t * thickness_mm
    shearable = (
        thickness_mm <= cutting.shear_up_to_mm
        and len(square) == len(pieces)
        and all(max(box.width_mm, box.length_mm) <= cutting.shear_longest_mm for box in square)
        and all(min(box.width_mm, box.length_mm) >= least_strip for box in square)
    )
    spacing = max(cutting.thermal_least_spacing_mm, cutting.thermal_spacing_t * thickness_mm)
    return CuttingRule(
        method="shear" if shearable else "thermal",
        kerf_mm=cutting.thermal_kerf_mm,
        spacing_mm=spacing,
        edge_margin_mm=cutting.edge_margin_mm,
        mill_trim_mm=cutting.mill_trim_mm,
        stages=cutting.shear_stages,
        least_strip_mm=least_strip,
        longest_cut_mm=cutting.shear_longest_mm,
        cost_per_m=Decimal(0) if shearable else cutting.cost_per_m + hour * minutes_per_m,
        cost_per_pierce=cutting.cost_per_pierce,
        cost_per_stroke=cutting.cost_per_stroke + hour * minutes_per_stroke,
    )


def lead_days_of(shop: Shop, plate_id: str) -> int:
    """Return the days until plates of this id are in the house: none for the rack."""
    for plate in shop.stock:
        if plate.id == plate_id:
            return (plate.lead_days or shop.working_time.plate_lead_days) if plate.buyable else 0
    raise KeyError(plate_id)


def here_on(shop: Shop, plate_id: str) -> date | None:
    """Return the day that the rack gives for plates of this id, None where it gives none."""
    return next((plate.here_on for plate in shop.stock if plate.id == plate_id), None)
