"""What each task asks of a roll, limit by limit, as a matrix of limits by lines.

NaN means that the limit does not apply to the line (an open arc has no least diameter, a roll without slide
geometry has no bending-roll position).
"""

from __future__ import annotations

from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from quoting.forming.machine import (
    Direction,
    Nip,
    Setting,
    beam_moment,
    couple_arm,
    drive_power,
    drive_torque,
    nip_of,
    plastic_work,
    setting_for_loaded,
)
from quoting.forming.plate import PlateLaw, loaded_curvature, moment
from quoting.forming.range_checks import Floats
from quoting.forming.task_arrays import Lines
from quoting.shop import PassRules, Roll

LEAST_FLAT_T = 0.5
"""Smallest flat, in thicknesses, for the couple arm: below, the pinch force has no bound."""


class DemandRow(IntEnum):
    """The limits, in the order in which a tie is settled."""

    WIDTH = 0
    THICKEST = 1
    THINNEST = 2
    LEAST_DIAMETER = 3
    TOP_ROLL_FIT = 4
    TRAVEL = 5
    ROOM = 6
    BENDING_FORCE = 7
    PINCH_FORCE = 8
    TOP_ROLL = 9
    BENDING_ROLL = 10
    BENDING_MOMENT = 11
    TORQUE = 12
    POWER = 13
    WEIGHT = 14
    CONES = 15
    PRE_BEND = 16


NAMES: dict[DemandRow, tuple[str, str]] = {
    DemandRow.WIDTH: ("plate width", "mm"),
    DemandRow.THICKEST: ("largest thickness", "mm"),
    DemandRow.THINNEST: ("least thickness", "mm"),
    DemandRow.LEAST_DIAMETER: ("least inside diameter", "mm"),
    DemandRow.TOP_ROLL_FIT: ("loaded inside diameter against the top roll", "mm"),
    DemandRow.TRAVEL: ("bending-roll travel", "mm"),
    DemandRow.ROOM: ("room between top roll and bending roll", "mm"),
    DemandRow.BENDING_FORCE: ("bending force", "N"),
    DemandRow.PINCH_FORCE: ("pinch force", "N"),
    DemandRow.TOP_ROLL: ("top-roll bending", "N mm"),
    DemandRow.BENDING_ROLL: ("bending-roll bending", "N mm"),
    DemandRow.BENDING_MOMENT: ("bending moment of the plate", "N mm"),
    DemandRow.TORQUE: ("drive torque", "N mm"),
    DemandRow.POWER: ("drive power", "kW"),
    DemandRow.WEIGHT: ("weight in the rolls", "kg"),
    DemandRow.CONES: ("cones", ""),
    DemandRow.PRE_BEND: ("pre-bending", ""),
}
LEAST_ROWS = (DemandRow.THINNEST, DemandRow.LEAST_DIAMETER, DemandRow.TOP_ROLL_FIT, DemandRow.ROOM)
LOAD_ROWS = (
    DemandRow.BENDING_FORCE,
    DemandRow.PINCH_FORCE,
    DemandRow.TOP_ROLL,
    DemandRow.BENDING_ROLL,
    DemandRow.BENDING_MOMENT,
    DemandRow.TORQUE,
)


def demands(lines: Lines, roll: Roll, rules: PassRules, passes: int | None = None) -> Floats:
    """Return the demand of every limit (rows, see `DemandRow`) by every line (columns).

    The flat after pre-bending, a shop setting, fixes the couple arm. Torque and power can be spread over
    passes: over as many as the shop allows, or over `passes` (a rated point is taken to be rolled in one).
    """
    law = lines.law()
    loaded = loaded_curvature(law, 1 / lines.radius_mm)
    out = np.full((len(DemandRow), len(lines)), np.nan)
    out[DemandRow.WIDTH] = lines.width_mm
    out[DemandRow.THICKEST] = out[DemandRow.THINNEST] = lines.thickness_mm
    out[DemandRow.LEAST_DIAMETER] = np.where(lines.closed, lines.inside_diameter_mm, np.nan)
    out[DemandRow.TOP_ROLL_FIT] = 2 / loaded - lines.thickness_mm
    out[DemandRow.WEIGHT] = lines.weight_kg
    if not roll.cones:
        out[DemandRow.CONES] = np.where(lines.cone, 1.0, np.nan)
    if not any(point.pre_bend for point in roll.rated):
        out[DemandRow.PRE_BEND] = np.where(lines.pre_bend, 1.0, np.nan)
    pull = plastic_work(law, loaded) * lines.width_mm / (passes or rules.most_passes)
    out[DemandRow.TORQUE] = drive_torque(pull, roll.top_roll_mm)
    if roll.power_kw is not None:
        out[DemandRow.POWER] = drive_power(pull, roll.surface_speed_mm_min)
    nip = nip_of(roll)
    if nip is None:
        _moment_only(out, lines, law, loaded, roll)
    else:
        _with_geometry(out, lines, law, loaded, roll, nip, max(rules.flat_after_pre_bend_t, LEAST_FLAT_T))
    return out


def span_mm(roll: Roll) -> float:
    """Return the distance between the roll bearings in mm; the working length where it is not given."""
    return max(roll.bearing_span_mm or 0.0, roll.working_length_mm)


def _moment_only(out: Floats, lines: Lines, law: PlateLaw, loaded: Floats, roll: Roll) -> None:
    load = moment(law, loaded) * lines.width_mm
    out[DemandRow.BENDING_MOMENT] = load
    span = span_mm(roll)
    # Without a lever arm the load is only known up to a factor, which the rated point takes out.
    out[DemandRow.TOP_ROLL] = beam_moment(load / roll.top_roll_mm, span, np.minimum(lines.width_mm, span))


def _with_geometry(
    out: Floats, lines: Lines, law: PlateLaw, loaded: Floats, roll: Roll, nip: Nip, flat_t: float
) -> None:
    arm = couple_arm(law, loaded, flat_t * lines.thickness_mm)
    _put(out, slice(None), lines, setting_for_loaded(nip, law, loaded, Direction.NORMAL, arm), arm, roll, nip)
    if lines.pre_bend.any():
        i = np.flatnonzero(lines.pre_bend)
        back = setting_for_loaded(nip, law.take(i), loaded[i], Direction.REVERSE, arm[i])
        _put(out, i, lines.take(i), back, arm[i], roll, nip)


def _put(
    out: Floats,
    where: slice | NDArray[np.intp],
    lines: Lines,
    found: Setting,
    arm: Floats,
    roll: Roll,
    nip: Nip,
) -> None:
    """Keep the worse of the two directions in the rows that depend on the bending-roll position."""
    span = span_mm(roll)
    width = np.minimum(lines.width_mm, span)
    pinch = found.moment_n / arm
    up = pinch + found.force_n_mm * np.cos(found.contact_angle_rad)
    top = np.hypot(up, found.force_n_mm * np.sin(found.contact_angle_rad))
    rows = {
        # A position below the level one (thick, gentle work) asks for no travel.
        DemandRow.TRAVEL: np.where(found.reachable, np.maximum(found.lift_mm, 0.0), np.inf),
        DemandRow.BENDING_FORCE: found.force_n_mm * lines.width_mm,
        DemandRow.PINCH_FORCE: pinch * lines.width_mm,
        DemandRow.TOP_ROLL: beam_moment(top * lines.width_mm, span, width),
        DemandRow.BENDING_ROLL: beam_moment(found.force_n_mm * lines.width_mm, span, width),
    }
    for row, values in rows.items():
        out[row, where] = np.fmax(out[row, where], values)
    # Distance of the two centres less the plate: it must not be less than the two radii.
    room = nip.top_radius_mm + nip.bending_radius_mm + found.room_mm
    out[DemandRow.ROOM, where] = np.fmin(out[DemandRow.ROOM, where], room)
