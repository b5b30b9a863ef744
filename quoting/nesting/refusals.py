"""Why a piece cannot be cut at all, whatever room there is on the plates."""

from __future__ import annotations

from quoting.nesting.model import NestProblem, Piece
from quoting.nesting.result import Why
from quoting.outlines import Rectangle


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


def too_many_stages(problem: NestProblem, piece: Piece, needed: int) -> tuple[Why, str]:
    """Return that the shear would have to change direction more often than it does."""
    dx, dy = piece.outline.box()
    text = (
        f"{dy:g} x {dx:g} mm takes {needed} stages of cuts out of any plate that holds it, "
        f"the shear does {problem.cutting.stages}"
    )
    return Why.STAGES, text


def too_short_a_blade(problem: NestProblem, piece: Piece) -> tuple[Why, str]:
    """Return that freeing the piece takes a stroke longer than the blade."""
    dx, dy = piece.outline.box()
    text = (
        f"{dy:g} x {dx:g} mm takes a stroke longer than the shear's longest cut, "
        f"{problem.cutting.longest_cut_mm:g} mm, out of any plate that holds it"
    )
    return Why.BEYOND_BLADE, text


def too_long(problem: NestProblem, piece: Piece) -> tuple[Why, str]:
    """Return that a side is beyond the blade and its plates have mill edges."""
    longest = problem.cutting.longest_cut_mm
    text = (
        f"{max(piece.outline.box()):g} mm is longer than the shear's longest cut, {longest:g} mm, "
        "and the plates that hold it have mill edges to trim"
    )
    return Why.BEYOND_BLADE, text
