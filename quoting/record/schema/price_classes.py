"""A line's price in a record: its parts, what it is built from, and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.record.schema.kinds import Chance, Length, Minutes, Money, OneOrMore


@dataclass(frozen=True, slots=True)
class PartsRecord:
    """Money of each part of a price, for the whole quantity; they add up to it before rounding."""

    plate: Money
    cutting: Money
    edge: Money
    setup: Money
    rolling: Money
    lifting: Money
    bench: Money
    welding: Money
    filler: Money
    outside: Money
    certificate: Money
    overhead: Money
    material_markup: Money
    outside_markup: Money
    processing_margin: Money
    minimum_top_up: Money


@dataclass(frozen=True, slots=True)
class PriceRecord:
    """The unit price and the price of the whole quantity, against cost and floor."""

    unit: Money
    extended: Money
    cost: Money
    margin: Money
    markup: Money
    floor: Money
    floor_unit: Money
    under_floor: bool
    parts: PartsRecord


@dataclass(frozen=True, slots=True)
class DriversRecord:
    """The amounts that a price is built from, for the whole quantity."""

    quantity: OneOrMore
    plate_cost: Money
    drop_credit: Money
    cutting_cost: Money
    edge_m: Length
    setup_minutes: Minutes
    rolling_minutes: Minutes
    crew: OneOrMore
    crane_minutes: Minutes
    outside_cost: Money
    certificate: bool
    roll_rate: Money
    bench_minutes: Minutes
    weld_minutes: Minutes
    consumables: Money


@dataclass(frozen=True, slots=True)
class WorkRecord:
    """One piece of work off the roll, for the whole quantity: what it is, why, and what it takes."""

    name: str
    why: str
    edge_m: Length
    bench_minutes: Minutes
    weld_minutes: Minutes
    consumables: Money
    outside: Money


@dataclass(frozen=True, slots=True)
class BreakRecord:
    """The price at another quantity."""

    quantity: OneOrMore
    unit: Money
    extended: Money
    note: str


@dataclass(frozen=True, slots=True)
class OverrideRecord:
    """What a person decided against the computed price; None leaves the computed one."""

    unit: Money | None
    margin: Money | None
    reason: str
    by: str


@dataclass(frozen=True, slots=True)
class SpreadRecord:
    """Costs that one, five and nine draws in ten stay under, their mean, the chance to lose money."""

    p10: Money
    p50: Money
    p90: Money
    mean: Money
    loss_chance: Chance


@dataclass(frozen=True, slots=True)
class RiskRecord(SpreadRecord):
    """The same for one line, with the chance that its plate loads the roll over its rating."""

    over_rating_chance: Chance
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SensitivityRecord:
    """What one change would do to the line; `problem` says why it cannot be done, prices are then None.

    A `merge` has a price for the two lines, no unit price.
    """

    kind: str
    change: str
    unit: Money | None
    extended: Money | None
    difference: Money | None
    problem: str

    def __post_init__(self) -> None:
        priced = self.extended is not None and self.difference is not None
        if not self.problem and not (priced and (self.unit is not None or self.kind == "merge")):
            raise ValueError("prices, or a problem that says why there are none")
