"""Example shop settings for the labour tests: invented minutes, like every minute of the starter book."""

from __future__ import annotations

from quoting.shop import Band, LabourSteps, LiftRules, SetupMinutes, WeightBand

LIFT_RULES = LiftRules(
    hand_limit_kg=13.0,
    two_person_share=2 / 3,
    crane_over_thickness_mm=6.5,
    overhead_support_ratio=250.0,
    crew_hand=1,
    crew_two=2,
    crew_crane=2,
)

LABOUR = LabourSteps(
    weight_bands=(
        WeightBand(13, Band(0.5, 1, 2), Band(0.5, 1, 1.5), Band(0.5, 1, 1.5)),
        WeightBand(100, Band(1, 2, 3), Band(1, 1.5, 3), Band(1, 1.5, 3)),
        WeightBand(500, Band(3, 5, 8), Band(3, 5, 8), Band(3, 4, 7)),
        WeightBand(5000, Band(6, 10, 18), Band(6, 9, 15), Band(5, 8, 15)),
    ),
    square=Band(1, 2, 4),
    pre_bend=Band(1.5, 2.5, 5),
    adjust_per_pass=Band(0.3, 0.5, 1),
    check=Band(0.5, 1, 2),
    tack=Band(2, 3, 6),
    deburr_and_mark=Band(1, 2, 4),
    re_round=Band(4, 7, 12),
    cone_factor=1.8,
    learning_rate=0.95,
    learning_floor_piece=8,
    scrap_chance=0.02,
    re_roll_chance=0.15,
    cutting_minutes_per_m=2.0,
    cutting_minutes_per_plate=10.0,
    shear_minutes_per_stroke=1.0,
)

SETUPS = SetupMinutes(
    same=3,
    gap_fixed=6,
    gap_per_mm=0.5,
    bending_roll=4,
    cone_tilt=20,
    cleaning=25,
    crane_rig=10,
    first_off=5,
)
