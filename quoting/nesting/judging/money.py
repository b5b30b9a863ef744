"""Metres, pierces, strokes, yield and money of a nest, worked out again from pieces, drops and strokes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from math import floor, isclose

from quoting.nesting.nest_problem import CuttingRule, DropRule, NestPlate, NestProblem, Piece
from quoting.nesting.nest_result import CutPlate, CutStats, Drop, Nest, Why

_CENT = Decimal("0.01")
_MICRO_M = 1e-6
_MICRO_MONEY = Fraction(1, 1_000_000)


def plate_figure_faults(
    problem: NestProblem, plate: NestPlate, cut: CutPlate, pieces: Mapping[str, Piece]
) -> Iterator[str]:
    """Yield the figures of one plate that differ: price, yield, cutting work, what the drops count for."""
    if cut.price != plate.price:
        yield f"costs {plate.price}, the nest says {cut.price}"
    metal = sum(pieces[put.piece].outline.area_mm2 for put in cut.placements if put.piece in pieces)
    notch = plate.notch.width_mm * plate.notch.length_mm if plate.notch else 0.0
    area = plate.width_mm * plate.length_mm - notch
    if not isclose(cut.yield_share, metal / area, rel_tol=1e-9):
        yield f"its pieces are {metal / area:.2%} of it, the nest says {cut.yield_share:.2%}"
    yield from _work_faults(_work(problem.cutting, cut, pieces), cut.cutting)
    if problem.cutting.method == "thermal" and cut.cuts:
        yield "has strokes of a shear and is cut thermally"
    for drop in cut.drops:
        if drop.value not in _values(problem.drops, plate, area, drop):
            worth = min(_values(problem.drops, plate, area, drop))
            size = f"{drop.dx_mm:g} x {drop.dy_mm:g} mm"
            yield f"a drop of {size} counts for {worth}, the nest says {drop.value}"


def _work(cutting: CuttingRule, cut: CutPlate, pieces: Mapping[str, Piece]) -> CutStats:
    """Return the cutting work: every outline with a lead-in and a pierce, or every stroke of the list."""
    if cutting.method == "shear":
        return CutStats(sum(one.end_mm - one.start_mm for one in cut.cuts) / 1000, 0, len(cut.cuts))
    known = [pieces[put.piece] for put in cut.placements if put.piece in pieces]
    length = sum(piece.outline.perimeter_mm + cutting.lead_in_mm for piece in known)
    return CutStats(length / 1000, len(known), 0)


def _work_faults(found: CutStats, said: CutStats) -> Iterator[str]:
    if not isclose(found.length_m, said.length_m, rel_tol=1e-9, abs_tol=_MICRO_M):
        yield f"{found.length_m:.4f} m are cut, the nest says {said.length_m:.4f}"
    for name in ("pierces", "strokes"):
        if getattr(found, name) != getattr(said, name):
            yield f"{getattr(found, name)} {name} are made, the nest says {getattr(said, name)}"


def _values(rule: DropRule, plate: NestPlate, area_mm2: float, drop: Drop) -> set[Decimal]:
    """Return what a drop counts for in cents, rounded down; two where lengths leave the last cent open."""
    share = Fraction(1) if plate.remnant else Fraction(rule.value_share)
    exact = share * Fraction(plate.price) * Fraction(drop.dx_mm) * Fraction(drop.dy_mm) / Fraction(area_mm2)
    exact -= Fraction(rule.keep_cost)
    cents = (floor((exact + off) * 100) for off in (-_MICRO_MONEY, _MICRO_MONEY))
    return {max(Decimal(cent), Decimal(0)) * _CENT for cent in cents}


def money_faults(problem: NestProblem, nest: Nest, pieces: Mapping[str, Piece]) -> Iterator[str]:
    """Yield the sums of the nest that differ: plates, drops, cutting work and money; and a false bound."""
    prices = {plate.id: plate.price for plate in problem.plates}
    plates = sum((prices.get(cut.plate, Decimal(0)) for cut in nest.cut_plates), Decimal(0))
    if plates != nest.plate_cost:
        yield f"the plates cost {plates}, the nest says {nest.plate_cost}"
    drops = sum((drop.value for cut in nest.cut_plates for drop in cut.drops), Decimal(0))
    if drops != nest.drop_value:
        yield f"the drops count for {drops}, the nest says {nest.drop_value}"
    each = [_work(problem.cutting, cut, pieces) for cut in nest.cut_plates]
    work = CutStats(
        sum(one.length_m for one in each), sum(one.pierces for one in each), sum(one.strokes for one in each)
    )
    yield from (f"in all {text}" for text in _work_faults(work, nest.cutting))
    # to the cent by the metres that are said: whether these are right was seen above
    cutting = floor(_cutting_money(problem.cutting, nest.cutting) * 100 + Fraction(1, 2)) * _CENT
    if nest.cutting_cost != cutting:
        yield f"the cutting costs {cutting}, the nest says {nest.cutting_cost}"
    yield from _bound_faults(nest)


def _cutting_money(cutting: CuttingRule, work: CutStats) -> Fraction:
    return (
        Fraction(cutting.cost_per_m) * Fraction(work.length_m)
        + Fraction(cutting.cost_per_pierce) * work.pierces
        + Fraction(cutting.cost_per_stroke) * work.strokes
    )


def _bound_faults(nest: Nest) -> Iterator[str]:
    """A bound is true when it is low enough: a lower one than could be shown is no fault."""
    cost = nest.plate_cost - nest.drop_value + nest.cutting_cost
    if nest.bound > cost:
        yield f"the cost {cost} is below the bound {nest.bound}"
    if nest.bound < 0:
        yield f"the bound {nest.bound} is below nothing"
    if nest.bound and any(one.why is Why.STOCK_USED_UP for one in nest.unplaced):
        yield f"the bound {nest.bound} is for all pieces that the stock has sizes for, and some are missing"
