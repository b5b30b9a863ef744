"""Minutes of each step, lifting, set-ups and passes; all settings of the shop."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.core import RangeError


@dataclass(frozen=True, slots=True)
class Band:
    """A low / likely / high triple, of minutes unless it says otherwise."""

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        if not 0 <= self.low <= self.likely <= self.high:
            raise RangeError("band", (self.low, self.likely, self.high), "0 <= low <= likely <= high")

    def __add__(self, other: Band) -> Band:
        return Band(self.low + other.low, self.likely + other.likely, self.high + other.high)

    def times(self, factor: float) -> Band:
        """Return the band scaled by a factor of 0 or more."""
        return Band(self.low * factor, self.likely * factor, self.high * factor)


@dataclass(frozen=True, slots=True)
class WeightBand:
    """Handling minutes for pieces up to `up_to_kg`: fetch and load, turn end for end, unload."""

    up_to_kg: float
    load: Band
    turn: Band
    unload: Band


@dataclass(frozen=True, slots=True)
class LabourSteps:
    """Minutes of each step on the roll; all shop settings."""

    weight_bands: tuple[WeightBand, ...]
    square: Band
    pre_bend: Band
    adjust_per_pass: Band
    check: Band
    tack: Band
    deburr_and_mark: Band
    re_round: Band
    cone_factor: float
    learning_rate: float
    learning_floor_piece: int
    scrap_chance: float
    re_roll_chance: float
    cutting_minutes_per_m: float
    cutting_minutes_per_plate: float
    shear_minutes_per_stroke: float


@dataclass(frozen=True, slots=True)
class LiftRules:
    """When one person, two people or the crane lifts, and what the shop's crane and door let through.

    `crane_capacity_kg`, `door_width_mm` and `door_height_mm` are None where the book does not say. `gloves`
    is the shop's rule on gloves in words: official guidance does not agree on them.
    """

    hand_limit_kg: float
    two_person_share: float
    crane_over_thickness_mm: float
    overhead_support_ratio: float
    crew_hand: int
    crew_two: int
    crew_crane: int
    one_person_longest_mm: float = 3048.0
    crane_capacity_kg: float | None = None
    door_width_mm: float | None = None
    door_height_mm: float | None = None
    gloves: str = "as the shop's own rule says"


@dataclass(frozen=True, slots=True)
class SetupMinutes:
    """Set-up minutes between two jobs on one roll; all shop settings."""

    same: float
    gap_fixed: float
    gap_per_mm: float
    bending_roll: float
    cone_tilt: float
    cleaning: float
    crane_rig: float
    first_off: float


@dataclass(frozen=True, slots=True)
class PassRules:
    """How fast the diameter may come down: bending strain a pass may add, and extra passes.

    `cone_split_ratio` is the ratio of small to large diameter below which a cone is rolled in segments; an
    example, as the trade publishes none. A diameter that may come out over more than `spread_flag` of itself,
    soft to hard plate of the grade, is corrected by a trial pass for every `spread_per_trial`, at most
    `most_trials`. It is flagged only where the radius also springs open by `springback_flag` of itself or
    more. A bend of less than `least_bend_share` of the curvature at which the plate begins to yield is
    refused: nobody can promise its radius.
    """

    strain_per_pass_first_off: float
    strain_per_pass_repeat: float
    least_passes: int
    most_passes: int
    near_capacity: float
    near_capacity_extra_passes: int
    re_rolls_when_re_rounding: int
    flat_after_pre_bend_t: float
    cone_split_ratio: float = 0.4
    spread_flag: float = 0.15
    springback_flag: float = 0.5
    spread_per_trial: float = 0.10
    most_trials: int = 4
    least_bend_share: float = 0.5
