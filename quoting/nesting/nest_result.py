"""What a nest is: cut plates with pieces and drops, what could not be placed and why, the money."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Literal, TypeAlias

Axis: TypeAlias = Literal["x", "y"]


class Why(StrEnum):
    """Why a piece was not placed, or a plate not used."""

    TOO_LARGE = "larger than every plate"
    GRAIN = "fits only across the grain"
    NO_HEAT = "no plate with a heat number"
    NO_STOCK = "no stock"
    STOCK_USED_UP = "stock used up"
    TOO_NARROW = "too narrow to shear"
    NOT_SHEARABLE = "shape cannot be sheared"
    PLATE_TOO_SMALL = "plate smaller than its margins"
    STAGES = "more stages of cuts than the shear does"
    BEYOND_BLADE = "beyond the shear's longest cut"


@dataclass(frozen=True, slots=True)
class Placement:
    """One piece on a plate: `x_mm`, `y_mm` is the low corner of its bounding box of `dx_mm` by `dy_mm`.

    `angle_deg` is the rotation of the outline, counterclockwise: 0 or 90 for a rectangle, any quarter turn
    for a sector.
    """

    piece: str
    copy: int
    x_mm: float
    y_mm: float
    dx_mm: float
    dy_mm: float
    angle_deg: float = 0.0

    @property
    def turned(self) -> bool:
        """Return whether the piece lies across the plate (a quarter turn)."""
        return self.angle_deg % 180 != 0


@dataclass(frozen=True, slots=True)
class Drop:
    """A leftover rectangle that goes back to the rack, and the money it counts for."""

    x_mm: float
    y_mm: float
    dx_mm: float
    dy_mm: float
    value: Decimal


@dataclass(frozen=True, slots=True)
class ShearCut:
    """One stroke: across the part in hand at `at_mm` on `axis`, from `start_mm` to `end_mm` on the other
    one."""

    number: int
    stage: int
    axis: Axis
    at_mm: float
    start_mm: float
    end_mm: float

    @property
    def length_mm(self) -> float:
        """Return the length of the cut in mm."""
        return self.end_mm - self.start_mm


@dataclass(frozen=True, slots=True)
class CutStats:
    """Cutting work: metres cut, pierces (thermal) and strokes (shear)."""

    length_m: float = 0.0
    pierces: int = 0
    strokes: int = 0

    def __add__(self, other: CutStats) -> CutStats:
        return CutStats(
            self.length_m + other.length_m, self.pierces + other.pierces, self.strokes + other.strokes
        )


@dataclass(frozen=True, slots=True)
class CutPlate:
    """One plate with its layout. `copy` counts the plates of one id from 1; `yield_share` is pieces over
    plate. `cut_by` is the first of its pieces' days; None when none of them has one."""

    plate: str
    copy: int
    placements: tuple[Placement, ...]
    drops: tuple[Drop, ...]
    yield_share: float
    price: Decimal
    cutting: CutStats = field(default_factory=CutStats)
    cuts: tuple[ShearCut, ...] = ()
    cut_by: date | None = None


@dataclass(frozen=True, slots=True)
class Unplaced:
    """Copies of one piece that no plate holds, with the reason in words."""

    piece: str
    quantity: int
    why: Why
    text: str


@dataclass(frozen=True, slots=True)
class PlateRemark:
    """A plate of the list that cannot be used at all, with the reason in words."""

    plate: str
    why: Why
    text: str


@dataclass(frozen=True, slots=True)
class Waited:
    """What it costs that later pieces wait: the money of all nested together and of the weeks apart.

    `taken` says whether they do wait in this nest; they do not when that costs more than the shop allows.
    """

    taken: bool
    together: Decimal
    apart: Decimal


@dataclass(frozen=True, slots=True)
class Nest:
    """A checked nest of one group. `cost` = plates - drops kept + cutting; no nest of these pieces costs
    less than `bound`. `waited` is None unless later pieces may wait and there are some."""

    cut_plates: tuple[CutPlate, ...]
    unplaced: tuple[Unplaced, ...]
    plate_cost: Decimal
    drop_value: Decimal
    cutting_cost: Decimal
    bound: Decimal
    cutting: CutStats
    remarks: tuple[PlateRemark, ...] = ()
    stopped: bool = False
    waited: Waited | None = None

    @property
    def cost(self) -> Decimal:
        """Return the money: plates used, less the drops that are kept, plus cutting."""
        return self.plate_cost - self.drop_value + self.cutting_cost

    @property
    def missing(self) -> int:
        """Return how many copies are not placed."""
        return sum(one.quantity for one in self.unplaced)

    @property
    def gap(self) -> float:
        """Return how far the cost may be above the best, as a share of the cost (0 = proven best)."""
        return 0.0 if self.cost <= self.bound else float((self.cost - self.bound) / self.cost)

    @property
    def proven(self) -> bool:
        """Return whether no cheaper nest of these pieces exists."""
        return self.cost <= self.bound

    def used(self) -> dict[str, int]:
        """Return how many plates of each id are cut."""
        counts: dict[str, int] = {}
        for cut in self.cut_plates:
            counts[cut.plate] = counts.get(cut.plate, 0) + 1
        return counts
