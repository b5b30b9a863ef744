"""Which plate: groups of blanks to nest, and who pays for which share of the plates."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from quoting.blanks import KG_PER_MM3
from quoting.core import OrderLine, Rectangle
from quoting.estimating.result import Route
from quoting.labour import CutWork, cutting_minutes
from quoting.nesting import CutPlate, CuttingRule, DropRule, Nest, NestPlate, NestProblem, Piece, Waiting
from quoting.pricing import allocate
from quoting.shop import Shop, StockPlate

CENT = Decimal("0.01")
_MILLIONTH = Decimal("0.000001")


SAME_THICKNESS_MM = 0.05
"""Thicknesses closer than this are one stock thickness: 0.25 in and 6.35 mm are, 6 mm and 1/4 in are not."""


@dataclass(frozen=True, slots=True)
class RoutedLine:
    """A line with the route it will be priced on."""

    line: OrderLine
    route: Route


@dataclass(frozen=True, slots=True)
class PlateShare:
    """What one line takes of the nest: money, metal and the plates that hold its blanks."""

    plate_cost: Decimal = Decimal(0)
    drop_credit: Decimal = Decimal(0)
    cutting_cost: Decimal = Decimal(0)
    plate_kg: float = 0.0
    plates: tuple[str, ...] = ()


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
            cut_by=max(line.due - days, today) if line.due else None,
        )
        for blank in item.route.plan.blanks
    ]


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


def plate_name(cut: CutPlate) -> str:
    """Return the name a cut plate has on every book: its rack id, and the copy when there are several."""
    return f"{cut.plate} #{cut.copy}"


def share_costs(
    problem: NestProblem, nest: Nest, line_of: Mapping[str, str], shop: Shop
) -> dict[str, PlateShare]:
    """Return each line's share of one nest; the shares add up to the plates and the cutting to the cent.

    All plates of the nest and their drops are shared by the area of the blanks, cutting by their outlines:
    equal blanks cost the same whichever plate they happen to lie on. Shares go on to a millionth, so that
    equal lines get equal prices. `line_of` maps piece ids to line ids.
    """
    areas: dict[str, float] = defaultdict(float)
    outlines: dict[str, float] = defaultdict(float)
    plates: dict[str, dict[str, None]] = defaultdict(dict)
    for cut in nest.cut_plates:
        for placement in cut.placements:
            line = line_of[placement.piece]
            outline = problem.piece(placement.piece).outline
            areas[line] += outline.area_mm2
            outlines[line] += outline.perimeter_mm
            plates[line][plate_name(cut)] = None
    lines = list(areas)
    weights = [areas[line] for line in lines]
    edges = [outlines[line] for line in lines]
    cutting = sum((_cutting_cost(problem.cutting, cut, shop) for cut in nest.cut_plates), Decimal(0))
    money = zip(
        lines,
        _shares(nest.plate_cost, weights),
        _shares(nest.drop_value, weights),
        _shares(cutting, edges),
        strict=True,
    )
    whole_kg = _plates_kg(problem, nest, shop)
    return {
        line: PlateShare(price, credit, cost, whole_kg * areas[line] / sum(weights), tuple(plates[line]))
        for line, price, credit, cost in money
    }


def _shares(amount: Decimal, weights: Sequence[float]) -> list[Decimal]:
    """Return an amount shared by weight to a millionth; what weighs the same gets the same."""
    shares = allocate(amount.quantize(_MILLIONTH), weights)
    first: dict[float, Decimal] = {}
    return [first.setdefault(round(weight, 3), share) for weight, share in zip(weights, shares, strict=True)]


def _plates_kg(problem: NestProblem, nest: Nest, shop: Shop) -> float:
    area = sum(problem.plate(cut.plate).area_mm2 for cut in nest.cut_plates)
    return area * problem.thickness_mm * shop.material(problem.material).density_kg_m3 * KG_PER_MM3


def cut_work(rule: CuttingRule, cut: CutPlate) -> CutWork:
    """Return what one plate asks of the cutting station; the metres of a shear cost strokes, not travel."""
    stats = cut.cutting
    return CutWork(
        cut_m=0.0 if rule.method == "shear" else stats.length_m,
        pierces=stats.pierces,
        strokes=stats.strokes,
        plates=1,
    )


def cutting_minutes_of(rule: CuttingRule, cut: CutPlate, shop: Shop) -> float:
    """Return the minutes that one plate is on the cutting station."""
    return cutting_minutes(
        cut_work(rule, cut), shop.labour, minutes_per_stroke=shop.labour.shear_minutes_per_stroke
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


def _cutting_cost(rule: CuttingRule, cut: CutPlate, shop: Shop) -> Decimal:
    """Return the money of cutting one plate: consumables, and the station with its operator by the hour."""
    minutes = Decimal(str(round(cutting_minutes_of(rule, cut, shop), 4)))
    stats = cut.cutting
    cost = (
        Decimal(str(round(stats.length_m, 4))) * shop.cutting.cost_per_m * (rule.method == "thermal")
        + stats.pierces * shop.cutting.cost_per_pierce
        + stats.strokes * shop.cutting.cost_per_stroke
        + minutes / 60 * shop.cutting.rate_per_hour
    )
    return cost.quantize(CENT)


def by_weight(item: RoutedLine, shop: Shop) -> PlateShare:
    """Return the plate of a line by the weight of its blanks at the grade's price, without a nest."""
    kg = sum(rolling.blank.weight_kg * rolling.quantity for rolling in item.route.rollings)
    if item.line.free_issue:
        return PlateShare(plate_kg=kg)
    price = Decimal(str(round(kg, 4))) * shop.material(item.line.material).price_per_kg
    return PlateShare(plate_cost=price.quantize(CENT), plate_kg=kg)


def own_plate(item: RoutedLine, shop: Shop) -> PlateShare:
    """Return the share of a line whose plate the customer supplies: only the cutting of its blanks costs."""
    metres = sum(
        rolling.blank.outline.perimeter_mm * rolling.quantity / 1000 for rolling in item.route.rollings
    )
    pieces = sum(rolling.quantity for rolling in item.route.rollings)
    minutes = cutting_minutes(CutWork(cut_m=metres, pierces=pieces, plates=1), shop.labour)
    cutting = shop.cutting
    cost = (
        Decimal(str(round(metres, 4))) * cutting.cost_per_m
        + pieces * cutting.cost_per_pierce
        + Decimal(str(round(minutes, 4))) / 60 * cutting.rate_per_hour
    )
    return PlateShare(cutting_cost=cost.quantize(CENT), plate_kg=by_weight(item, shop).plate_kg)
