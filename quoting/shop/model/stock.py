"""Plates in the rack and sizes that can be bought."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
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
    of one whole plate, in the shop's currency. A plate that is on its way is `here_on` a day; None: it is in
    the house, or comes `lead_days` after it is ordered.
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
    here_on: date | None = None

    @property
    def buyable(self) -> bool:
        """Return whether this row is a size to buy rather than a plate in the rack."""
        return self.count is None
