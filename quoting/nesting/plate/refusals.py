"""Why a piece cannot be cut at all, whatever room there is on the plates."""

from __future__ import annotations

from quoting.core import Rectangle
from quoting.nesting.nest_problem import NestProblem, Piece
from quoting.nesting.nest_result import Why


def refusal(problem: NestProblem, piece: Piece) -> tuple[Why, str] | None:
    """Return why no plate of this problem can ever serve the piece; None when one may."""
    cutting = problem.cutting
    if not problem.plates:
        what = f"{problem.material} {problem.thickness_mm:g} mm" if problem.material else "this material"
        return Why.NO_STOCK, f"no plate of {what} in the rack or on the list of sizes to buy"
    if cutting.method == "shear":
        if not isinstance(piece.outline, Rectangle):
            return Why.NOT_SHEARABLE, "a sector cannot be sheared, it needs a thermal or waterjet cut"
        narrow = min(piece.outline.width_mm, piece.outline.length_mm)
        if narrow < cutting.least_strip_mm:
            text = f"{narrow:g} mm is narrower than the least strip to shear, {cutting.least_strip_mm:g} mm"
            return Why.TOO_NARROW, text
    return None


def not_freed(problem: NestProblem, piece: Piece, needed: int | None) -> tuple[Why, str]:
    """Return why the shear cannot free the piece: the stages needed, or None where the blade is too short."""
    cutting = problem.cutting
    dx, dy = piece.outline.box()
    size, where = f"{dy:g} x {dx:g} mm", "out of any plate that holds it"
    if needed is not None:
        return Why.STAGES, f"{size} takes {needed} stages of cuts {where}, the shear does {cutting.stages}"
    longest = f"the shear's longest cut, {cutting.longest_cut_mm:g} mm"
    return Why.BEYOND_BLADE, f"{size} takes a stroke longer than {longest}, {where}"


def too_long(problem: NestProblem, piece: Piece) -> tuple[Why, str]:
    """Return that a side is beyond the blade and its plates have mill edges."""
    longest = problem.cutting.longest_cut_mm
    text = (
        f"{max(piece.outline.box()):g} mm is longer than the shear's longest cut, {longest:g} mm, "
        "and the plates that hold it have mill edges to trim"
    )
    return Why.BEYOND_BLADE, text
