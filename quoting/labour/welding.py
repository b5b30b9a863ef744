"""Welding a seam: which joint, how much weld metal, how many minutes.

Time = weight of metal / (deposition rate x operating factor), the form of welding-cost handbooks (filler
metal handbook, "weld metal cost worksheet"); rates and factors are the shop's settings.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from quoting.core import EdgeKind, EdgePrep, Penetration, WeldAsked
from quoting.labour.weld_metal import Groove, GrooveKind, fillet_kg_per_m
from quoting.shop import WeldRules

_LEAST_FILL = 0.2
"""A land never takes more than the rest of the thickness, so that something is left to weld."""


@dataclass(frozen=True, slots=True)
class Weld:
    """What a metre of seam takes: metal, minutes, and what to call the joint."""

    kg_per_m: float
    minutes_per_m: float
    words: str


def seam_weld(
    asked: WeldAsked,
    prep: EdgePrep | None,
    thickness_mm: float,
    gap_mm: float,
    density_kg_m3: float,
    rules: WeldRules,
) -> Weld:
    """Return what a metre of seam takes; `prep` is the preparation of its edges, None for the shop's own.

    A seal weld is a fillet on one side. Partial penetration fills a share of the thickness from one side.
    A back-gouge, where it was asked for, is filled again.
    """
    if asked.penetration is Penetration.SEAL:
        kg = fillet_kg_per_m(rules.seal_leg_mm, density_kg_m3)
        return _weld(kg, 0.0, f"seal weld, leg {rules.seal_leg_mm:.1f} mm", rules)
    share = rules.partial_share if asked.penetration is Penetration.PARTIAL else 1.0
    joint = joint_for(prep, thickness_mm, gap_mm, share, rules)
    kg = joint.kg_per_m(density_kg_m3)
    gouged = 0.0
    words = f"{joint.kind}, {asked.penetration}"
    if asked.back_gouge:
        kg += gouge_mm2(rules) * density_kg_m3 * 1e-6
        gouged = rules.gouge_minutes_per_m
        words += ", back-gouged"
    return _weld(kg, gouged, words, rules)


def gouge_mm2(rules: WeldRules) -> float:
    """Return the cross-section of a back-gouge that has to be filled again: half an ellipse."""
    return pi / 4 * rules.gouge_depth_mm * rules.gouge_width_mm


def joint_for(
    prep: EdgePrep | None, thickness_mm: float, gap_mm: float, share: float, rules: WeldRules
) -> Groove:
    """Return the groove that two such edges make, filled to `share` of the thickness."""
    kind, angle, land = _shape(prep, thickness_mm, rules)
    filled = thickness_mm * share
    face = min(land, (1 - _LEAST_FILL) * filled) if kind is not GrooveKind.SQUARE else 0.0
    two_sided = kind in (GrooveKind.DOUBLE_V, GrooveKind.DOUBLE_BEVEL)
    radius = min(6.0, (1 - _LEAST_FILL) * filled - face) if kind in (GrooveKind.U, GrooveKind.J) else 0.0
    return Groove(kind, filled, gap_mm, face, angle, rules.cap_mm, 2 if two_sided else 1, max(radius, 0.0))


def own_joint(thickness_mm: float, rules: WeldRules) -> GrooveKind:
    """Return the shop's own joint for a full weld of this thickness."""
    if thickness_mm <= rules.square_up_to_mm:
        return GrooveKind.SQUARE
    return GrooveKind.SINGLE_V if thickness_mm <= rules.single_up_to_mm else GrooveKind.DOUBLE_V


def own_prep_kind(thickness_mm: float, rules: WeldRules) -> EdgeKind | None:
    """Return how both edges of the shop's own joint are prepared, None for a square butt."""
    kinds = {GrooveKind.SINGLE_V: EdgeKind.BEVEL, GrooveKind.DOUBLE_V: EdgeKind.DOUBLE_BEVEL}
    return kinds.get(own_joint(thickness_mm, rules))


_JOINTS = {
    (EdgeKind.BEVEL, True): GrooveKind.SINGLE_V,
    (EdgeKind.BEVEL, False): GrooveKind.SINGLE_BEVEL,
    (EdgeKind.DOUBLE_BEVEL, True): GrooveKind.DOUBLE_V,
    (EdgeKind.DOUBLE_BEVEL, False): GrooveKind.DOUBLE_BEVEL,
    (EdgeKind.J, True): GrooveKind.U,
    (EdgeKind.J, False): GrooveKind.J,
}


def _shape(prep: EdgePrep | None, thickness_mm: float, rules: WeldRules) -> tuple[GrooveKind, float, float]:
    if prep is None:
        return own_joint(thickness_mm, rules), rules.angle_deg, rules.face_mm
    both = prep.edges > 1
    kind = _JOINTS.get((prep.kind, both), GrooveKind.SQUARE)
    return kind, prep.angle_deg or rules.angle_deg, prep.land_mm


def _weld(kg: float, gouged: float, words: str, rules: WeldRules) -> Weld:
    arc = kg / (rules.deposition_kg_hour * rules.operating_factor) * 60
    return Weld(kg, rules.fit_up_minutes_per_m + arc + gouged, words)
