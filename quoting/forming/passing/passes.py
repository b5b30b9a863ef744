"""How a task is rolled: passes, radii, bending-roll positions, ends and flats.

The diameter comes down in equal steps of curvature, so that each pass adds the same bending strain (t / 2R):
start bigger, work smaller. First pieces take smaller steps than repeats.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import cycle, islice
from math import isnan, nan
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from quoting.core import Ends
from quoting.forming.judging import LEAST_FLAT_T
from quoting.forming.machine import (
    ConeSetting,
    Direction,
    Nip,
    Setting,
    cone_setting,
    couple_arm,
    nip_of,
    setting_for_loaded,
    touch_lift,
)
from quoting.forming.passing.pass_plan import Pass, PassPlan
from quoting.forming.plate import PlateLaw, final_curvature, loaded_curvature, yield_curvature
from quoting.forming.range_checks import Floats
from quoting.forming.task import RollTask
from quoting.forming.task_arrays import Lines, lines_of
from quoting.forming.verdict import Verdict
from quoting.shop import PassRules, Roll

Counts: TypeAlias = NDArray[np.int64]


def plan_many(
    tasks: Sequence[RollTask], roll: Roll, rules: PassRules, verdicts: Sequence[Verdict]
) -> tuple[PassPlan, ...]:
    """Return the pass plan of every task on one roll, worked out together.

    Positions are for the certificate's yield, else for the likely yield of the grade. The verdict says how
    near capacity the roll is and how many passes its drive needs. A plan is made whether or not the verdict
    is a yes.
    """
    if not tasks:
        return ()
    lines = lines_of(tasks, [task.shape_yield_mpa for task in tasks])
    law = lines.law()
    counts = pass_counts(tasks, rules, verdicts)
    steps = _steps(lines, law, counts, roll, rules)
    band = _diameter_band(tasks, lines, law)
    ends = np.cumsum(counts)
    shared = _Shared(roll, rules, nip_of(roll), law, steps)
    return tuple(
        _plan(task, shared, slice(int(end - count), int(end)), i, (pair[0], pair[1]))
        for i, (task, end, count, pair) in enumerate(zip(tasks, ends, counts, band.tolist(), strict=True))
    )


def pass_counts(tasks: Sequence[RollTask], rules: PassRules, verdicts: Sequence[Verdict]) -> Counts:
    """Return the rolling passes of every task: strain step, drive torque, and extra ones near capacity."""
    strain = np.array([task.thickness_mm / (2 * task.bend_radius_mm) for task in tasks])
    first, repeat = rules.strain_per_pass_first_off, rules.strain_per_pass_repeat
    step = np.array([first if task.first_off else repeat for task in tasks])
    counts = np.ceil(strain / step - 1e-9).astype(int)
    near = np.array([verdict.strength_used >= rules.near_capacity for verdict in verdicts])
    counts = np.maximum(counts, rules.least_passes) + near * rules.near_capacity_extra_passes
    counts = np.maximum(counts, [verdict.least_passes for verdict in verdicts])
    return np.asarray(np.clip(counts, 1, rules.most_passes), dtype=np.int64)


@dataclass(frozen=True, slots=True)
class _Steps:
    """All passes of all tasks in one row of arrays, and the pre-bend of every task."""

    final_mm: list[float]
    loaded_mm: list[float]
    lift_mm: list[float]
    free_mm: list[float]
    lower_room_mm: list[float]
    touch_mm: list[float]
    arm_mm: list[float]
    pre_lift_mm: list[float]
    pre_free_mm: list[float]
    positions: bool


def _steps(lines: Lines, law: PlateLaw, counts: Counts, roll: Roll, rules: PassRules) -> _Steps:
    which = np.repeat(np.arange(len(lines)), counts)
    number = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts) + 1
    final = number / (counts * lines.radius_mm)[which]
    each = law.take(which)
    loaded = loaded_curvature(each, final)
    last = np.cumsum(counts) - 1
    flat = max(rules.flat_after_pre_bend_t, LEAST_FLAT_T) * lines.thickness_mm
    arm = couple_arm(law, loaded[last], flat)
    nip = nip_of(roll)
    nothing = np.full(len(which), np.nan)
    touch = pre_lift = pre_free = np.full(len(lines), np.nan)
    lift = free = lower = nothing
    if nip is not None:
        found = setting_for_loaded(nip, each, loaded, Direction.NORMAL, arm[which])
        lift, free, lower = found.lift_mm, found.free_length_mm, found.lower_room_mm
        touch = touch_lift(nip, lines.thickness_mm)
        pre_lift, pre_free = _pre_bends(nip, law, loaded[last], arm, lines)
    return _Steps(
        final_mm=(1 / final).tolist(),
        loaded_mm=(1 / loaded).tolist(),
        lift_mm=lift.tolist(),
        free_mm=free.tolist(),
        lower_room_mm=lower.tolist(),
        touch_mm=touch.tolist(),
        arm_mm=arm.tolist(),
        pre_lift_mm=pre_lift.tolist(),
        pre_free_mm=pre_free.tolist(),
        positions=nip is not None,
    )


def _pre_bends(nip: Nip, law: PlateLaw, loaded: Floats, arm: Floats, lines: Lines) -> tuple[Floats, Floats]:
    """Return lift and free length in mm of the lines that are pre-bent, NaN for the others."""
    out, free = np.full(len(lines), np.nan), np.full(len(lines), np.nan)
    i = np.flatnonzero(lines.pre_bend)
    if i.size:
        found: Setting = setting_for_loaded(nip, law.take(i), loaded[i], Direction.REVERSE, arm[i])
        out[i], free[i] = found.lift_mm, found.free_length_mm
    return out, free


def _diameter_band(tasks: Sequence[RollTask], lines: Lines, law: PlateLaw) -> Floats:
    """Return the inside diameters that the plan's loaded radius gives with weak and with strong plate."""
    loaded = loaded_curvature(law, 1 / lines.radius_mm)
    sizes = []
    for edge in ("yield_low_mpa", "yield_high_mpa"):
        yields = np.array([task.yield_mpa or getattr(task.material, edge) for task in tasks])
        final = final_curvature(lines.with_yield(yields).law(), loaded)
        scale = 1 / np.maximum(final, 1e-12) / lines.radius_mm
        sizes.append((lines.inside_diameter_mm + lines.thickness_mm) * scale - lines.thickness_mm)
    return np.stack(sizes, axis=1)


@dataclass(frozen=True, slots=True)
class _Shared:
    """What the plans of all tasks on one roll are made with."""

    roll: Roll
    rules: PassRules
    nip: Nip | None
    law: PlateLaw
    steps: _Steps


def _plan(
    task: RollTask, shared: _Shared, mine: slice, i: int, diameter_band_mm: tuple[float, float]
) -> PassPlan:
    """Return the plan of the task at place `i`, whose passes are the steps `mine`."""
    rules, steps = shared.rules, shared.steps
    pre_bend = task.ends is Ends.PRE_BEND
    flat = rules.flat_after_pre_bend_t * task.thickness_mm
    runs = _runs(task, shared.roll, rules, steps, mine, i)
    first = runs[0] if pre_bend else None
    free = steps.free_mm[mine.stop - 1] if steps.positions else nan
    lead = flat if pre_bend else (None if isnan(free) else free)
    cone = None
    if task.cone is not None:
        cone = cone_setting(
            task.cone,
            shared.law.take(i),
            shared.nip,
            max(flat, LEAST_FLAT_T * task.thickness_mm),
            rules.cone_split_ratio,
            task.arc_deg,
        )
    return PassPlan(
        pinch_gap_mm=task.thickness_mm,
        passes=runs,
        pre_bend_readout_mm=first.readout_mm if first else None,
        pre_bend_lift_mm=first.lift_mm if first else None,
        flat_lead_mm=lead,
        flat_tail_mm=flat,
        stop_before_tail_mm=max(flat, steps.arm_mm[i]),
        inside_diameter_band_mm=diameter_band_mm,
        re_rolls=rules.re_rolls_when_re_rounding if task.re_round else 0,
        reach_mm=_reach(task, steps, mine, i) if steps.positions else shared.roll.top_roll_mm,
        bend_share=float(1 / task.bend_radius_mm / yield_curvature(shared.law.take(i))),
        cone=cone,
        notes=_plan_notes(task, steps, mine, cone),
    )


def _reach(task: RollTask, steps: _Steps, mine: slice, i: int) -> float | None:
    """Return the plate from the nip to the bending roll at the last position, or at the pre-bend's.

    None where the slide has no position for this bend.
    """
    spans = [float(steps.free_mm[mine.stop - 1])]
    if task.ends is Ends.PRE_BEND:
        spans.append(float(steps.pre_free_mm[i]))
    return None if any(map(isnan, spans)) else max(spans)


def _runs(
    task: RollTask, roll: Roll, rules: PassRules, steps: _Steps, mine: slice, i: int
) -> tuple[Pass, ...]:
    """Return pre-bends of both ends, the rolling passes, then re-rolls with the ends swapped each time."""
    zero, touch = roll.readout_zero_mm, steps.touch_mm[i]
    sizes = list(
        zip(steps.final_mm[mine], steps.loaded_mm[mine], steps.lift_mm[mine], strict=True),
    )
    planned: list[tuple[float, float, float, str, bool, bool]] = []
    if task.ends is Ends.PRE_BEND:
        final, loaded, _ = sizes[-1]
        planned += [(final, loaded, steps.pre_lift_mm[i], end, True, False) for end in "AB"]
    planned += [(*size, "A", False, False) for size in sizes]
    if task.re_round:
        ends = islice(cycle("BA"), rules.re_rolls_when_re_rounding)
        planned += [(*sizes[-1], end, False, True) for end in ends]
    return tuple(
        Pass(
            number,
            final,
            loaded,
            None if isnan(lift) else lift - zero,
            None if isnan(lift) else lift - touch,
            end,
            pre_bend,
            again,
        )
        for number, (final, loaded, lift, end, pre_bend, again) in enumerate(planned, start=1)
    )


def _plan_notes(task: RollTask, steps: _Steps, mine: slice, cone: ConeSetting | None) -> tuple[str, ...]:
    notes = []
    if task.ends is Ends.LEAVE_FLAT:
        notes.append("run straight through, no pre-bend: both ends stay flat")
    if task.ends is Ends.TRIM:
        notes.append("no pre-bend: the flat ends are cut off after rolling")
    if task.ends is Ends.PRE_BEND and steps.positions:
        notes.append(
            "pre-bend: a small step of the bending roll changes the radius much, creep up with a template"
        )
    if not steps.positions:
        notes.append("no slide geometry in the shop's book: find the positions by trial, start bigger")
    elif min(steps.lower_room_mm[mine]) < 0:
        notes.append(
            "by the shop's book bending roll and pinch roll run into each other here: measure the slide again"
        )
    if cone is not None:
        notes.append("cone: tilt the bending roll, hold the small edge back at the cone stop")
        if cone.segments > 1:
            notes.append(f"steep cone: roll it in {cone.segments} segments")
    return tuple(notes)
