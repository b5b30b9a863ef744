"""All that the quote of one order is printed from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from quoting.books.look import Entry, NumberedQuestion
from quoting.estimating import OrderEstimate
from quoting.shop import Shop


@dataclass(frozen=True, slots=True)
class Letter:
    """All that the quote of one order is printed from."""

    shop: Shop
    order: OrderEstimate
    entries: tuple[Entry, ...]
    asked: tuple[NumberedQuestion, ...]
    number: str
    today: date
    promise: Mapping[str, date]
    revision: int = 1
    changes: tuple[str, ...] = ()

    @property
    def inch(self) -> bool:
        """Return whether the customer reads inches."""
        return not self.order.order.metric

    @property
    def valid_until(self) -> date:
        """Return the last day the prices stand."""
        return self.today + timedelta(days=self.shop.pricing.validity_days)

    @property
    def title(self) -> str:
        """Return what the document is called."""
        return f"Quotation {self.number}" + (f" revision {self.revision}" if self.revision > 1 else "")

    @property
    def footer(self) -> str:
        """Return what stands at the foot of every page."""
        return f"{self.shop.name} · {self.title}"
