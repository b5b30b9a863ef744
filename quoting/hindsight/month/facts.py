"""The facts of a month: a job as it was quoted and as it went, a quoted line with what became of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal

ODD_TIMES, ODD_MINUTES = 4.0, 60.0
"""Minutes of more than so many times the plan, and so many over it, are looked at first; no source."""


@dataclass(frozen=True, slots=True)
class JobDone:
    """A job that was finished: money quoted and really spent, minutes by step thought and really taken.

    Money of a step is by line: `lost` says by step how much dearer it was than quoted (negative: cheaper).
    `finished` and `due` are days; `why_late` is empty when it was in time. `roll` is where it was rolled.
    `told` says whether its minutes were written down: a job without them is in no margin.
    """

    line: str
    customer: str
    quote: str
    part: str
    shape: str
    roll: str
    price: Decimal
    quoted_cost: Decimal
    real_cost: Decimal
    lost: Mapping[str, Decimal] = field(default_factory=dict)
    planned_setup: float = 0.0
    planned_run: float = 0.0
    setup: float = 0.0
    run: float = 0.0
    finished: date | None = None
    due: date | None = None
    why_late: str = ""
    scrapped: int = 0
    told: bool = True

    @property
    def quoted_margin(self) -> Decimal:
        """Return the profit that was quoted."""
        return self.price - self.quoted_cost

    @property
    def real_margin(self) -> Decimal:
        """Return the profit that was made."""
        return self.price - self.real_cost

    @property
    def odd(self) -> bool:
        """Return whether its minutes are so far off that a slip of the pen is likelier than a bad day."""
        took, planned = self.setup + self.run, self.planned_setup + self.planned_run
        return self.told and planned > 0 and took > ODD_TIMES * planned and took - planned > ODD_MINUTES

    @property
    def late_days(self) -> int:
        """Return by how many days it was late, 0 when in time or without a date."""
        if self.finished is None or self.due is None:
            return 0
        return max(0, (self.finished - self.due).days)


@dataclass(frozen=True, slots=True)
class LineDecided:
    """A quoted line, open or decided: its price, its quoted margin as a share, and what kind it is.

    `key` is the same for a line that was asked again (customer, part, quantity): those count once.
    """

    line: str
    customer: str
    part: str
    quantity: int
    price: Decimal
    margin: float
    shape: str
    material: str
    state: str
    quoted: date
    decided: date | None
    reason: str = ""
    roll_minutes: float = 0.0
    roll: str = ""

    @property
    def key(self) -> tuple[str, str, int]:
        """Return what tells one inquiry from another."""
        return self.customer.casefold(), self.part, self.quantity


@dataclass(frozen=True, slots=True)
class PlateLeft:
    """One row of the rack: what it is worth, and since when it is known, None where nobody wrote it down."""

    name: str
    material: str
    count: int
    value: Decimal
    remnant: bool
    since: date | None
