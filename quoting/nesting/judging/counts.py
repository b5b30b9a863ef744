"""Plates and pieces are counted: what was asked for is there once, and no more plates than the rack has."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from quoting.nesting.nest_problem import NestProblem
from quoting.nesting.nest_result import Nest


def stock_faults(problem: NestProblem, nest: Nest) -> Iterator[tuple[str, str]]:
    """Yield (plate, what is wrong) with the plates that are cut: unknown, beyond the stock, miscounted."""
    plates = {plate.id: plate for plate in problem.plates}
    copies: defaultdict[str, list[int]] = defaultdict(list)
    for cut in nest.cut_plates:
        copies[cut.plate].append(cut.copy)
    for id, numbers in copies.items():
        if id not in plates:
            yield id, "is not on the list of plates"
            continue
        for copy, times in Counter(numbers).items():
            if times > 1:
                yield f"{id} #{copy}", f"is cut {times} times"
        limit = plates[id].count
        if limit is not None and len(numbers) > limit:
            yield id, f"{len(numbers)} are cut, there are {limit}"
        if set(numbers) != set(range(1, len(numbers) + 1)):
            yield id, f"its copies are not counted from 1 to {len(numbers)}"
    most = problem.drops.most_in_rack
    drops = sum(len(cut.drops) for cut in nest.cut_plates)
    if most is not None and drops:
        left = sum((one.count or 0) - len(copies[one.id]) for one in plates.values() if one.remnant)
        if left + drops > most:
            yield "", f"{left + drops} remnants are left, the rack holds {most}"


def count_faults(problem: NestProblem, nest: Nest) -> Iterator[str]:
    """Yield what is wrong with the number of pieces: placed and not placed make what was asked for."""
    placed: defaultdict[str, list[int]] = defaultdict(list)
    for cut in nest.cut_plates:
        for put in cut.placements:
            placed[put.piece].append(put.copy)
    waiting: Counter[str] = Counter()
    for one in nest.unplaced:
        if one.quantity < 1:
            yield f"piece {one.piece}: {one.quantity} not placed is no number of pieces"
        if one.piece in waiting:
            yield f"piece {one.piece}: stands twice among those not placed"
        waiting[one.piece] += one.quantity
    for id in sorted({*placed, *waiting} - {piece.id for piece in problem.pieces}):
        yield f"piece {id} was not asked for"
    for piece in problem.pieces:
        copies = placed[piece.id]
        if len(set(copies)) != len(copies):
            yield f"piece {piece.id}: a copy is placed twice"
        elif set(copies) != set(range(1, len(copies) + 1)):
            yield f"piece {piece.id}: its copies are not counted from 1 to {len(copies)}"
        if len(copies) + waiting[piece.id] != piece.quantity:
            text = f"{len(copies)} placed and {waiting[piece.id]} not placed do not make {piece.quantity}"
            yield f"piece {piece.id}: {text}"
