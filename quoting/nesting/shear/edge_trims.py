"""The whole cut list of a sheared plate: mill edges come off as well, and no stroke is longer than the blade.

Where the blade reaches, the four edges come off first (stage 0). A plate longer than the blade is cut across
first, and each part then has its edges trimmed with the cuts along it: so every part that is kept must be
within the blade's reach, and a plate beyond it both ways cannot be trimmed at all.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from quoting.nesting.nest_problem import NestPlate, NestProblem
from quoting.nesting.nest_result import Axis, ShearCut
from quoting.nesting.shear.cut_list import TOLERANCE_MM, Area, shear_cuts

_STAGES_IN_PARTS = 2


def plate_cuts(problem: NestProblem, plate: NestPlate, wanted: Sequence[Area]) -> tuple[ShearCut, ...] | None:
    """Return all strokes that free the wanted rectangles, in order; None when no sequence does."""
    longest = problem.cutting.longest_cut_mm
    trims = _trims(problem, plate)
    if trims is None:
        return shear_cuts(_area(plate, 0.0), wanted, longest)
    inside = shear_cuts(_area(plate, problem.cutting.margin_mm(plate)), wanted, longest)
    if inside is None:
        return None
    return tuple(replace(one, number=number) for number, one in enumerate((*trims, *inside), start=1))


def trimmed(problem: NestProblem, plate: NestPlate) -> bool:
    """Return whether the plate has mill edges that strokes of a shear take off."""
    return problem.cutting.method == "shear" and problem.cutting.margin_mm(plate) > 0


def beyond_the_blade(problem: NestProblem, plate: NestPlate) -> bool:
    """Return whether the plate has mill edges that the shear cannot take off, whatever is cut first.

    >>> from decimal import Decimal
    >>> from quoting.nesting.nest_problem import CuttingRule
    >>> shear = NestProblem((), (), CuttingRule("shear", longest_cut_mm=3000.0))
    >>> [
    ...     beyond_the_blade(shear, NestPlate("P", width, 6000, None, Decimal(1), edge=edge))
    ...     for width, edge in ((2400, "mill"), (3200, "mill"), (3200, "trimmed"))
    ... ]
    [False, True, False]
    """
    if not trimmed(problem, plate) or _trims(problem, plate) is not None:
        return False
    short = min(plate.length_mm, plate.width_mm)
    return short > _reach(problem) or problem.cutting.stages < _STAGES_IN_PARTS


def _reach(problem: NestProblem) -> float:
    return problem.cutting.longest_cut_mm + TOLERANCE_MM


def _area(plate: NestPlate, margin: float) -> Area:
    return Area(margin, margin, plate.length_mm - margin, plate.width_mm - margin)


def _trims(problem: NestProblem, plate: NestPlate) -> tuple[ShearCut, ...] | None:
    """Return the strokes that take the mill edges off the whole plate; None when the blade is too short."""
    margin = problem.cutting.margin_mm(plate)
    if not margin:
        return ()
    axes: tuple[tuple[Axis, Axis], ...] = (("x", "y"), ("y", "x"))
    for first, then in axes:
        strokes = tuple(_edges(plate, margin, first, then))
        if all(stroke.length_mm <= _reach(problem) for stroke in strokes):
            return strokes
    return None


def _edges(plate: NestPlate, margin: float, first: Axis, then: Axis) -> Iterator[ShearCut]:
    far = {"x": plate.length_mm, "y": plate.width_mm}
    for at in (margin, far[first] - margin):
        yield ShearCut(0, 0, first, at, 0.0, far[then])
    for at in (margin, far[then] - margin):
        yield ShearCut(0, 0, then, at, margin, far[first] - margin)
