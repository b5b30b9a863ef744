"""Pieces nested one turn after the other: the first turn opens the plates it needs, later pieces may fill
what is left of those plates, and what then remains is the next turn."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal

from quoting.nesting.nest_from_solution import numbered, summed
from quoting.nesting.nest_problem import NestPlate, NestProblem
from quoting.nesting.nest_result import CutPlate, Nest
from quoting.nesting.plate import PackingProblem, prepare
from quoting.nesting.priorities.refill import refilled

Solve = Callable[[NestProblem], Nest]


def in_turns(problem: NestProblem, turns: Sequence[Sequence[str]], solve: Solve, bound: Decimal) -> Nest:
    """Return the nest of the pieces taken turn by turn; `turns` holds the ids of the pieces of each turn.

    `solve` nests the pieces that a turn still has, on the plates that are left, and `bound` is what no nest
    of all pieces costs less than.
    """
    work = prepare(problem)
    left = {problem.pieces[item.piece].id: item.count for item in work.items}
    cuts: list[CutPlate] = []
    stopped = False
    for number, turn in enumerate(turns):
        now = {id: left[id] for id in turn if left.get(id)}
        plates = _plates_left(problem.plates, cuts)
        if not now or not plates:
            continue
        pieces = tuple(replace(problem.piece(id), quantity=count) for id, count in now.items())
        found = solve(replace(problem, pieces=pieces, plates=plates, waiting=None))
        stopped = stopped or found.stopped
        _take(left, found.cut_plates)
        for cut in found.cut_plates:
            orders = _orders(work, turns[number:])
            full = refilled(work, cut, [left[problem.pieces[item.piece].id] for item in work.items], orders)
            before = Counter(put.piece for put in cut.placements)
            for id, count in (Counter(put.piece for put in full.placements) - before).items():
                left[id] -= count
            cuts.append(full)
    cuts.sort(key=lambda cut: (cut.cut_by or date.max, _place(problem, cut), -cut.yield_share))
    return summed(work, numbered(cuts), bound, stopped=stopped)


def _take(left: dict[str, int], cuts: Sequence[CutPlate]) -> None:
    for cut in cuts:
        for put in cut.placements:
            left[put.piece] -= 1


def _plates_left(plates: Sequence[NestPlate], cuts: Sequence[CutPlate]) -> tuple[NestPlate, ...]:
    used = Counter(cut.plate for cut in cuts)
    return tuple(
        plate if plate.count is None else replace(plate, count=plate.count - used[plate.id])
        for plate in plates
        if plate.count is None or plate.count > used[plate.id]
    )


def _orders(work: PackingProblem, turns: Sequence[Sequence[str]]) -> list[list[int]]:
    """Return orders of the items to fill up with: turn by turn by area, by longest side; all by area."""
    turn_of = {id: number for number, turn in enumerate(turns) for id in turn}
    indices = range(len(work.items))
    turn = [turn_of.get(work.problem.pieces[item.piece].id, 0) for item in work.items]
    area = [item.area for item in work.items]
    side = [max(item.variants[-1].w, item.variants[-1].h) for item in work.items]
    return [
        sorted(indices, key=lambda k: (turn[k], -area[k], k)),
        sorted(indices, key=lambda k: (turn[k], -side[k], k)),
        sorted(indices, key=lambda k: (-area[k], k)),
    ]


def _place(problem: NestProblem, cut: CutPlate) -> int:
    return next(k for k, plate in enumerate(problem.plates) if plate.id == cut.plate)
