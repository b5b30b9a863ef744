"""The one way in: `nest` a group of pieces onto plates for the least money, and say how close to the best
it is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from typing import Literal, TypeAlias

from quoting.errors import RollwrightError
from quoting.nesting.bounds import money_bound
from quoting.nesting.checker import check, usable
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
from quoting.nesting.search import Solution, Stop, first_solutions, improve, solution
from quoting.nesting.shears import Area, shear_cuts
from quoting.nesting.work import UNIT, Work, prepare
from quoting.outlines import Outline

Effort: TypeAlias = Literal["quick", "normal", "thorough"]

_CENT = Decimal("0.01")
_STEPS: dict[Effort, int] = {"quick": 12, "normal": 600, "thorough": 6000}
_WORK: dict[Effort, int] = {"quick": 10_000_000, "normal": 400_000_000, "thorough": 4_000_000_000}
_FULL_WORK_PIECES = 100
_FIRST: dict[Effort, int] = {"quick": 20_000, "normal": 60_000, "thorough": 400_000}
QUICK_PIECES = 60
"""From here on the compiled search earns its import and compile time. With drops to value it is left out for
longer, and below this always unless the run is thorough: there it found 0.1 % in 25 s of compiling."""
QUICK_PIECES_WITH_DROPS = 500
_MOST_STEPS_A_PAIR = 40


class NestRefusedError(RollwrightError):
    """A layout that the checker refused: a fault of this program, never of the user's data."""


def nest(
    problem: NestProblem, *, effort: Effort = "quick", seed: int = 0, stop: Callable[[], bool] | None = None
) -> Nest:
    """Return the cheapest checked nest found for one group of pieces.

    The same problem, effort and seed give the same nest: only counted steps end the search. `stop` is
    asked often; when it returns True the best layout so far is returned, with `stopped` set. Pieces that
    fit nowhere come back as `unplaced` with a reason, the others still nest. Raises NestRefusedError if a
    layout fails the checker.
    """
    interrupt = _Interrupt(stop)
    work = prepare(problem)
    floor = money_bound(work)
    best = _search(work, floor, effort, seed, interrupt)
    found = _nest(work, best, floor, interrupt.seen)
    faults = check(problem, found)
    if faults:
        raise NestRefusedError("the checker refused the nest: " + "; ".join(map(str, faults[:5])))
    return found


class _Interrupt:
    """Asks the caller's stop rule and remembers that it said yes."""

    def __init__(self, stop: Callable[[], bool] | None) -> None:
        self._stop = stop
        self.seen = False

    def __call__(self) -> bool:
        self.seen = self.seen or bool(self._stop and self._stop())
        return self.seen


def _search(work: Work, floor: float, effort: Effort, seed: int, stop: Stop) -> Solution:
    if not work.items:
        return solution(work, ())
    pieces = sum(item.count for item in work.items)
    boxes = all(not variant.covers for item in work.items for variant in item.variants)
    compiled = boxes and _earns_compiling(work, effort, pieces)
    start = first_solutions(work, _FIRST[effort] // (len(work.items) * len(work.bins)), stop)
    if start.missing < 1e-6 and start.cost <= floor + 1e-9:
        return start
    if compiled:
        return _compiled(work, start, floor, effort, seed, stop)
    return improve(work, start, _steps(work, effort, pieces), floor=floor, seed=seed, stop=stop)


def _earns_compiling(work: Work, effort: Effort, pieces: int) -> bool:
    if effort == "thorough":
        return True
    if not work.drop_share:
        return effort == "normal" or pieces > QUICK_PIECES
    return pieces > (QUICK_PIECES if effort == "normal" else QUICK_PIECES_WITH_DROPS)


def _compiled(work: Work, start: Solution, floor: float, effort: Effort, seed: int, stop: Stop) -> Solution:
    from quoting.nesting import reduce  # noqa: PLC0415 - numba is heavy

    pieces = sum(item.count for item in work.items)
    if reduce.one_kind(work):
        found = reduce.fewest_of_one_kind(
            work, budget=_budget(effort, pieces), floor=floor, seed=seed, stop=stop
        )
        start = found if found.better_than(start) else start
        if not work.drop_share:
            return start
    start = improve(work, start, _steps(work, effort, pieces), floor=floor, seed=seed, stop=stop)
    if reduce.one_kind(work) or start.missing > 1e-6:
        return start
    return reduce.cheaper(work, start, budget=_budget(effort, pieces), floor=floor, seed=seed, stop=stop)


def _budget(effort: Effort, pieces: int) -> int:
    """Return the units of compiled work (about ten nanoseconds each): less for small groups."""
    share = min(max(pieces, _FULL_WORK_PIECES // 2), _FULL_WORK_PIECES)
    return _WORK[effort] * share // _FULL_WORK_PIECES


def _steps(work: Work, effort: Effort, pieces: int) -> int:
    """Return how often plates are emptied and refilled: less where steps are dear or little can change."""
    kinds = len(work.bins)
    steps = _STEPS[effort] * (3000 if kinds == 1 else 600) // ((60 + pieces // 10) * kinds)
    return max(min(steps, _MOST_STEPS_A_PAIR * pieces**2), 1)


def _nest(work: Work, best: Solution, floor: float, stopped: bool) -> Nest:
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
