"""Cold-forming strain and shape limits, as flags: they say "check the code", they never decide.

Formulas and limits are from memory unless a source stands beside them; check the edition that applies.
"""

from __future__ import annotations

from enum import StrEnum

import numpy as np
from numpy.typing import ArrayLike

from quoting.forming.range_checks import Floats, floats, positive, require
from quoting.forming.task import RollTask


def cylinder_strain(
    thickness_mm: ArrayLike, final_radius_mm: ArrayLike, original_radius_mm: ArrayLike = np.inf
) -> Floats:
    """Return the extreme-fibre strain in percent of a cylinder, 50 t / Rf (1 - Rf / Ro), mean radii.

    ASME BPVC VIII-1 UCS-79(d) and EN 13445-4 for single curvature; from memory. Flat plate has infinite Ro.

    >>> float(cylinder_strain(10, 100))          # a mean diameter of 20 t is 5 percent
    5.0
    """
    return _strain(50.0, thickness_mm, final_radius_mm, original_radius_mm)


def _strain(factor: float, thickness: ArrayLike, final: ArrayLike, original: ArrayLike) -> Floats:
    t, rf, ro = floats(thickness), floats(final), floats(original)
    positive(thickness_mm=t)
    require("final radius (mean, mm)", rf, rf > t / 2, "more than half the thickness")
    require(
        "original radius (mean, mm)", ro, ro > t / 2, "more than half the thickness; infinite for flat plate"
    )
    return np.abs(factor * t / rf * (1 - rf / ro))


class RoundnessRule(StrEnum):
    """Standards that limit how far a shell may be from round."""

    UG_80 = "ASME BPVC VIII-1 UG-80"
    EN_13445_4 = "EN 13445-4"
    PD_5500 = "PD 5500"
    API_2B = "API 2B"


def roundness_rule(name: str) -> RoundnessRule:
    """Return the rule that a short name means; ValueError for one that is not known.

    >>> roundness_rule("UG-80").value
    'ASME BPVC VIII-1 UG-80'
    """
    return RoundnessRule.UG_80 if name == "UG-80" else RoundnessRule(name)


_API_2B_THICK_MM = 50.8


def out_of_roundness_mm(
    nominal_diameter_mm: float, thickness_mm: float, rule: RoundnessRule = RoundnessRule.UG_80
) -> float:
    """Return the largest allowed Dmax - Dmin in mm.

    UG-80: 1 percent of the nominal diameter. EN 13445-4: 1.5 percent below e / D = 0.01, else 1 percent.
    PD 5500: (0.5 + 625 / D) percent with D in mm, at most 1 percent. Internal pressure; EN 13445-4 is from
    memory. API 2B: 1 percent, at most 1/4 in, for walls up to 2 in, above that an eighth of the wall.

    >>> out_of_roundness_mm(1000, 8)
    10.0
    """
    positive(nominal_diameter_mm=nominal_diameter_mm, thickness_mm=thickness_mm)
    if rule is RoundnessRule.API_2B:
        thick = thickness_mm > _API_2B_THICK_MM
        return thickness_mm / 8 if thick else min(0.01 * nominal_diameter_mm, 6.35)
    if rule is RoundnessRule.PD_5500:
        return min(0.5 + 625 / nominal_diameter_mm, 1.0) / 100 * nominal_diameter_mm
    thin = thickness_mm / nominal_diameter_mm < 0.01
    share = 0.015 if rule is RoundnessRule.EN_13445_4 and thin else 0.01
    return share * nominal_diameter_mm


def strain_flags(task: RollTask, percent: float) -> tuple[str, ...]:
    """Return the flags of a task whose extreme-fibre strain is known, in percent."""
    inside = _inside_radius_t(task)
    material = task.material
    flags = []
    if percent > material.strain_flag_percent:
        flags.append(
            f"forming strain {percent:.1f} % is over {material.strain_flag_percent:g} %: check the code for "
            "heat treatment after forming"
        )
    if percent > 40:
        flags.append("forming strain is over 40 %: the vessel code asks for heat treatment; check the code")
    if inside < material.least_bend_radius_t:
        flags.append(
            f"inside radius {inside:.1f} t is under the {material.least_bend_radius_t:g} t of {material.key}:"
            " may crack, check with the mill"
        )
    return tuple(flags)


def _inside_radius_t(task: RollTask) -> float:
    return (task.bend_radius_mm - task.thickness_mm / 2) / task.thickness_mm
