"""Plates in the rack and sizes that can be bought."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum


class Edge(StrEnum):
    """Condition of a stock plate's edges."""

    MILL = "mill"
    TRIMMED = "trimmed"


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
