"""The shop's own book as frozen values: machines, materials, rates, minutes, stock, working time.

Everything is SI inside (mm, N, MPa, kg, minutes); money is `Decimal` in the shop's currency. Every minute,
rate and allowance here is a setting of the shop: the defaults that ship with the starter book are examples,
because the trade publishes none.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, time
from decimal import Decimal
from enum import StrEnum

from quoting.errors import RangeError
from quoting.parts import Ends


class Family(StrEnum):
    """Metal family, as far as cleaning, springback constants and gauge tables care."""

    CARBON = "carbon"
    STAINLESS = "stainless"
    ALUMINIUM = "aluminium"


class Edge(StrEnum):
    """Condition of a stock plate's edges."""

    MILL = "mill"
    TRIMMED = "trimmed"


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


@dataclass(frozen=True, slots=True)
class Material:
    """A grade: strength band (MPa), stiffness, density and the names customers call it by.

    `yield_low/likely/high_mpa` is the band that plate of this grade arrives with; `strength_mpa` and
    `hardening` are K and n of sigma = K eps^n where known.
    """

    key: str
    family: Family
    names: tuple[str, ...]
    density_kg_m3: float
    elastic_mpa: float
    poisson: float
    yield_low_mpa: float
    yield_likely_mpa: float
    yield_high_mpa: float
    tensile_mpa: float
    strength_mpa: float | None = None
    hardening: float | None = None
    least_bend_radius_t: float = 1.0
    strain_flag_percent: float = 5.0
    grain_matters: bool = False
    gauge_table: str = "steel"
    price_per_kg: Decimal = Decimal(0)
    source: str = ""


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
    """When one person, two people or the crane lifts. Distances for the lifting equation are in inches."""

    hand_limit_kg: float
    two_person_share: float
    crane_over_thickness_mm: float
    overhead_support_ratio: float
    crew_hand: int
    crew_two: int
    crew_crane: int


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
    example, as the trade publishes none.
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


@dataclass(frozen=True, slots=True)
class Cutting:
    """The cutting station and its allowances.

    A plate is to be cut `cut_before_due_days` calendar days before its first piece is due. When later pieces
    may wait for a later plate, that may cost `waiting_extra_share` of the group's nest.
    """

    shear_up_to_mm: float
    shear_longest_mm: float
    shear_least_strip_t: float
    shear_stages: int
    thermal_kerf_mm: float
    thermal_spacing_t: float
    thermal_least_spacing_mm: float
    edge_margin_mm: float
    mill_trim_mm: float
    cost_per_m: Decimal
    cost_per_pierce: Decimal
    cost_per_stroke: Decimal
    rate_per_hour: Decimal
    least_drop_width_mm: float
    least_drop_length_mm: float
    drop_value_share: Decimal
    edge_prep_cost_per_m: Decimal = Decimal(0)
    later_pieces_may_wait: bool = False
    cut_before_due_days: int = 0
    waiting_extra_share: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class Rates:
    """Money per hour and per event."""

    currency: str
    operator_hour: Decimal
    helper_hour: Decimal
    setup_hour: Decimal
    crane_hour: Decimal
    outside_markup: Decimal


@dataclass(frozen=True, slots=True)
class PricingRules:
    """How a price grows out of a cost. Shares are fractions: 0.30 is thirty per cent."""

    overhead_share: Decimal
    margin: Decimal
    floor_margin: Decimal
    line_minimum: Decimal
    order_minimum: Decimal
    material_markup: Decimal
    drop_owner: str
    break_quantities: tuple[int, ...]
    rounding: Decimal
    validity_days: int
    tax_share: Decimal
    tax_name: str
    certificate_charge: Decimal
    expedite_share: Decimal


@dataclass(frozen=True, slots=True)
class RiskSettings:
    """When a line is called risky, and how far set-up and delivered plate scatter; all examples.

    `heavy_kg` is one piece, `thin_wide` width over thickness, `loss_chance` the chance of losing money worth
    a word. A set-up takes `setup_least_share` to `setup_most_share` of its typical minutes. Plate comes
    `thickness_under_mm` under to `thickness_over_mm` over its nominal thickness. Of a lost free-issue plate
    the shop owes `free_issue_owed_share` of its value at the grade's price.
    """

    heavy_kg: float = 1000.0
    thin_wide: float = 300.0
    loss_chance: float = 0.10
    setup_least_share: float = 0.7
    setup_most_share: float = 1.8
    thickness_under_mm: float = 0.25
    thickness_over_mm: float = 0.75
    free_issue_owed_share: float = 0.0
    draws: int = 10_000


@dataclass(frozen=True, slots=True)
class Shift:
    """One shift on the named weekdays (0 = Monday), with breaks inside it."""

    weekdays: tuple[int, ...]
    start: time
    end: time
    breaks: tuple[tuple[time, time], ...] = ()
    crew: int = 2


@dataclass(frozen=True, slots=True)
class Closure:
    """A stretch of whole days, or of one machine's time, that is not worked."""

    first: date
    last: date
    reason: str
    machine: str = ""


@dataclass(frozen=True, slots=True)
class WorkingTime:
    """Shifts, days off, overtime and people.

    When `batches_may_split` a line of several parts is rolled in two lots where the plan then costs at least
    `least_split_saving` less.
    """

    shifts: tuple[Shift, ...]
    closures: tuple[Closure, ...]
    overtime_hours_per_day: float
    overtime_factor: Decimal
    cranes: int
    plate_lead_days: int
    weld_days: int
    late_cost_per_day: Decimal
    horizon_weeks: int
    batches_may_split: bool = False
    least_split_saving: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class StockPlate:
    """One row of the rack: plates of one id. `count` None means it can be bought in any number.

    `width_mm` is the shorter side; the grain runs along the longer one unless `grain_across`. `price` is that
    of one whole plate, in the shop's currency.
    """

    id: str
    material: str
    thickness_mm: float
    width_mm: float
    length_mm: float
    edge: Edge
    count: int | None
    price: Decimal
    heat: str = ""
    remnant: bool = False
    lead_days: int = 0
    row: int | None = None
    grain_across: bool = False

    @property
    def buyable(self) -> bool:
        """Return whether this row is a size to buy rather than a plate in the rack."""
        return self.count is None


@dataclass(frozen=True, slots=True)
class Shop:
    """The whole book: what the rest of the product may ask about the shop."""

    name: str
    note: str
    inch: bool
    paper: str
    rolls: tuple[Roll, ...]
    materials: tuple[Material, ...]
    rates: Rates
    labour: LabourSteps
    lifting: LiftRules
    setups: SetupMinutes
    passes: PassRules
    cutting: Cutting
    pricing: PricingRules
    working_time: WorkingTime
    default_ends: Ends
    default_weld_gap_mm: float
    stock: tuple[StockPlate, ...] = ()
    warnings: tuple[str, ...] = field(default=())
    risk: RiskSettings = RiskSettings()

    def material(self, key: str) -> Material:
        """Return the material with this key; KeyError when the shop's book has none."""
        for material in self.materials:
            if material.key == key:
                return material
        raise KeyError(key)

    def roll(self, name: str) -> Roll:
        """Return the roll of this name; KeyError when the shop has none."""
        for roll in self.rolls:
            if roll.name == name:
                return roll
        raise KeyError(name)
