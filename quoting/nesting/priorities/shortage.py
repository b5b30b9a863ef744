"""Stock that runs short: pieces of higher priority first, then those to be cut sooner."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from quoting.core import Rectangle
from quoting.nesting.checker import plate_faults
from quoting.nesting.nest_from_solution import extents, numbered, redone, summed
from quoting.nesting.nest_problem import NestProblem, Piece
from quoting.nesting.nest_result import CutPlate, Nest, Placement, Why
from quoting.nesting.plate import prepare
from quoting.nesting.priorities.in_turns import Solve, in_turns


def by_rank(problem: NestProblem, found: Nest, solve: Solve) -> Nest:
    """Return the nest in which the pieces of least rank are the ones that find no stock.

    The pieces are nested rank by rank, `found` stays if it holds more of the first rank in which they differ.
    In the end no placed piece of a later rank lies where an unplaced one of an earlier rank could lie in its
    stead: inside its outline, turned as it may be, with the heat number it needs, within the shear's stages.
    """
    ranks = sorted({piece.rank for piece in problem.pieces})
    if len(ranks) < 2 or not any(one.why is Why.STOCK_USED_UP for one in found.unplaced):
        return found
    turns = [[piece.id for piece in problem.pieces if piece.rank == rank] for rank in ranks]
    ranked = in_turns(problem, turns, solve, Decimal(0))
    best = max((ranked, found), key=lambda one: (_placed(problem, one, turns), -one.cost))
    cuts = list(best.cut_plates)
    while _exchanged(problem, cuts):
        pass
    return summed(prepare(problem), numbered(cuts), Decimal(0), stopped=found.stopped or ranked.stopped)


def _placed(problem: NestProblem, nest: Nest, turns: Sequence[Sequence[str]]) -> list[float]:
    """Return the metal of the placed pieces of each turn, mm2 to six digits."""
    counts = Counter(put.piece for cut in nest.cut_plates for put in cut.placements)
    return [round(sum(counts[id] * problem.piece(id).outline.area_mm2 for id in turn), 6) for turn in turns]


def _exchanged(problem: NestProblem, cuts: list[CutPlate]) -> bool:
    """Put one unplaced piece in the place of one of a later rank; return whether there was one."""
    placed = Counter(put.piece for cut in cuts for put in cut.placements)
    waiting = [piece for piece in problem.pieces if placed[piece.id] < piece.quantity]
    for piece in sorted(waiting, key=lambda one: one.rank):
        for index, cut in enumerate(cuts):
            if piece.needs_heat and not problem.plate(cut.plate).has_heat:
                continue
            later = [
                (put, pose)
                for put in cut.placements
                if problem.piece(put.piece).rank > piece.rank
                for pose in _poses(piece, problem.piece(put.piece), put)
            ]
            for put, pose in sorted(later, key=lambda one: problem.piece(one[0].piece).rank, reverse=True):
                puts = tuple(pose if one is put else one for one in cut.placements)
                new = redone(problem, replace(cut, placements=puts))
                if not any(plate_faults(problem, new)):
                    cuts[index] = new
                    return True
    return False


def _poses(piece: Piece, other: Piece, put: Placement) -> list[Placement]:
    """Return how a piece can lie inside the outline of another one where that is put."""
    if not isinstance(other.outline, Rectangle):
        turned_well = piece.turn or not put.turned
        return [replace(put, piece=piece.id)] if piece.outline == other.outline and turned_well else []
    out = []
    for angle in (0.0, 90.0) if piece.turn else (0.0,):
        dx, dy = extents(piece.outline, angle)
        if dx <= put.dx_mm and dy <= put.dy_mm:
            out.append(Placement(piece.id, 0, put.x_mm, put.y_mm, dx, dy, angle))
    return out
