"""What a price is made of: drivers (amounts of work and material) and parts (money)."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from quoting.core import RangeError


@dataclass(frozen=True, slots=True)
class CostDrivers:
    """The amounts that one line at one quantity takes, for the whole quantity.

    Money values are what the nest and the cutting plan cost this line; minutes are for the whole quantity.
    `crew` people stand at the roll while it runs. `roll_rate` is money per hour of the chosen roll. Bench and
    welding minutes are work off the roll; `consumables` the filler, gas and discs it takes.
    """

    quantity: int
    plate_cost: Decimal
    drop_credit: Decimal
    cutting_cost: Decimal
    edge_m: float
    setup_minutes: float
    rolling_minutes: float
    crew: int
    crane_minutes: float
    outside_cost: Decimal
    certificate: bool
    roll_rate: Decimal
    bench_minutes: float = 0.0
    weld_minutes: float = 0.0
    consumables: Decimal = Decimal(0)

    def __post_init__(self) -> None:
        for name in ("quantity", "crew"):
            if not getattr(self, name) >= 1:
                raise RangeError(name, getattr(self, name), "1 or more")
        for name in _AMOUNTS:
            value = getattr(self, name)
            if not 0 <= value < _NO_AMOUNT:
                raise RangeError(name.replace("_", " "), value, "0 or more, and finite")


_NO_AMOUNT = float("inf")
_AMOUNTS = (
    "plate_cost",
    "drop_credit",
    "cutting_cost",
    "edge_m",
    "setup_minutes",
    "rolling_minutes",
    "crane_minutes",
    "outside_cost",
    "roll_rate",
    "bench_minutes",
    "weld_minutes",
    "consumables",
)


@dataclass(frozen=True, slots=True)
class PriceParts:
    """Money of each part of a line's price, for the whole quantity, unrounded; they add up to `price`.

    Processing (cutting to filler, with overhead) is priced by margin; plate and outside work by markup.
    """

    plate: Decimal
    cutting: Decimal
    edge: Decimal
    setup: Decimal
    rolling: Decimal
    lifting: Decimal
    bench: Decimal
    welding: Decimal
    filler: Decimal
    outside: Decimal
    certificate: Decimal
    overhead: Decimal
    material_markup: Decimal
    outside_markup: Decimal
    processing_margin: Decimal
    minimum_top_up: Decimal

    @property
    def processing(self) -> Decimal:
        """Return the shop's own work at cost, with overhead."""
        return (
            self.cutting
            + self.edge
            + self.setup
            + self.rolling
            + self.lifting
            + self.bench
            + self.welding
            + self.filler
            + self.overhead
        )

    @property
    def cost(self) -> Decimal:
        """Return the cost of the line: plate, processing, outside work and certificates."""
        return self.plate + self.processing + self.outside + self.certificate

    @property
    def price(self) -> Decimal:
        """Return the price of the line before rounding."""
        return (
            self.cost
            + self.material_markup
            + self.outside_markup
            + self.processing_margin
            + self.minimum_top_up
        )


@dataclass(frozen=True, slots=True)
class LinePrice:
    """A line's price: `unit` is rounded once, `extended` = unit x quantity exactly.

    `floor` is the least price for the whole quantity, `floor_unit` the least unit price on the rounding
    step that keeps it. `parts` are what the price was built from; they stay when it is sold at another.
    """

    quantity: int
    parts: PriceParts
    unit: Decimal
    extended: Decimal
    floor: Decimal
    floor_unit: Decimal
    under_floor: bool

    @property
    def profit(self) -> Decimal:
        """Return extended price less cost."""
        return self.extended - self.parts.cost

    @property
    def margin(self) -> Decimal:
        """Return profit as a share of the price (0 when the price is 0)."""
        return self.profit / self.extended if self.extended else Decimal(0)

    @property
    def markup(self) -> Decimal:
        """Return profit as a share of the cost (0 when the cost is 0)."""
        return self.profit / self.parts.cost if self.parts.cost else Decimal(0)


class BreakRule(StrEnum):
    """What decided a break price; for the shop's own eyes."""

    AS_PRICED = "as priced"
    HELD = "held at the smaller quantity's price"
    PLATE_OPENED = "another plate has to be opened"
    FLOOR = "at the shop's floor"


@dataclass(frozen=True, slots=True)
class BreakPrice:
    """The unit price at another quantity; `note` is fit for the customer's eyes, `rule` is not."""

    quantity: int
    unit: Decimal
    extended: Decimal
    note: str = ""
    rule: BreakRule = BreakRule.AS_PRICED


@dataclass(frozen=True, slots=True)
class OrderTotal:
    """The total of one customer's priced lines, with the top-up to the order minimum and tax."""

    lines: Decimal
    minimum_top_up: Decimal
    tax: Decimal

    @property
    def before_tax(self) -> Decimal:
        """Return lines plus top-up."""
        return self.lines + self.minimum_top_up

    @property
    def total(self) -> Decimal:
        """Return the amount the customer pays."""
        return self.before_tax + self.tax
