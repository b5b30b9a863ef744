"""What a price is made of: drivers (amounts of work and material) and parts (money)."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class CostDrivers:
    """The amounts that one line at one quantity takes, for the whole quantity.

    Money values are what the nest and the cutting plan cost this line; minutes are for the whole quantity.
    `crew` people stand at the roll while it runs. `roll_rate` is money per hour of the chosen roll.
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


@dataclass(frozen=True, slots=True)
class PriceParts:
    """Money of each part of a line's price, for the whole quantity, unrounded; they add up to `price`.

    Processing (cutting to lifting, with overhead) is priced by margin; plate and outside work by markup.
    """

    plate: Decimal
    cutting: Decimal
    edge: Decimal
    setup: Decimal
    rolling: Decimal
    lifting: Decimal
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
        return self.cutting + self.edge + self.setup + self.rolling + self.lifting + self.overhead

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
    """A line's price: `unit` is rounded once, `extended` = unit x quantity exactly."""

    quantity: int
    parts: PriceParts
    unit: Decimal
    extended: Decimal
    floor: Decimal
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


@dataclass(frozen=True, slots=True)
class BreakPrice:
    """The unit price at another quantity, and why when it is dearer than at a smaller one."""

    quantity: int
    unit: Decimal
    extended: Decimal
    note: str = ""


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
