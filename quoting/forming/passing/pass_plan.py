"""What a pass plan holds: the values that the setup sheet prints."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from quoting.core import RangeError, positive
from quoting.forming.machine import ConeSetting


@dataclass(frozen=True, slots=True)
class Pass:
    """One run through the rolls; radii are mean radii in mm.

    `readout_mm` is what the machine's position display shall show, `lift_mm` how far the bending roll stands
    above the position where it just touches the flat plate; both None without slide geometry.
    """

    number: int
    final_radius_mm: float
    loaded_radius_mm: float
    readout_mm: float | None
    lift_mm: float | None
    end_leading: str
    pre_bend: bool = False
    re_roll: bool = False

    def __post_init__(self) -> None:
        positive(f"pass {self.number}", final=self.final_radius_mm, loaded=self.loaded_radius_mm)


@dataclass(frozen=True, slots=True)
class PassPlan:
    """The plan for one task; lengths in mm.

    `flat_lead_mm` and `flat_tail_mm` stay straight at the ends; `flat_lead_mm` is None where only slide
    geometry could tell, or where the slide has no position for the bend. `stop_before_tail_mm` is the plate
    that must still be in front of the nip when the pass stops. `inside_diameter_band_mm` is what comes out
    when plate at the weak or the strong end of its grade gets the same loaded radius. `re_rolls` counts the
    runs after welding. `reach_mm` is the plate between the nip and its contact with the bending roll, at
    most; without slide geometry a top-roll diameter, None where the slide has no position for the bend.
    `bend_share` is the wanted curvature over that at which the plate begins to yield.
    """

    pinch_gap_mm: float
    passes: tuple[Pass, ...]
    pre_bend_readout_mm: float | None
    pre_bend_lift_mm: float | None
    flat_lead_mm: float | None
    flat_tail_mm: float
    stop_before_tail_mm: float
    inside_diameter_band_mm: tuple[float, float]
    re_rolls: int
    reach_mm: float | None = None
    bend_share: float = 1.0
    cone: ConeSetting | None = None
    notes: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not self.rolling_passes:
            raise RangeError("rolling passes", 0, "1 or more")

    @property
    def spread(self) -> float:
        """Return the width of the band of inside diameters over its least; infinite where it is open."""
        low, high = sorted(self.inside_diameter_band_mm)
        return (high - low) / low if low > 0 else inf

    @property
    def springback_share(self) -> float:
        """Return by which share of itself the radius of the last rolling pass opens again, 0 or more."""
        last = [run for run in self.passes if not (run.pre_bend or run.re_roll)][-1]
        return max(0.0, last.final_radius_mm / last.loaded_radius_mm - 1)

    @property
    def least_length_mm(self) -> float | None:
        """Return the shortest flat plate that reaches the bending roll and is still held in the pinch."""
        return None if self.reach_mm is None else self.reach_mm + self.stop_before_tail_mm

    @property
    def rolling_passes(self) -> int:
        """Return the number of rolling passes, without pre-bends and re-rolls."""
        return sum(not (run.pre_bend or run.re_roll) for run in self.passes)

    @property
    def pre_bends(self) -> int:
        """Return how many ends are pre-bent."""
        return sum(run.pre_bend for run in self.passes)
