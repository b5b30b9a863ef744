"""Cones on an initial-pinch roll: tilt of the bending roll, slip between plate and rolls, segments.

A cone of revolution has the curvature cos(half apex angle) / r across its straight line at radius r. The
rolls turn at one surface speed over the whole width, the two edges of the blank must travel the two girths,
so one edge (the small one, held back by the cone stop) slips.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, cos, degrees, isnan, pi

from quoting.blanks import ConeForm
from quoting.forming.machine.load import couple_arm
from quoting.forming.machine.pinch_roll import Nip, setting_for_loaded
from quoting.forming.plate import PlateLaw, loaded_curvature
from quoting.forming.range_checks import floats
from quoting.forming.task import half_apex_rad


@dataclass(frozen=True, slots=True)
class ConeSetting:
    """How a cone is rolled. Radii are mean radii across the straight line, lengths in mm.

    `lift_small_mm` and `lift_large_mm` are bending-roll lifts at the edges of the plate (None without slide
    geometry and where the slide has no position for an edge), `tilt_mm_per_m` their difference over a metre
    of slant. `speed_mismatch` is the share by which the small edge must run slower than the large one,
    `slip_mm` the length it slips over the piece, `segments` the pieces it is split into by the shop's rule.
    """

    half_apex_deg: float
    radius_small_mm: float
    radius_large_mm: float
    lift_small_mm: float | None
    lift_large_mm: float | None
    tilt_mm_per_m: float | None
    speed_mismatch: float
    slip_mm: float
    segments: int


def cone_segments(cone: ConeForm, split_ratio: float, arc_deg: float = 360.0) -> int:
    """Return into how many segments the shop's rule splits a cone.

    The slip of a piece is the difference of its two arcs. A cone at the limit ratio q slips (1 - q) of its
    large girth; a steeper one is cut so that each piece slips no more than that. At least 2 when it is split.
    """
    ratio = cone.small_mm / cone.large_mm
    if ratio >= split_ratio or arc_deg < 360:
        return 1
    return max(2, ceil((1 - ratio) / (1 - split_ratio)))


def cone_setting(
    cone: ConeForm, law: PlateLaw, nip: Nip | None, flat_mm: float, split_ratio: float, arc_deg: float = 360.0
) -> ConeSetting:
    """Return the setting of the last pass of a cone; `law` is that of its plate (scalar fields)."""
    angle = half_apex_rad(cone)
    small, large = cone.small_mm / 2 / cos(angle), cone.large_mm / 2 / cos(angle)
    lift_small = lift_large = tilt = None
    if nip is not None:
        loaded = loaded_curvature(law, 1 / floats([small, large]))
        arm = couple_arm(law, loaded, flat_mm)
        lifts = setting_for_loaded(nip, law, loaded, couple_arm_mm=arm).lift_mm
        lift_small, lift_large = (None if isnan(lift) else lift for lift in lifts.tolist())
        if lift_small is not None and lift_large is not None:
            tilt = (lift_small - lift_large) / cone.slant_mm * 1000
    return ConeSetting(
        half_apex_deg=degrees(angle),
        radius_small_mm=small,
        radius_large_mm=large,
        lift_small_mm=lift_small,
        lift_large_mm=lift_large,
        tilt_mm_per_m=tilt,
        speed_mismatch=1 - cone.small_mm / cone.large_mm,
        slip_mm=(cone.large_mm - cone.small_mm) * pi * arc_deg / 360,
        segments=cone_segments(cone, split_ratio, arc_deg),
    )
