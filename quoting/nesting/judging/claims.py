"""What a nest says about pieces without a plate, plates without a use, and pieces that wait: is it true?

Whether a shear frees a piece from an L-shaped remnant is not judged here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import inf

from quoting.core import Rectangle
from quoting.nesting.judging.strokes import trimmed_whole
from quoting.nesting.judging.tolerance import TOLERANCE_MM
from quoting.nesting.nest_problem import NestPlate, NestProblem, Piece
from quoting.nesting.nest_result import Nest, Why

_STAGES_IN_PARTS = 2


def reason_faults(problem: NestProblem, nest: Nest) -> Iterator[str]:
    """Yield the reasons for pieces not placed and plates not used that are not true."""
    unusable = {plate.id: why for plate in problem.plates if (why := _unusable(problem, plate))}
    said = Counter((one.plate, one.why) for one in nest.remarks)
    for (id, why), times in (said - Counter(unusable.items())).items():
        yield f"plate {id} is said to be no use, {why}: {'twice' if times > 1 else 'that is not so'}"
    for id, why in Counter(unusable.items()) - said:
        yield f"plate {id} cannot be used, {why}, and that is not said"
    texts = [one.text for one in nest.remarks] + [one.text for one in nest.unplaced]
    if not all(text.strip() for text in texts):
        yield "a reason is without words"
    pieces = {piece.id: piece for piece in problem.pieces}
    plates = [plate for plate in problem.plates if plate.id not in unusable]
    used = Counter(cut.plate for cut in nest.cut_plates)
    for one in nest.unplaced:
        if one.piece in pieces and one.why not in _reasons(problem, pieces[one.piece], plates, used):
            yield f"piece {one.piece}: not placed because of {one.why}, which is not so"


def _unusable(problem: NestProblem, plate: NestPlate) -> Why | None:
    cutting, margin = problem.cutting, problem.cutting.margin_mm(plate)
    short = min(plate.width_mm, plate.length_mm)
    if short <= 2 * margin:
        return Why.PLATE_TOO_SMALL
    if cutting.method != "shear" or not margin or trimmed_whole(cutting, plate):
        return None
    beyond = short > cutting.longest_cut_mm + TOLERANCE_MM or cutting.stages < _STAGES_IN_PARTS
    return Why.BEYOND_BLADE if beyond else None


def _reasons(
    problem: NestProblem, piece: Piece, plates: Sequence[NestPlate], used: Counter[str]
) -> tuple[Why, ...]:
    """Return the first reason that holds why copies of a piece are not placed; none when they could be."""
    sheared = problem.cutting.method == "shear"
    if not problem.plates:
        return (Why.NO_STOCK,)
    if sheared and not isinstance(piece.outline, Rectangle):
        return (Why.NOT_SHEARABLE,)
    if sheared and min(piece.outline.box()) < problem.cutting.least_strip_mm:
        return (Why.TOO_NARROW,)
    across = [plate for plate in plates if _fits(problem, piece, plate, turned=True)]
    holding = [plate for plate in plates if _fits(problem, piece, plate, turned=False)]
    holding += across if piece.turn else []
    if not holding:
        return (Why.GRAIN if across else Why.TOO_LARGE,)
    return _reasons_of_stock(problem, piece, holding, used)


def _reasons_of_stock(
    problem: NestProblem, piece: Piece, holding: Sequence[NestPlate], used: Counter[str]
) -> tuple[Why, ...]:
    if problem.cutting.method == "shear" and any(plate.notch for plate in holding):
        return Why.STAGES, Why.BEYOND_BLADE, Why.NO_HEAT, Why.STOCK_USED_UP
    freed = _frees(problem, piece, holding, problem.cutting.stages)
    if not freed:
        return (Why.STAGES if _frees(problem, piece, holding, inf) else Why.BEYOND_BLADE,)
    serving = [plate for plate in freed if plate.has_heat or not piece.needs_heat]
    if not serving:
        return (Why.NO_HEAT,)
    gone = all(plate.count is not None and used[plate.id] >= plate.count for plate in serving)
    return (Why.STOCK_USED_UP,) if gone else ()


def _extents(piece: Piece, turned: bool) -> tuple[float, float]:
    dx, dy = piece.outline.box()
    return (dy, dx) if turned else (dx, dy)


def _room(problem: NestProblem, plate: NestPlate) -> tuple[float, float]:
    margin = problem.cutting.margin_mm(plate)
    return plate.length_mm - 2 * margin, plate.width_mm - 2 * margin


def _fits(problem: NestProblem, piece: Piece, plate: NestPlate, *, turned: bool) -> bool:
    """Return whether the piece fits the empty plate; on an L beside or below what is missing."""
    dx, dy = _extents(piece, turned)
    w, h = (side + 0.01 for side in _room(problem, plate))
    if dx > w or dy > h:
        return False
    notch = plate.notch
    return notch is None or dx <= w - notch.length_mm or dy <= h - notch.width_mm


def _frees(problem: NestProblem, piece: Piece, plates: Sequence[NestPlate], stages: float) -> list[NestPlate]:
    """Return the plates that the piece can be cut from when it has each for itself."""
    if problem.cutting.method != "shear":
        return list(plates)
    ways = (False, True) if piece.turn else (False,)
    return [
        plate
        for plate in plates
        if any(
            _strokes_reach(problem, piece, plate, turned, stages)
            for turned in ways
            if _fits(problem, piece, plate, turned=turned)
        )
    ]


def _strokes_reach(
    problem: NestProblem, piece: Piece, plate: NestPlate, turned: bool, most_stages: float
) -> bool:
    """Return whether the blade frees the piece in the corner of what is left inside the plate's margins."""
    longest = problem.cutting.longest_cut_mm
    (dx, dy), (w, h) = _extents(piece, turned), _room(problem, plate)
    if problem.cutting.margin_mm(plate) and max(dx, dy) > longest:
        return False
    across, along = w - dx > TOLERANCE_MM, h - dy > TOLERANCE_MM
    if across + along > most_stages:
        return False
    if across and along:
        return (h <= longest and dx <= longest) or (w <= longest and dy <= longest)
    return not (across and h > longest) and not (along and w > longest)


def _can_run_short(problem: NestProblem) -> bool:
    """Return whether the stock can run short for some piece: only plates of limited number serve it."""
    plates = [plate for plate in problem.plates if _unusable(problem, plate) is None]
    all_used = Counter({plate.id: plate.count for plate in plates if plate.count is not None})
    return any(Why.STOCK_USED_UP in _reasons(problem, piece, plates, all_used) for piece in problem.pieces)


def waiting_faults(problem: NestProblem, nest: Nest) -> Iterator[str]:
    """Yield what is wrong with the money that waiting is said to cost."""
    rule, waited = problem.waiting, nest.waited
    weeks = {piece.week for piece in problem.pieces}
    endless = all(plate.count is None for plate in problem.plates)
    if waited is None:
        # a nest whose stock ran short is not asked about waiting, and has no bound
        if rule is not None and len(weeks) > 1 and (endless or nest.bound):
            yield "later pieces may wait, and it is not said what that costs"
        return
    if rule is None or len(weeks) < 2:
        yield "later pieces wait, and the shop does not say that they may, or there are none"
        return
    said = waited.apart if waited.taken else waited.together
    if said != nest.cost:
        yield f"this nest costs {nest.cost}, what is said of waiting gives {said}"
    most = waited.together * (1 + rule.most_extra_share)
    if waited.taken and waited.apart > most:
        yield f"waiting makes {waited.apart} of {waited.together}, more than the shop allows"
    if not waited.taken and waited.apart <= most and not _can_run_short(problem):
        yield f"waiting makes {waited.apart} of {waited.together}, which is allowed, and they do not wait"
    if waited.together < nest.bound:
        yield f"all together cost {waited.together}, below the bound {nest.bound}"
