"""All that the quote of one order is printed from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import TypeAlias

from quoting.books.look import Entry, NumberedQuestion, day_words
from quoting.books.tongue import ENGLISH, Tongue
from quoting.core import State
from quoting.estimating import OrderEstimate
from quoting.record import ExpediteRecord, PromiseRecord
from quoting.shop import Shop

Days: TypeAlias = Mapping[str, date | PromiseRecord]
"""By line id the day that a line is ready by the plan alone, or what the ledger lets us promise."""


@dataclass(frozen=True, slots=True)
class Letter:
    """All that the quote of one order is printed from."""

    shop: Shop
    order: OrderEstimate
    entries: tuple[Entry, ...]
    asked: tuple[NumberedQuestion, ...]
    number: str
    today: date
    promise: Days
    expedite: ExpediteRecord | None = None
    revision: int = 1
    changes: tuple[str, ...] = ()
    tongue: Tongue = ENGLISH

    @property
    def inch(self) -> bool:
        """Return whether the customer reads inches."""
        return not self.order.order.metric

    @property
    def valid_until(self) -> date:
        """Return the last day the prices stand."""
        return self.today + timedelta(days=self.shop.pricing.validity_days)

    @property
    def priced(self) -> bool:
        """Return whether any line has a price."""
        return any(entry.state is State.PRICED for entry in self.entries)

    @property
    def kind(self) -> str:
        """Return what this is: a quotation, or without any price an answer to the enquiry."""
        return self.tongue.say("Quotation" if self.priced else "Your enquiry")

    @property
    def sender(self) -> str:
        """Return the shop's address and who answers, in a line; empty when its book does not say."""
        return " · ".join(text for text in (self.shop.letter.address, self.shop.letter.contact) if text)

    @property
    def title(self) -> str:
        """Return what the document is called."""
        revision = self.tongue.put("revision {own}", own=str(self.revision)) if self.revision > 1 else ""
        return f"{self.kind} {self.number} {revision}".rstrip()

    def day(self, day: date) -> str:
        """Return a day as the customer reads it."""
        return self.tongue.day(day) if self.tongue.entries else day_words(day)

    def short_day(self, day: date) -> str:
        """Return a day as it stands in a narrow column."""
        return self.tongue.day(day, "medium") if self.tongue.entries else day_words(day)

    @property
    def footer(self) -> str:
        """Return what stands at the foot of every page."""
        return f"{self.shop.name} · {self.title}"
