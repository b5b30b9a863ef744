"""A nest without pieces that are not wanted any more: the same plates, what else was on them left out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.nesting.checker import check
from quoting.nesting.nest_from_solution import numbered, redone, summed
from quoting.nesting.nest_problem import NestProblem
from quoting.nesting.nest_result import CutPlate, Nest
from quoting.nesting.plate import prepare


@dataclass(frozen=True, slots=True)
class StillCut:
    """A nest of fewer pieces; `copies` says by plate id and copy which copy each plate is now."""

    nest: Nest
    copies: Mapping[tuple[str, int], int]


def still_cut(problem: NestProblem, found: Nest) -> StillCut | None:
    """Return the plates of a nest with only the pieces that `problem` asks for.

    Plates left empty are not cut. None where that is no sound nest of the problem: its plates are gone, or
    cost something else now.
    """
    wanted = {piece.id for piece in problem.pieces}
    plates = {plate.id for plate in problem.plates}
    kept = [
        replace(cut, placements=tuple(put for put in cut.placements if put.piece in wanted))
        for cut in found.cut_plates
    ]
    kept = [cut for cut in kept if cut.placements]
    if any(cut.plate not in plates for cut in kept):
        return None
    cuts = numbered(redone(problem, cut) for cut in kept)
    nest = summed(prepare(problem), cuts, Decimal(0), stopped=False)
    if nest.unplaced or check(replace(problem, waiting=None), nest):
        return None
    return StillCut(nest, _copies(kept, cuts))


def _copies(before: list[CutPlate], after: list[CutPlate]) -> dict[tuple[str, int], int]:
    return {(old.plate, old.copy): new.copy for old, new in zip(before, after, strict=True)}
