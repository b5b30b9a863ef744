"""The nests in a record: plates, the pieces on them and what is left."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from quoting.record.schema.kinds import Chance, Day, LeadDays, Length, Minutes, Money, Number, OneOrMore


@dataclass(frozen=True, slots=True)
class PlacedRecord:
    """One piece on a plate: lower left corner and size as it lies, and how far it is turned."""

    id: str
    copy: OneOrMore
    x_mm: Number
    y_mm: Number
    dx_mm: Length
    dy_mm: Length
    angle_deg: Number


@dataclass(frozen=True, slots=True)
class DropRecord:
    """A rectangle that is left over and worth keeping."""

    x_mm: Number
    y_mm: Number
    dx_mm: Length
    dy_mm: Length
    value: Money


@dataclass(frozen=True, slots=True)
class PlateRecord:
    """One plate that is cut: `id` tells it from others of the same `plate` of the rack.

    `yield_share` is what of its area becomes parts, in the file `yield`; `cut_by` is the last day to cut it.
    `here_on` is the day that the rack gives for a plate on its way.
    """

    id: str
    plate: str
    width_mm: Length
    length_mm: Length
    bought: bool
    remnant: bool
    heat: str
    price: Money
    yield_share: Annotated[Chance, Field(alias="yield")]
    lead_days: LeadDays
    cut_by: Day | None
    cutting_minutes: Minutes
    pieces: tuple[PlacedRecord, ...]
    drops: tuple[DropRecord, ...]
    here_on: Day | None = None


@dataclass(frozen=True, slots=True)
class UnplacedRecord:
    """A piece that fits no plate, and why."""

    piece: str
    quantity: OneOrMore
    why: str
    text: str


@dataclass(frozen=True, slots=True)
class WaitedRecord:
    """Whether later pieces wait for later plates: cost of all together and of the weeks apart."""

    taken: bool
    together: Money
    apart: Money


@dataclass(frozen=True, slots=True)
class NestRecord:
    """All plates of one material and thickness; no layout costs less than `bound`."""

    material: str
    thickness_mm: Length
    method: Literal["shear", "thermal"]
    lines: tuple[str, ...]
    cost: Money
    bound: Money
    gap: Number
    waited: WaitedRecord | None
    plates: tuple[PlateRecord, ...]
    unplaced: tuple[UnplacedRecord, ...]
