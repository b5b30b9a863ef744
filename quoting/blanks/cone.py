"""A concentric cone frustum laid flat: an annular sector, cut into segments and courses."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, radians, sin

from quoting.blanks.blank_plan import ConeForm
from quoting.core import Basis, Cone, RangeError, Sector


def cone_form(cone: Cone, thickness_mm: float) -> ConeForm:
    """Return the mean surface of a cone whose edges are square to the wall, all in mm.

    The middle of the wall lies t/2 from a face, square to the wall, so a diameter moves by t cos(a), not t,
    with a the half apex angle, tan a = (D - d)/(2h). Both ends move alike, so height and a stay. Slant
    l = sqrt(h^2 + ((D - d)/2)^2). RangeError when the small end would have no inside left.

    >>> form = cone_form(Cone(8, 5, Basis.MEAN, 4), 0.1)
    >>> round(form.slant_mm, 3)
    4.272
    """
    half_angle = half_apex(cone.large_mm, cone.small_mm, cone.height_mm)
    across = thickness_mm * cos(half_angle)
    shift = {Basis.INSIDE: across, Basis.OUTSIDE: -across, Basis.MEAN: 0.0}[cone.basis]
    large, small = cone.large_mm + shift, cone.small_mm + shift
    if small <= across:
        raise RangeError(
            "cone small diameter", f"{cone.small_mm:g} mm", f"an inside left in {thickness_mm:g} mm plate"
        )
    return ConeForm(large, small, cone.height_mm, hypot(cone.height_mm, (large - small) / 2))


def half_apex(large_mm: float, small_mm: float, height_mm: float) -> float:
    """Return the half apex angle in radians of a frustum of two diameters and its height along the axis."""
    return atan2((large_mm - small_mm) / 2, height_mm)


def cone_sector(form: ConeForm) -> Sector:
    """Return the whole flat of the mean surface: R = l D/(D - d), r = R - l, angle = 180 (D - d)/l degrees.

    Radii in mm. Standard development of a right circular cone; range: D > d > 0, h > 0.

    >>> flat = cone_sector(ConeForm(8, 5, 4, (4**2 + 1.5**2) ** 0.5))
    >>> round(flat.outer_radius_mm, 2), round(flat.inner_radius_mm, 2), round(flat.angle_deg, 1)
    (11.39, 7.12, 126.4)
    """
    taper = form.large_mm - form.small_mm
    outer = form.slant_mm * form.large_mm / taper
    return Sector(outer, outer - form.slant_mm, 180.0 * taper / form.slant_mm)


@dataclass(frozen=True, slots=True)
class ConePiece:
    """One course of a cone cut into equal segments: flat as it stays, flat as it is cut, and rolled form."""

    finished: Sector
    cut: Sector
    form: ConeForm


def cone_pieces(
    form: ConeForm, *, courses: int, seams: int, weld_gap_mm: float, trim_mm: float
) -> tuple[ConePiece, ...]:
    """Return one piece for each course, small end first; `seams` such pieces close the course.

    The long-seam gap is taken off as an angle at mid-slant (the same area as a parallel gap); the girth gap
    comes off the slant. `trim_mm` is the extra length at each end, measured at the small edge, so that no
    point of the edge has less. RangeError when the pieces vanish or would need 360 degrees or more.
    """
    whole = cone_sector(form)
    width = (form.slant_mm - (courses - 1) * weld_gap_mm) / courses
    if width <= 0:
        raise RangeError("weld gap", weld_gap_mm, f"{courses} courses must leave some plate in the slant")
    sine, cosine = (form.large_mm - form.small_mm) / 2 / form.slant_mm, form.height_mm / form.slant_mm
    pieces = []
    for index in range(courses):
        inner = whole.inner_radius_mm + index * (width + weld_gap_mm)
        outer = inner + width
        angle = whole.angle_deg / seams - degrees(weld_gap_mm / ((inner + outer) / 2))
        finished = Sector(outer, inner, angle)
        rolled = ConeForm(2 * outer * sine, 2 * inner * sine, width * cosine, width)
        pieces.append(ConePiece(finished, _with_trim(finished, trim_mm), rolled))
    return tuple(pieces)


def _with_trim(finished: Sector, trim_mm: float) -> Sector:
    if trim_mm == 0:
        return finished
    angle = finished.angle_deg + degrees(2 * trim_mm / finished.inner_radius_mm)
    if angle >= 360:
        raise RangeError(
            "cone trim", f"{trim_mm:g} mm", "an angle under 360 degrees: pre-bend or more segments"
        )
    return Sector(finished.outer_radius_mm, finished.inner_radius_mm, angle)


def edge_length(radius_mm: float, angle_deg: float) -> float:
    """Return the length in mm of the arc of this radius and angle."""
    return radius_mm * radians(angle_deg)


def overall_height(form: ConeForm, thickness_mm: float) -> float:
    """Return the height in mm over both square-cut edges: h + t sin(a), with a the half apex angle."""
    return form.height_mm + thickness_mm * sin(half_apex(form.large_mm, form.small_mm, form.height_mm))
