"""Who pays for which share of the plates, and what cutting them costs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from quoting.blanks import KG_PER_MM3
from quoting.estimating.plates.stocking import RoutedLine
from quoting.labour import CutWork, cutting_minutes
from quoting.nesting import CutPlate, CuttingRule, Nest, NestProblem
from quoting.pricing import allocate
from quoting.shop import Shop

CENT = Decimal("0.01")
_MILLIONTH = Decimal("0.000001")


@dataclass(frozen=True, slots=True)
class PlateShare:
    """What one line takes of the nest: money, metal and the plates that hold its blanks."""

    plate_cost: Decimal = Decimal(0)
    drop_credit: Decimal = Decimal(0)
    cutting_cost: Decimal = Decimal(0)
    plate_kg: float = 0.0
    plates: tuple[str, ...] = ()


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
    taken = {
        piece.id: (line_of[piece.id], piece.outline.area_mm2, piece.outline.perimeter_mm)
        for piece in problem.pieces
    }
    for cut in nest.cut_plates:
        name = plate_name(cut)
        for placement in cut.placements:
            line, area, around = taken[placement.piece]
            areas[line] += area
            outlines[line] += around
            plates[line][name] = None
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
