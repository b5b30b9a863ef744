"""From the search's solution to the nest that is handed out: places in mm, drops, shear strokes and money."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal

from quoting.nesting.checker import usable
from quoting.nesting.fill import Filled
from quoting.nesting.model import NestProblem, Piece, StockPlate
from quoting.nesting.result import (
    CutPlate,
    CutStats,
    Drop,
    Nest,
    Placement,
    ShearCut,
    Unplaced,
    Why,
)
from quoting.nesting.search import Solution
from quoting.nesting.shears import Area, shear_cuts
from quoting.nesting.work import UNIT, Work
from quoting.outlines import Outline

_CENT = Decimal("0.01")


def as_nest(work: Work, best: Solution, floor: float, stopped: bool) -> Nest:
    """Return the solution as a nest in mm and money; no nest of these pieces has plates below `floor`."""
    problem = work.problem
    copies: dict[int, int] = {}
    numbers: dict[int, int] = {}
    cut_plates = []
    for one in sorted(best.plates, key=lambda plate: (plate.bin, -plate.area)):
        numbers[one.bin] = numbers.get(one.bin, 0) + 1
        cut_plates.append(_cut_plate(work, one, numbers[one.bin], copies))
    cutting = sum((cut.cutting for cut in cut_plates), CutStats())
    drop_value = sum((drop.value for cut in cut_plates for drop in cut.drops), Decimal(0))
    complete = best.missing < 1e-6
    cutting_cost = cut_cost(problem, cutting)
    fixed = cutting_cost if problem.cutting.method == "thermal" else Decimal(0)
    bound = Decimal(floor).quantize(_CENT, ROUND_FLOOR) + fixed if complete else Decimal(0)
    plate_cost = sum((cut.price for cut in cut_plates), Decimal(0))
    cost = plate_cost - drop_value + cutting_cost
    return Nest(
        tuple(cut_plates),
        (*work.unplaced, *_left_over(work, best)),
        plate_cost,
        drop_value,
        cutting_cost,
        min(bound, cost) if complete else Decimal(0),
        cutting,
        work.remarks,
        stopped,
    )


def _cut_plate(work: Work, one: Filled, number: int, copies: dict[int, int]) -> CutPlate:
    plate = work.problem.plates[work.bins[one.bin].plate]
    margin = work.bins[one.bin].margin
    puts: list[Placement] = []
    for put in one.puts:
        piece = work.problem.pieces[work.items[put.item].piece]
        for m in put.variant.members:
            copies[put.item] = copies.get(put.item, 0) + 1
            x, y = (put.x + m.x) / UNIT + margin, (put.y + m.y) / UNIT + margin
            dx, dy = _extents(piece.outline, m.angle_deg)
            puts.append(Placement(piece.id, copies[put.item], x, y, dx, dy, m.angle_deg))
    drops = tuple(_drop(work, plate, margin, box) for box in one.drops)
    cut = CutPlate(plate.id, number, tuple(puts), drops, one.area / plate.area_mm2, plate.price)
    return _with_cuts(work.problem, plate, cut)


def _extents(outline: Outline, angle_deg: float) -> tuple[float, float]:
    dx, dy = outline.box()
    return (dy, dx) if angle_deg % 180 else (dx, dy)


def _drop(work: Work, plate: StockPlate, margin: float, box: tuple[int, int, int, int]) -> Drop:
    x, y, dx, dy = (value / UNIT for value in box)
    x, y = x + margin, y + margin
    dx = min(dx, plate.length_mm - margin - x)
    dy = min(dy, plate.width_mm - margin - y)
    share = Decimal(dx * dy / plate.area_mm2)
    value = (work.problem.drops.share_of(plate) * plate.price * share).quantize(_CENT, ROUND_FLOOR)
    return Drop(x, y, dx, dy, value)


def _with_cuts(problem: NestProblem, plate: StockPlate, cut: CutPlate) -> CutPlate:
    if problem.cutting.method == "thermal":
        pieces = [problem.piece(put.piece) for put in cut.placements]
        return replace(cut, cutting=_thermal(problem, pieces))
    wanted = [Area(p.x_mm, p.y_mm, p.x_mm + p.dx_mm, p.y_mm + p.dy_mm) for p in cut.placements]
    wanted += [Area(d.x_mm, d.y_mm, d.x_mm + d.dx_mm, d.y_mm + d.dy_mm) for d in cut.drops]
    inside = shear_cuts(usable(problem, plate), wanted, problem.cutting.longest_cut_mm) or ()
    cuts = (*_trims(problem, plate), *inside)
    cuts = tuple(replace(one, number=number) for number, one in enumerate(cuts, start=1))
    length = sum(one.length_mm for one in cuts) / 1000
    return replace(cut, cuts=cuts, cutting=CutStats(length, 0, len(cuts)))


def _trims(problem: NestProblem, plate: StockPlate) -> tuple[ShearCut, ...]:
    """Return the four strokes that take the mill edges off, as stage 0."""
    margin = problem.cutting.margin_mm(plate)
    if not margin:
        return ()
    length, width = plate.length_mm, plate.width_mm
    return (
        ShearCut(0, 0, "x", margin, 0.0, width),
        ShearCut(0, 0, "x", length - margin, 0.0, width),
        ShearCut(0, 0, "y", margin, margin, length - margin),
        ShearCut(0, 0, "y", width - margin, margin, length - margin),
    )


def _thermal(problem: NestProblem, pieces: Sequence[Piece]) -> CutStats:
    lead = problem.cutting.lead_in_mm
    length = sum(piece.outline.perimeter_mm + lead for piece in pieces) / 1000
    return CutStats(length, len(pieces), 0)


def cut_cost(problem: NestProblem, stats: CutStats) -> Decimal:
    """Return the money of the cutting work, rounded to cents."""
    cutting = problem.cutting
    money = (
        cutting.cost_per_m * Decimal(stats.length_m)
        + cutting.cost_per_pierce * stats.pierces
        + cutting.cost_per_stroke * stats.strokes
    )
    return money.quantize(_CENT, ROUND_HALF_UP)


def _left_over(work: Work, best: Solution) -> list[Unplaced]:
    out = []
    for index, item in enumerate(work.items):
        missing = item.count - sum(one.counts[index] for one in best.plates)
        if missing:
            piece = work.problem.pieces[item.piece]
            names = ", ".join(work.problem.plates[work.bins[k].plate].id for k in sorted(item.plates))
            text = f"{missing} of {item.count} find no room: the plates that hold it ({names}) are used up"
            out.append(Unplaced(piece.id, missing, Why.STOCK_USED_UP, text))
    return out
