"""What comes out of one bending-roll position when the plate is not quite what was thought."""

from __future__ import annotations

import numpy as np

from quoting.core import RangeError
from quoting.forming.judging import LEAST_FLAT_T
from quoting.forming.machine import Direction, couple_arm, nip_of, radius_for_lift, setting_for_loaded
from quoting.forming.plate import loaded_curvature
from quoting.forming.range_checks import floats, positive
from quoting.forming.task import RollTask
from quoting.forming.task_arrays import Lines, lines_of
from quoting.shop import PassRules, Roll


def position_band_mm(
    task: RollTask,
    roll: Roll,
    rules: PassRules,
    *,
    yields_mpa: tuple[float, float] | None = None,
    thicknesses_mm: tuple[float, float] | None = None,
) -> tuple[float, float]:
    """Return least and largest inside diameter in mm that the position of the last pass can give.

    The position is that of the plan (nominal thickness, certificate's or likely yield). `yields_mpa`
    defaults to the certificate's value or the band of the grade, `thicknesses_mm` to the nominal one; all
    four corners are worked out through the geometry of the rolls. A thicker plate stands higher on the
    bending roll and comes out tighter. An infinite diameter means that such plate springs back flat.

    Raises RangeError without slide geometry or for values that are not positive.
    """
    nip = nip_of(roll)
    if nip is None:
        raise RangeError(
            f"roll {roll.name}: slide geometry", "missing", "measure the slide to work with positions"
        )
    material = task.material
    known = (
        (task.yield_mpa, task.yield_mpa)
        if task.yield_mpa
        else (material.yield_low_mpa, material.yield_high_mpa)
    )
    strengths, sizes = yields_mpa or known, thicknesses_mm or (task.thickness_mm, task.thickness_mm)
    positive(yield_mpa=strengths, thickness_mm=sizes)
    planned = lines_of([task], [task.shape_yield_mpa])
    law = planned.law()
    loaded = loaded_curvature(law, 1 / planned.radius_mm)
    flat = max(rules.flat_after_pre_bend_t, LEAST_FLAT_T) * task.thickness_mm
    arm = float(couple_arm(law, loaded, flat)[0])
    lift = float(setting_for_loaded(nip, law, loaded, Direction.NORMAL, arm).lift_mm[0])
    corners = _corners(task, strengths, sizes)
    radii = radius_for_lift(nip, corners.law(), np.full(4, lift), Direction.NORMAL, arm)
    diameters = np.where(np.isnan(radii), np.inf, 2 * radii) - corners.thickness_mm
    return float(diameters.min()), float(diameters.max())


def _corners(task: RollTask, strengths: tuple[float, float], sizes: tuple[float, float]) -> Lines:
    four = lines_of([task] * 4, [strengths[0], strengths[0], strengths[1], strengths[1]])
    return four.with_thickness(floats([sizes[0], sizes[1], sizes[0], sizes[1]]))
