"""Courses along the axis: how wide each one is, and where pipe rules would rather have no girth weld."""

from __future__ import annotations

from itertools import pairwise

from quoting.blanks.note_words import both
from quoting.core import RangeError

ROUNDING = 1e-9
"""Part of the length that a sum of decimals may be off by before it counts as a remainder."""

# API Spec 2B (2001 and later): 1.1, fabricated pipe typically of 14 in outside diameter and 3/8 in wall
# upwards; 5.5, no two girth welds closer than one diameter or 3 ft, whichever is less, and no more than two
# girth welds in any 10 ft.
PIPE_LEAST_OUTSIDE_MM = 14 * 25.4
PIPE_LEAST_WALL_MM = 9.525
PIPE_GIRTH_WELD_SPACING_MM = 36 * 25.4
PIPE_TWO_WELDS_WITHIN_MM = 120 * 25.4


def course_widths(
    length_mm: float, courses: int, weld_gap_mm: float = 0.0, whole_mm: float | None = None
) -> tuple[float, ...]:
    """Return the width in mm of each course; widths and the girth-weld gaps add up to `length_mm`.

    Equal widths, or courses of `whole_mm` with the remainder last. RangeError when the gaps or the whole
    courses leave nothing, or the remainder would be wider than a whole course.

    >>> course_widths(3000, 2, 2.0)
    (1499.0, 1499.0)
    >>> course_widths(3000, 2, 2.0, whole_mm=1800)
    (1800, 1198.0)
    """
    if courses < 1:
        raise RangeError("courses", courses, "1 or more")
    steel = length_mm - (courses - 1) * weld_gap_mm
    if steel <= 0:
        raise RangeError(
            "weld gap", weld_gap_mm, f"{courses} courses in {length_mm:g} mm must leave some plate"
        )
    if whole_mm is None:
        return (steel / courses,) * courses
    rest = steel - (courses - 1) * whole_mm
    if abs(rest - whole_mm) <= ROUNDING * length_mm:
        return (whole_mm,) * courses
    if not ROUNDING * length_mm < rest < whole_mm:
        raise RangeError(
            "course width",
            f"{whole_mm:g} mm",
            f"{courses} courses in {length_mm:g} mm need a last course of "
            f"more than 0 and no more than a whole one, not {rest:g} mm",
        )
    return (whole_mm,) * (courses - 1) + (rest,)


def girth_weld_notes(
    outside_diameter_mm: float, thickness_mm: float, widths_mm: tuple[float, ...]
) -> tuple[str, ...]:
    """Return what API 2B fabricated pipe would object to in these courses; nothing when out of its scope.

    The shell is not said to be pipe, so each note begins with the condition. Source: module constants.

    >>> girth_weld_notes(610, 12.7, (1000.0, 1000.0, 1000.0, 1000.0))
    ('if this is fabricated pipe (API 2B): no more than two girth welds in any 10 ft',)
    """
    if outside_diameter_mm < PIPE_LEAST_OUTSIDE_MM or thickness_mm < PIPE_LEAST_WALL_MM:
        return ()
    notes = []
    spacing = min(outside_diameter_mm, PIPE_GIRTH_WELD_SPACING_MM)
    between = widths_mm[1:-1]
    if between and min(between) < spacing:
        notes.append(f"if this is fabricated pipe (API 2B): girth welds no closer than {both(spacing)}")
    if any(a + b <= PIPE_TWO_WELDS_WITHIN_MM for a, b in pairwise(between)):
        notes.append("if this is fabricated pipe (API 2B): no more than two girth welds in any 10 ft")
    return tuple(notes)
