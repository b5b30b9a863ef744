"""The rolls of the shop and what they are known to do."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from quoting.core import RangeError
from quoting.shop.model.materials import Family


@dataclass(frozen=True, slots=True)
class RatedPoint:
    """What the roll is known to do: one thickness, width, least inside diameter and yield."""

    pre_bend: bool
    thickness_mm: float
    width_mm: float
    inside_diameter_mm: float
    yield_mpa: float

    def __post_init__(self) -> None:
        for name in ("thickness_mm", "width_mm", "inside_diameter_mm", "yield_mpa"):
            if not getattr(self, name) > 0:
                raise RangeError(f"rated point {name}", getattr(self, name), "more than 0")


@dataclass(frozen=True, slots=True)
class SlideGeometry:
    """Where the bending roll travels: its slide passes `offset_mm` behind the nip at the zero of the readout.

    `angle_deg` is measured from the vertical towards the top roll; `travel_mm` is the largest readout.
    """

    offset_mm: float
    angle_deg: float
    travel_mm: float


@dataclass(frozen=True, slots=True)
class Roll:
    """One three-roll initial-pinch machine.

    `bearing_span_mm` is the distance between the roll bearings (None: the working length is taken, which is
    on the safe side). `friction` is the coefficient between roll and plate that drives the plate, an example.
    `top_roll_crown_mm` is how much thicker the top roll is in its middle than at its ends.
    """

    name: str
    top_roll_mm: float
    pinch_roll_mm: float
    bending_roll_mm: float
    working_length_mm: float
    least_thickness_mm: float
    largest_thickness_mm: float
    least_diameter_factor: float
    rated: tuple[RatedPoint, ...]
    surface_speed_mm_min: float
    largest_weight_kg: float
    power_kw: float | None = None
    slide: SlideGeometry | None = None
    readout: str = "bending-roll lift along its slide, mm"
    readout_zero_mm: float = 0.0
    cones: bool = False
    rate_per_hour: Decimal = Decimal(0)
    set_thickness_mm: float | None = None
    set_family: Family | None = None
    bearing_span_mm: float | None = None
    friction: float = 0.15
    top_roll_crown_mm: float = 0.0

    def __post_init__(self) -> None:
        if not self.rated:
            raise RangeError(f"roll {self.name}: rated points", 0, "at least one rated point")

    @property
    def least_inside_diameter_mm(self) -> float:
        """Return the least inside diameter in mm that closes round the top roll and still comes off it."""
        return self.top_roll_mm * self.least_diameter_factor
