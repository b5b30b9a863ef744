"""In how many courses and seams a part can be made from plates that exist, fewest pieces first."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil, inf

from quoting.blanks.cone import cone_form, cone_pieces
from quoting.blanks.girth import developed_girth
from quoting.blanks.sector_fits import sector_fits
from quoting.core import Arc, Cone, Cylinder, RangeError, Sector, Shape, mean_diameter

MOST_CONE_SEGMENTS = 12
MOST_CONE_COURSES = 12

Split = tuple[int, int]
"""Courses along the axis, seams (pieces) round the girth."""


@dataclass(frozen=True, slots=True)
class SplitLimits:
    """What the pieces have to fit; lengths in mm.

    `widest_mm` x `longest_mm` is the largest usable plate, girth along its length. `roll_length_mm` is the
    roll's working length: a course is never wider. `trim_mm` is the extra length at each end of a piece.
    `least_seams` asks for segments that the plate alone would not (a steep cone). RangeError for a length
    that is not more than 0, or a plate no longer than both trims.
    """

    widest_mm: float
    longest_mm: float
    roll_length_mm: float = inf
    trim_mm: float = 0.0
    least_seams: int = 1

    def __post_init__(self) -> None:
        for name in ("widest_mm", "longest_mm", "roll_length_mm"):
            if not getattr(self, name) > 0:
                raise RangeError(name, getattr(self, name), "more than 0")
        if not 2 * self.trim_mm < min(self.longest_mm, self.widest_mm):
            raise RangeError("trim", f"{self.trim_mm:g} mm at each end", "less than the plate")

    @property
    def turned(self) -> SplitLimits:
        """Return the same with the plate turned a quarter."""
        return replace(self, widest_mm=self.longest_mm, longest_mm=self.widest_mm)


def sensible_splits(
    shape: Shape, thickness_mm: float, limits: SplitLimits, *, turn: bool = False
) -> tuple[Split, ...]:
    """Return (courses, seams) whose pieces fit the plate and the roll, fewest pieces first; thickness in mm.

    With `turn` a rectangle may lie the other way round on the plate (grain not called for). The first is the
    least that fits; then follow the neighbours with one more course or one more seam. Weld gaps are left
    out: pieces come out a gap shorter. Empty when no split of a cone up to 12 x 12 fits.

    >>> from quoting.core.order import Basis
    >>> sensible_splits(Cylinder(1524, Basis.INSIDE, 3000), 12.7, SplitLimits(2400, 6000))[0]
    (2, 1)
    """
    if isinstance(shape, Cone):
        return _cone_splits(shape, thickness_mm, limits)
    found = _straight_splits(shape, thickness_mm, limits)
    if turn:
        found |= _straight_splits(shape, thickness_mm, limits.turned)
    return tuple(sorted(found, key=_rank))


def _straight_splits(shape: Cylinder | Arc, thickness_mm: float, limits: SplitLimits) -> set[Split]:
    mean, arc = _mean_and_arc(shape, thickness_mm)
    girth = developed_girth(mean, thickness_mm, arc)
    courses = _pieces(shape.length_mm, min(limits.widest_mm, limits.roll_length_mm))
    seams = max(limits.least_seams, _pieces(girth, limits.longest_mm - 2 * limits.trim_mm))
    return {(courses + more, seams + extra) for more in (0, 1) for extra in (0, 1)}


def _pieces(whole: float, most: float) -> int:
    """Return how many equal pieces no longer than `most`; a part in 10^9 of slack for rounding."""
    return max(1, ceil(whole / most - 1e-9))


def _mean_and_arc(shape: Cylinder | Arc, thickness_mm: float) -> tuple[float, float]:
    if isinstance(shape, Cylinder):
        return mean_diameter(shape.diameter_mm, shape.basis, thickness_mm), 360.0
    return mean_diameter(2 * shape.radius_mm, shape.basis, thickness_mm), shape.angle_deg


def _cone_splits(cone: Cone, thickness_mm: float, limits: SplitLimits) -> tuple[Split, ...]:
    """Return the splits that fit and are not beaten in both counts, and two neighbours of the first."""
    slant = cone_form(cone, thickness_mm).slant_mm
    least = _pieces(slant, limits.roll_length_mm)
    tried = [
        (courses, seams)
        for courses in range(least, MOST_CONE_COURSES + 1)
        for seams in range(limits.least_seams, MOST_CONE_SEGMENTS + 1)
    ]
    found: list[Split] = []
    for courses, seams in sorted(tried, key=_rank):
        beaten = any(courses >= fewer and seams >= less for fewer, less in found)
        if not beaten and _cone_fits(
            _cone_flats(cone, thickness_mm, (courses, seams), limits.trim_mm), limits
        ):
            found.append((courses, seams))
    if not found:
        return ()
    courses, seams = found[0]
    return tuple(sorted({*found, (courses, seams + 1), (courses + 1, seams)}, key=_rank))


def _cone_flats(cone: Cone, thickness_mm: float, split: Split, trim_mm: float) -> tuple[Sector, ...]:
    """Return the flats of one segment of each course, or nothing when the trim would close the ring."""
    courses, seams = split
    form = cone_form(cone, thickness_mm)
    try:
        pieces = cone_pieces(form, courses=courses, seams=seams, weld_gap_mm=0.0, trim_mm=trim_mm)
    except RangeError:
        return ()
    return tuple(piece.cut for piece in pieces)


def _cone_fits(flats: tuple[Sector, ...], limits: SplitLimits) -> bool:
    return bool(flats) and all(sector_fits(flat, limits.widest_mm, limits.longest_mm) for flat in flats)


def _rank(split: Split) -> tuple[int, int, int]:
    """Order by pieces, then by courses: a long seam is straight, a girth seam has to match two rings."""
    courses, seams = split
    return courses * seams, courses, seams
