"""An invented light roll, metals and rules for the tests of this room."""

from __future__ import annotations

from math import pi

from quoting.core import Ends
from quoting.forming import PassPlan, RollTask, Verdict, assess_many, plan_many
from quoting.shop import Family, Material, PassRules, RatedPoint, Roll
from quoting.shop.model import SlideGeometry

INCH = 25.4
MILD = Material("A36", Family.CARBON, ("mild steel",), 7850, 200e3, 0.3, 250, 300, 380, 400)
STAINLESS = Material("304", Family.STAINLESS, ("304",), 8000, 193e3, 0.29, 205, 290, 380, 515, 1275, 0.45)
RULES = PassRules(
    strain_per_pass_first_off=0.004,
    strain_per_pass_repeat=0.008,
    least_passes=1,
    most_passes=12,
    near_capacity=0.75,
    near_capacity_extra_passes=2,
    re_rolls_when_re_rounding=2,
    flat_after_pre_bend_t=2.0,
)
PRE_BEND = RatedPoint(True, 0.25 * INCH, 60 * INCH, 24 * INCH, 250)
PLAIN = RatedPoint(False, 0.3125 * INCH, 60 * INCH, 24 * INCH, 250)
SLIDE = SlideGeometry(170, 30, 130)


def light_roll(
    *,
    rated: tuple[RatedPoint, ...] = (PRE_BEND,),
    slide: SlideGeometry | None = SLIDE,
    cones: bool = True,
    scale: float = 1.0,
    crown: float = 0.0,
) -> Roll:
    """Return a light roll: 6 in top roll, 63 in working length; `scale` multiplies its lengths."""
    return Roll(
        name="Light",
        top_roll_mm=152.4 * scale,
        pinch_roll_mm=152.4 * scale,
        bending_roll_mm=139.7 * scale,
        working_length_mm=1600 * scale,
        least_thickness_mm=1.0 * scale,
        largest_thickness_mm=9.0 * scale,
        least_diameter_factor=1.3,
        rated=rated,
        surface_speed_mm_min=4572,
        largest_weight_kg=1000,
        slide=slide,
        cones=cones,
        top_roll_crown_mm=crown,
    )


def job(
    thickness: float,
    width: float,
    inside: float,
    *,
    material: Material = MILD,
    ends: Ends = Ends.PRE_BEND,
    yield_mpa: float | None = None,
    arc_deg: float = 360.0,
    first_off: bool = True,
    re_round: bool = False,
) -> RollTask:
    """Return a cylinder or an arc by its inside diameter in mm."""
    girth = pi * (inside + thickness) * arc_deg / 360
    return RollTask(
        thickness_mm=thickness,
        width_mm=width,
        mean_diameter_mm=inside + thickness,
        girth_mm=girth,
        arc_deg=arc_deg,
        ends=ends,
        weight_kg=material.density_kg_m3 * 1e-9 * thickness * width * girth,
        material=material,
        yield_mpa=yield_mpa,
        first_off=first_off,
        re_round=re_round,
    )


def assess(task: RollTask, roll: Roll, rules: PassRules) -> Verdict:
    """Return the verdict of one task alone."""
    return assess_many((task,), roll, rules)[0]


def plan_passes(task: RollTask, roll: Roll, rules: PassRules, verdict: Verdict) -> PassPlan:
    """Return the pass plan of one task alone."""
    return plan_many((task,), roll, rules, (verdict,))[0]
