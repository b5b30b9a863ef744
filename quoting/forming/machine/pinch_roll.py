"""Geometry of a three-roll initial-pinch machine: where the bending roll must stand for a wanted radius.

Origin at the underside of the top roll; x runs back from the nip towards the bending roll, y upwards. The
top roll is fixed in the frame, the pinch roll closes on the plate from below. The bending roll's centre
moves on a line that leans by the slide angle from the vertical towards the top roll. At lift 0 the centre
stands the slide offset behind the nip and the top of the bending roll is level with the underside of the
top roll.

The plate leaves the top roll at an angle: top-roll and pinch-roll contact stand `couple_arm_mm` apart along
the plate, since a pair of rolls can hold a moment only with such an arm. With a couple arm of 0 the plate
is clamped level in the nip, the usual textbook picture.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import cos, radians, sin, tan

import numpy as np
from numpy.typing import ArrayLike, NDArray

from quoting.core import RangeError
from quoting.forming.plate import (
    FreeShape,
    PlateLaw,
    final_curvature,
    loaded_curvature,
    loading_shape,
    moment,
    unloading_shape,
)
from quoting.forming.range_checks import Floats, floats, positive, require
from quoting.shop import Roll

_LONGEST = 4.0
"""Longest free length looked at, in slide offsets."""
_SOLVE_STEPS = 40
_BISECTIONS = 60


class Direction(StrEnum):
    """Which way the plate runs: from the nip to the bending roll, or in over the bending roll to the nip."""

    NORMAL = "normal"
    REVERSE = "reverse"


@dataclass(frozen=True, slots=True)
class Nip:
    """Radii of the three rolls, and the slide: offset behind the nip, angle in rad from the vertical."""

    top_radius_mm: float
    pinch_radius_mm: float
    bending_radius_mm: float
    offset_mm: float
    angle_rad: float

    def __post_init__(self) -> None:
        positive(
            top_radius_mm=self.top_radius_mm,
            pinch_radius_mm=self.pinch_radius_mm,
            bending_radius_mm=self.bending_radius_mm,
            slide_offset_mm=self.offset_mm,
        )
        if not 0 <= self.angle_rad < radians(90):
            raise RangeError("slide angle (rad)", self.angle_rad, "0 up to a right angle")


def nip_of(roll: Roll) -> Nip | None:
    """Return the geometry of a roll, or None when the shop's book does not say where its slide is."""
    if roll.slide is None:
        return None
    return Nip(
        roll.top_roll_mm / 2,
        roll.pinch_roll_mm / 2,
        roll.bending_roll_mm / 2,
        roll.slide.offset_mm,
        radians(roll.slide.angle_deg),
    )


@dataclass(frozen=True, slots=True)
class Setting:
    """One bending-roll position per line; NaN in `lift_mm` where the bending roll cannot get there.

    `lift_mm` is along the slide from the level position, `free_length_mm` the plate from nip to contact (the
    flat of a leading end without pre-bend), `arm_mm` the lever arm of the bending-roll force about the nip,
    `contact_angle_rad` the slope of the plate at the contact (the entry angle in reverse), `force_n_mm` the
    bending-roll force per mm of width, `moment_n` the moment at the nip per mm of width. `room_mm` is what is
    left between bending roll and the plate on the top roll, `lower_room_mm` between bending and pinch roll,
    `closing_mm` the clearance of the closed cylinder round the top roll. None of the three may be negative.
    """

    loaded_curvature: Floats
    moment_n: Floats
    lift_mm: Floats
    free_length_mm: Floats
    arm_mm: Floats
    contact_angle_rad: Floats
    force_n_mm: Floats
    room_mm: Floats
    lower_room_mm: Floats
    closing_mm: Floats

    @property
    def reachable(self) -> NDArray[np.bool_]:
        """Return where a position was found at all (array of bool)."""
        return np.isfinite(self.lift_mm)


def touch_lift(nip: Nip, thickness_mm: ArrayLike) -> Floats:
    """Return the lift in mm at which the bending roll just touches a flat plate lying level in the nip."""
    return -floats(thickness_mm) / cos(nip.angle_rad)


def setting_for_radius(
    nip: Nip,
    law: PlateLaw,
    final_radius_mm: ArrayLike,
    direction: Direction = Direction.NORMAL,
    couple_arm_mm: ArrayLike = 0.0,
) -> Setting:
    """Return the bending-roll setting for a wanted final mean radius.

    Raises RangeError for a radius of half the thickness or less, or a negative couple arm.

    An invented layout, 6 in rolls, slide 140 mm behind the nip at 30 degrees; 1/4 in plate to 24 in inside:

    >>> from quoting.forming.plate.bending import plate_law
    >>> nip = Nip(76.2, 76.2, 76.2, 140.0, radians(30))
    >>> found = setting_for_radius(nip, plate_law(6.35, 1000, 200e3, 0.3, 250), 308)
    >>> round(float(found.free_length_mm), 1), round(float(found.force_n_mm), 1)
    (103.3, 28.7)
    """
    radius = floats(final_radius_mm)
    require("final radius (mean, mm)", radius, radius > law.thickness_mm / 2, "more than half the thickness")
    return setting_for_loaded(nip, law, loaded_curvature(law, 1 / radius), direction, couple_arm_mm)


def setting_for_loaded(
    nip: Nip,
    law: PlateLaw,
    loaded: ArrayLike,
    direction: Direction = Direction.NORMAL,
    couple_arm_mm: ArrayLike = 0.0,
) -> Setting:
    """Return the bending-roll setting at which the plate has a wanted curvature (1/mm) at the nip."""
    k, arm = floats(loaded), floats(couple_arm_mm)
    positive(loaded_curvature=k)
    require("couple_arm_mm", arm, arm >= 0, "0 or more")
    shape = np.broadcast_shapes(k.shape, arm.shape, law.thickness_mm.shape)
    k, arm = np.broadcast_to(k, shape), np.broadcast_to(arm, shape)
    make = unloading_shape if direction is Direction.NORMAL else loading_shape
    tilt = arm / (nip.top_radius_mm + nip.pinch_radius_mm + law.thickness_mm)
    free = make(law, k)
    length, found = _free_length(nip, law, free, tilt)
    return _read_off(nip, law, k, free, tilt, np.where(found, length, np.nan))


def _centre(
    nip: Nip, law: PlateLaw, free: FreeShape, tilt: Floats, length: Floats
) -> tuple[Floats, Floats, Floats, Floats]:
    """Return the bending roll's centre (x, y) and how fast it moves with the free length."""
    start = nip.top_radius_mm + law.thickness_mm / 2
    reach = nip.bending_radius_mm + law.thickness_mm / 2
    angle = tilt + length * free.turn
    c, s = np.cos(angle), np.sin(angle)
    end = tilt + length * free.end_turn
    ce, se = np.cos(end), np.sin(end)
    x = start * np.sin(tilt) + length * np.sum(free.weight * c, axis=0) + reach * se
    y = nip.top_radius_mm - start * np.cos(tilt) + length * np.sum(free.weight * s, axis=0) - reach * ce
    swing = free.turn * length
    dx = np.sum(free.weight * (c - swing * s), axis=0) + reach * ce * free.end_turn
    dy = np.sum(free.weight * (s + swing * c), axis=0) + reach * se * free.end_turn
    return x, y, dx, dy


def _free_length(nip: Nip, law: PlateLaw, free: FreeShape, tilt: Floats) -> tuple[Floats, Floats]:
    """Solve for the free length that puts the bending roll's centre on its slide; safeguarded Newton."""
    ca, sa = cos(nip.angle_rad), sin(nip.angle_rad)
    low = np.zeros(tilt.shape)
    high = np.full(tilt.shape, _LONGEST * nip.offset_mm)
    length = np.full(tilt.shape, 0.8 * nip.offset_mm)
    miss = length
    for _ in range(_SOLVE_STEPS):
        x, y, dx, dy = _centre(nip, law, free, tilt, length)
        miss = (x - nip.offset_mm) * ca + (y + nip.bending_radius_mm) * sa
        high = np.where(miss > 0, length, high)
        low = np.where(miss > 0, low, length)
        with np.errstate(divide="ignore", invalid="ignore"):
            step = length - miss / (dx * ca + dy * sa)
        inside = (step >= low) & (step <= high)
        following = np.where(inside, step, (low + high) / 2)
        # The last Newton step squares the error: a step of 1e-7 leaves some 1e-14.
        if np.all(np.abs(following - length) < 1e-7 * nip.offset_mm):
            length = following
            break
        length = following
    return length, np.abs(miss) < 1e-6 * nip.offset_mm


def _read_off(
    nip: Nip, law: PlateLaw, loaded: Floats, free: FreeShape, tilt: Floats, length: Floats
) -> Setting:
    start = nip.top_radius_mm + law.thickness_mm / 2
    reach = nip.bending_radius_mm + law.thickness_mm / 2
    x, y, _, _ = _centre(nip, law, free, tilt, length)
    end = tilt + length * free.end_turn
    ce, se = np.cos(end), np.sin(end)
    cx, cy = x - reach * se, y + reach * ce
    arm = (cx - start * np.sin(tilt)) * ce + (cy - nip.top_radius_mm + start * np.cos(tilt)) * se
    top = moment(law, loaded)
    lift = -(x - nip.offset_mm) * sin(nip.angle_rad) + (y + nip.bending_radius_mm) * cos(nip.angle_rad)
    room = np.hypot(x, y - nip.top_radius_mm) - (nip.top_radius_mm + nip.bending_radius_mm + law.thickness_mm)
    lower = (
        np.hypot(x, y + law.thickness_mm + nip.pinch_radius_mm) - nip.pinch_radius_mm - nip.bending_radius_mm
    )
    final = np.maximum(final_curvature(law, loaded), 1e-12)
    eccentric = np.hypot(cx - se / final, cy + ce / final - nip.top_radius_mm)
    closing = 1 / final - law.thickness_mm / 2 - nip.top_radius_mm - eccentric
    return Setting(loaded, top, lift, length, arm, end, top / arm, room, lower, closing)


def radius_for_lift(
    nip: Nip,
    law: PlateLaw,
    lift_mm: ArrayLike,
    direction: Direction = Direction.NORMAL,
    couple_arm_mm: ArrayLike = 0.0,
) -> Floats:
    """Return the final mean radius in mm that a bending-roll position gives; NaN where none is found.

    Bisection over the final curvature between almost flat and the radius of the top roll.
    """
    lift = floats(lift_mm)
    shape = np.broadcast_shapes(lift.shape, law.thickness_mm.shape, np.shape(couple_arm_mm))
    tight = 1 / (nip.top_radius_mm + law.thickness_mm / 2)
    low = np.log(np.broadcast_to(tight * 1e-4, shape))
    high = np.log(np.broadcast_to(tight, shape))
    for _ in range(_BISECTIONS):
        middle = (low + high) / 2
        found = setting_for_radius(nip, law, np.exp(-middle), direction, couple_arm_mm).lift_mm
        below = found < lift
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    ends = setting_for_radius(nip, law, np.exp(-low), direction, couple_arm_mm).lift_mm
    return np.where(np.abs(ends - lift) < 1e-3, np.exp(-(low + high) / 2), np.nan)


def slide_point(nip: Nip, lift_mm: float) -> tuple[float, float]:
    """Return the centre (x, y) in mm of the bending roll at a lift.

    >>> slide_point(Nip(76.2, 76.2, 76.2, 140.0, 0.0), 10.0)
    (140.0, -66.2)
    """
    return (
        nip.offset_mm - lift_mm * cos(nip.angle_rad) * tan(nip.angle_rad),
        lift_mm * cos(nip.angle_rad) - nip.bending_radius_mm,
    )
