"""From the search's solution to the nest that is handed out: places in mm, drops, shear strokes and money."""

from __future__ import annotations

from collections import Counter
from collections.abc import Container, Iterable, Sequence
from dataclasses import replace
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal

from quoting.core import Outline
from quoting.nesting.nest_problem import NestPlate, NestProblem, Piece
from quoting.nesting.nest_result import CutPlate, CutStats, Drop, Nest, Placement, Unplaced, Why
from quoting.nesting.plate import UNIT, Bin, Box, Filled, PackingProblem
from quoting.nesting.search import Solution
from quoting.nesting.shear import TOLERANCE_MM, Area, plate_cuts, trimmed

_CENT = Decimal("0.01")


def as_nest(work: PackingProblem, best: Solution, floor: float, stopped: bool) -> Nest:
    """Return the solution as a nest in mm and money; no nest of these pieces has plates below `floor`."""
    laid = {one: _cut_plate(work, one) for one in dict.fromkeys(best.plates)}  # many may be cut alike
    cuts = numbered(laid[one] for one in sorted(best.plates, key=lambda one: (one.bin, -one.area)))
    fixed = Decimal(0)
    if work.problem.cutting.method == "thermal":
        fixed = cut_cost(work.problem, sum((cut.cutting for cut in cuts), CutStats()))
    bound = Decimal(floor).quantize(_CENT, ROUND_FLOOR) + fixed
    return summed(work, cuts, bound, stopped=stopped)


def numbered(cuts: Iterable[CutPlate]) -> list[CutPlate]:
    """Return the plates with the copies of plates and pieces counted afresh, in this order."""
    plates: Counter[str] = Counter()
    pieces: Counter[str] = Counter()
    out = []
    for cut in cuts:
        plates[cut.plate] += 1
        puts = []
        for put in cut.placements:
            pieces[put.piece] += 1
            puts.append(_counted(put, pieces[put.piece]))
        out.append(replace(cut, copy=plates[cut.plate], placements=tuple(puts)))
    return out


def _counted(put: Placement, copy: int) -> Placement:
    """Return the placement of another copy; of thousands `replace` would take three times as long."""
    return Placement(put.piece, copy, put.x_mm, put.y_mm, put.dx_mm, put.dy_mm, put.angle_deg)


def summed(work: PackingProblem, cuts: Sequence[CutPlate], bound: Decimal, *, stopped: bool) -> Nest:
    """Return the nest of these plates: what is missing and why, and the money.

    `bound` holds for a nest of all pieces; without one of them it is 0. Drops that the rack has no room for
    are no drops.
    """
    cuts = _in_rack(work.problem, cuts)
    cutting = sum((cut.cutting for cut in cuts), CutStats())
    drop_value = sum((drop.value for cut in cuts for drop in cut.drops), Decimal(0))
    cutting_cost = cut_cost(work.problem, cutting)
    plate_cost = sum((cut.price for cut in cuts), Decimal(0))
    missing = _left_over(work, cuts)
    cost = plate_cost - drop_value + cutting_cost
    return Nest(
        tuple(cuts),
        (*work.unplaced, *missing),
        plate_cost,
        drop_value,
        cutting_cost,
        Decimal(0) if missing else min(bound, cost),
        cutting,
        work.remarks,
        stopped,
    )


def _in_rack(problem: NestProblem, cuts: Sequence[CutPlate]) -> Sequence[CutPlate]:
    """Return the plates with the drops that the rack has room for, those worth most."""
    if problem.drops.most_in_rack is None:
        return cuts
    drops = [(drop.value, -k, drop) for k, cut in enumerate(cuts) for drop in cut.drops]
    room = problem.drops.most_in_rack - remnants_left(problem, cuts)
    if len(drops) <= room:
        return cuts
    kept = [(-k, drop) for _, k, drop in sorted(drops, key=lambda one: one[:2], reverse=True)[: max(0, room)]]
    held = [tuple(drop for drop in cut.drops if (k, drop) in kept) for k, cut in enumerate(cuts)]
    return [
        cut if drops == cut.drops else redone(problem, replace(cut, drops=drops))
        for cut, drops in zip(cuts, held, strict=True)
    ]


def remnants_left(problem: NestProblem, cuts: Iterable[CutPlate]) -> int:
    """Return how many remnants of the group are in the rack when these plates have been cut."""
    there = {plate.id: plate.count or 0 for plate in problem.plates if plate.remnant}
    return sum(there.values()) - sum(cut.plate in there for cut in cuts)


def _cut_plate(work: PackingProblem, one: Filled) -> CutPlate:
    return laid_out(work, work.bins[one.bin], places(work, one), one.drops)


def places(work: PackingProblem, one: Filled) -> list[Placement]:
    """Return where the pieces of a filled plate lie, in mm; copies are not counted yet."""
    margin = work.bins[one.bin].margin
    puts: list[Placement] = []
    for put in one.puts:
        piece = work.problem.pieces[work.items[put.item].piece]
        for m in put.variant.members:
            x, y = (put.x + m.x) / UNIT + margin, (put.y + m.y) / UNIT + margin
            dx, dy = extents(piece.outline, m.angle_deg)
            puts.append(Placement(piece.id, 0, x, y, dx, dy, m.angle_deg))
    return puts


def laid_out(
    work: PackingProblem, plate_bin: Bin, puts: Sequence[Placement], boxes: Iterable[Box]
) -> CutPlate:
    """Return a plate with these pieces and drops, its cutting worked out; copies are not counted yet."""
    problem = work.problem
    plate = problem.plates[plate_bin.plate]
    found = (_drop(work, plate, plate_bin.margin, box) for box in boxes)
    drops = tuple(
        drop
        for drop in found
        if problem.drops.keeps(drop.dx_mm + TOLERANCE_MM, drop.dy_mm + TOLERANCE_MM)
        and (drop.value > 0 or not problem.drops.keep_cost)
    )
    return redone(problem, CutPlate(plate.id, 0, tuple(puts), drops, 0.0, plate.price))


def redone(problem: NestProblem, cut: CutPlate) -> CutPlate:
    """Return the plate with its yield, day and cutting worked out from its pieces and drops."""
    plate = problem.plate(cut.plate)
    pieces = [problem.piece(put.piece) for put in cut.placements]
    area = sum(piece.outline.area_mm2 for piece in pieces)
    day = min((piece.cut_by for piece in pieces if piece.cut_by), default=None)
    cut = replace(cut, yield_share=area / plate.area_mm2, cut_by=day)
    return _with_cuts(problem, plate, cut, pieces)


def extents(outline: Outline, angle_deg: float) -> tuple[float, float]:
    """Return the extents along x and y in mm of a piece turned by quarter turns."""
    dx, dy = outline.box()
    return (dy, dx) if angle_deg % 180 else (dx, dy)


def _drop(work: PackingProblem, plate: NestPlate, margin: float, box: tuple[int, int, int, int]) -> Drop:
    x, y, dx, dy = (value / UNIT for value in box)
    x, y = x + margin, y + margin
    dx = min(dx, plate.length_mm - margin - x)
    dy = min(dy, plate.width_mm - margin - y)
    if trimmed(work.problem, plate):
        longest = work.problem.cutting.longest_cut_mm
        dx, dy = min(dx, longest), min(dy, longest)
    share = Decimal(repr(dx * dy / plate.area_mm2))  # as written: 0.6 must not become 0.5999...
    worth = work.problem.drops.share_of(plate) * plate.price * share
    value = (worth - work.problem.drops.keep_cost).quantize(_CENT, ROUND_FLOOR)
    return Drop(x, y, dx, dy, value)


def _with_cuts(problem: NestProblem, plate: NestPlate, cut: CutPlate, pieces: Sequence[Piece]) -> CutPlate:
    if problem.cutting.method == "thermal":
        return replace(cut, cutting=_thermal(problem, pieces))
    wanted = [Area(p.x_mm, p.y_mm, p.x_mm + p.dx_mm, p.y_mm + p.dy_mm) for p in cut.placements]
    wanted += [Area(d.x_mm, d.y_mm, d.x_mm + d.dx_mm, d.y_mm + d.dy_mm) for d in cut.drops]
    cuts = plate_cuts(problem, plate, wanted) or ()
    length = sum(one.length_mm for one in cuts) / 1000
    return replace(cut, cuts=cuts, cutting=CutStats(length, 0, len(cuts)))


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


def _left_over(work: PackingProblem, cuts: Sequence[CutPlate]) -> list[Unplaced]:
    placed = Counter(put.piece for cut in cuts for put in cut.placements)
    out = []
    for item in work.items:
        piece = work.problem.pieces[item.piece]
        missing = item.count - placed[piece.id]
        if missing:
            holding = {work.problem.plates[work.bins[k].plate].id: None for k in sorted(item.plates)}
            text = f"{missing} of {item.count} find no room: the plates that hold it ({', '.join(holding)}) "
            out.append(
                Unplaced(piece.id, missing, Why.STOCK_USED_UP, text + _used_up(work, piece, holding, cuts))
            )
    return out


def _used_up(work: PackingProblem, piece: Piece, holding: Container[str], cuts: Sequence[CutPlate]) -> str:
    """Return why the plates that hold a piece are not there for it: who came first."""
    on_them = {put.piece for cut in cuts if cut.plate in holding for put in cut.placements}
    others = [work.problem.piece(id) for id in on_them]
    if any(other.priority > piece.priority for other in others):
        return "are used up, pieces of higher priority come first"
    if any(other.rank < piece.rank for other in others):
        return "are used up, pieces that must be cut sooner come first"
    return "are used up"
