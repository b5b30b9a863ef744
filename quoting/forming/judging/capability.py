"""Can this roll do it, and if not, why and what would help."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, isinf, isnan

import numpy as np

from quoting.forming.judging.demands import LOAD_ROWS, NAMES, DemandRow, demands, span_mm
from quoting.forming.judging.rating import rating_of, used_shares
from quoting.forming.judging.ways_out import solve_ways
from quoting.forming.machine import beam_deflection, lightest_pinch
from quoting.forming.plate import cylinder_strain, strain_flags
from quoting.forming.range_checks import Floats, floats
from quoting.forming.task import RollTask
from quoting.forming.task_arrays import Lines, lines_of
from quoting.forming.verdict import Limit, Verdict, WayOut, stress_words
from quoting.shop import PassRules, Roll

_ROUNDING = 1e-9
LOAD_TOLERANCE = 0.01
"""Share by which a load may exceed its limit: a rating of 36 ksi (248 MPa) is for plate that books call
250 MPa. Sizes that are solved for keep to the limit itself."""
_ALLOWED = tuple(1 + (LOAD_TOLERANCE if row in LOAD_ROWS else _ROUNDING) for row in DemandRow)
_STRENGTH_ROWS = (
    DemandRow.BENDING_FORCE,
    DemandRow.PINCH_FORCE,
    DemandRow.TOP_ROLL,
    DemandRow.BENDING_ROLL,
    DemandRow.BENDING_MOMENT,
)

FAR_OVER = 1000.0
"""The share of what a roll cannot do at all: no number that a record could hold says that it is infinite."""


def assess_many(
    tasks: Sequence[RollTask], roll: Roll, rules: PassRules, *, ways_out: bool = True
) -> tuple[Verdict, ...]:
    """Return the verdict of one roll on many tasks, worked out together.

    Loads are judged at the certificate's yield, else at the grade's least one, because a roll's rating
    names one too; `used_at_high` tells what the strongest plate of the grade would ask. Raises RangeError
    when the roll's rated points contradict its geometry. Solving for `ways_out` takes most of the time of a
    batch with many failures: leave it out while looking for a roll that can.
    """
    if not tasks:
        return ()
    lines, asked, used, high = _shares(tasks, roll, rules)
    rated = rating_of(roll, rules).rated(lines)
    share_of_allowed = used / floats(_ALLOWED)[:, None]
    governing = np.nanargmax(_ranked(share_of_allowed), axis=0)
    failed = np.flatnonzero(share_of_allowed[governing, np.arange(len(tasks))] > 1)
    ways: dict[int, list[WayOut]] = {}
    if ways_out and failed.size:
        certified = np.array([tasks[int(i)].yield_mpa is not None for i in failed])
        found = solve_ways(lines.take(failed), used[:, failed], roll, rules, certified)
        ways = dict(zip(failed.tolist(), found, strict=True))
    percent = cylinder_strain(lines.thickness_mm, lines.radius_mm)
    barrel = barrel_mm(lines, asked, roll, rules)
    pinch = pinch_n(asked, roll, rules)
    shares, at_high = np.minimum(used, FAR_OVER), np.minimum(high, FAR_OVER)
    rows = zip(shares.T.tolist(), asked.T.tolist(), rated.T.tolist(), strict=True)
    values = zip(
        governing.tolist(), at_high.tolist(), percent.tolist(), barrel.tolist(), pinch.tolist(), strict=True
    )
    findings = (
        _Findings(*row, *value, tuple(ways.get(i, ())))
        for i, (row, value) in enumerate(zip(rows, values, strict=True))
    )
    return tuple(_verdict(task, roll, rules, found) for task, found in zip(tasks, findings, strict=True))


def _ranked(share_of_allowed: Floats) -> Floats:
    """Return the shares that may govern: loads always, what merely has to fit only when it does not fit.

    A plate of 60 in on a roll of 61 in uses nothing up, so a fit that holds says nothing about the roll.
    """
    ranked = share_of_allowed.copy()
    fits = ranked[_FIT_ROWS, :]
    ranked[_FIT_ROWS, :] = np.where(fits <= 1, 0.0, fits)
    return ranked


def _shares(tasks: Sequence[RollTask], roll: Roll, rules: PassRules) -> tuple[Lines, Floats, Floats, Floats]:
    """Return lines, demands and used shares, and the largest share with plate at the top of its grade.

    Both yields are worked out in one go, since the cost of a call hardly depends on the number of lines.
    """
    n = len(tasks)
    tops = [task.yield_mpa or task.material.yield_high_mpa for task in tasks]
    both = lines_of((*tasks, *tasks), [*(task.load_yield_mpa for task in tasks), *tops])
    asked = demands(both, roll, rules)
    used = used_shares(asked, rating_of(roll, rules).rated(both))
    return both.take(slice(n)), asked[:, :n], used[:, :n], floats(np.nanmax(used[:, n:], axis=0))


def barrel_mm(lines: Lines, asked: Floats, roll: Roll, rules: PassRules) -> Floats:
    """Return by how much top roll and bending roll stand further apart in the middle of the plate, in mm.

    Sag of both rolls as beams between the plate's middle and its edges while rolling: the bending force on
    both, and on the top roll the lightest pinch that still drives a single pass. Half the top roll's crown
    is taken off, as a parabola over the working length: above 0 the shell comes out as a barrel, below 0 as
    an hourglass. NaN without slide geometry.
    """
    span = span_mm(roll)
    width = np.minimum(lines.width_mm, span)
    force = asked[DemandRow.BENDING_FORCE]
    pinch = pinch_n(asked, roll, rules)
    top = beam_deflection(force + pinch, span, width, roll.top_roll_mm)
    bending = beam_deflection(force, span, width, roll.bending_roll_mm)
    crown = roll.top_roll_crown_mm / 2 * np.minimum(width / roll.working_length_mm, 1.0) ** 2
    return floats(top[0] - top[1] + bending[0] - bending[1] - crown)


def pinch_n(asked: Floats, roll: Roll, rules: PassRules) -> Floats:
    """Return the lightest pinch force in N at which the rolls still drive the plate in a single pass."""
    pull = asked[DemandRow.TORQUE] * rules.most_passes / (roll.top_roll_mm / 2)
    return lightest_pinch(pull, asked[DemandRow.BENDING_FORCE], roll.friction)


@dataclass(frozen=True, slots=True)
class _Findings:
    """What was worked out for one task: rows by limit, then single values."""

    used: list[float]
    asked: list[float]
    rated: list[float]
    top: int
    at_high: float
    strain: float
    barrel: float
    pinch: float
    ways: tuple[WayOut, ...]


_FIT_ROWS = [
    DemandRow.WIDTH,
    DemandRow.THICKEST,
    DemandRow.THINNEST,
    DemandRow.LEAST_DIAMETER,
    DemandRow.TOP_ROLL_FIT,
    DemandRow.TRAVEL,
    DemandRow.ROOM,
    DemandRow.CONES,
    DemandRow.PRE_BEND,
]
"""Limits that a task keeps or does not keep, without using anything up."""

_NAMED = tuple((row.value, *NAMES[row]) for row in DemandRow)


def _verdict(task: RollTask, roll: Roll, rules: PassRules, found: _Findings) -> Verdict:
    used, asked, rated = found.used, found.asked, found.rated
    limits = tuple(
        Limit(name, used[i], None if isinf(asked[i]) else asked[i], rated[i], unit)
        for i, name, unit in _NAMED
        if not isnan(used[i])  # the limit does not apply
    )
    strength = max(used[row] for row in _STRENGTH_ROWS if not isnan(used[row]))
    drive = max(used[DemandRow.TORQUE], 0.0 if isnan(used[DemandRow.POWER]) else used[DemandRow.POWER])
    return Verdict(
        roll=roll.name,
        ok=used[found.top] <= _ALLOWED[found.top],
        limit=NAMES[DemandRow(found.top)][0],
        used=used[found.top],
        limits=limits,
        ways=found.ways,
        flags=_flags(task, rules, found, strength),
        notes=_notes(task, roll),
        used_at_high=found.at_high,
        strength_used=strength,
        least_passes=min(max(1, ceil(drive * rules.most_passes - _ROUNDING)), rules.most_passes),
        barrel_mm=None if isnan(found.barrel) else found.barrel,
        pinch_n=None if isnan(found.pinch) else found.pinch,
    )


def _flags(task: RollTask, rules: PassRules, found: _Findings, strength: float) -> tuple[str, ...]:
    flags = list(strain_flags(task, found.strain))
    if rules.near_capacity <= strength <= 1 + LOAD_TOLERANCE:
        flags.append(
            f"near capacity ({strength:.0%}): roll deflection may leave a barrel, extra passes planned"
        )
    if found.used[found.top] <= _ALLOWED[found.top] and found.at_high > 1 + LOAD_TOLERANCE:
        flags.append(
            f"plate at the top of its grade, {stress_words(task.material.yield_high_mpa)}, would ask "
            f"{found.at_high:.0%} of the roll: get the certificate before rolling"
        )
    return tuple(flags)


def _notes(task: RollTask, roll: Roll) -> tuple[str, ...]:
    notes = []
    if roll.slide is None:
        notes.append(
            "no slide geometry in the shop's book: judged by the bending moment alone, without positions"
        )
    if task.yield_mpa is not None:
        notes.append(f"loads at the certificate's yield, {stress_words(task.yield_mpa)}")
    else:
        notes.append(f"loads at the grade's least yield, {stress_words(task.material.yield_low_mpa)}")
    if not any(point.pre_bend for point in roll.rated):
        notes.append("the roll has no rated point with pre-bending")
    elif all(point.pre_bend for point in roll.rated):
        notes.append(
            "no rated point without pre-bending: rolling is held to the pre-bend limits, which is safe"
        )
    return tuple(notes)
