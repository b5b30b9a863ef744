"""One figure that the floor wrote down, with what the book says of the same work."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from quoting.hindsight.learning.minutes_by_setting import BookPlace


@dataclass(frozen=True, slots=True)
class LotDone:
    """Minutes that something took: `kind` is `set-up`, `run`, `both` of a rolling, or `cut` of a plate.

    `by_setting` is what the book of today says of it, likely minutes by setting. `cell` is where the figure
    stood. Weight is that of the heaviest piece, kg; thickness mm. `low` and `high` are the book's for the
    whole, 0 where it has none. `good` and `scrap` are pieces, both 0 where nobody counted.
    """

    task: str
    kind: str
    day: date
    took: float
    by_setting: Mapping[BookPlace, float]
    cell: str
    line: str = ""
    customer: str = ""
    roll: str = ""
    crew: str = ""
    shape: str = ""
    family: str = ""
    thickness_mm: float = 0.0
    weight_kg: float = 0.0
    low: float = 0.0
    high: float = 0.0
    good: int = 0
    scrap: int = 0

    @property
    def planned(self) -> float:
        """Return the likely minutes of the book."""
        return sum(self.by_setting.values())

    @property
    def ratio(self) -> float:
        """Return what it took over what the book says."""
        return self.took / self.planned
