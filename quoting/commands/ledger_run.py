"""A run with the shop's ledger: lasting line ids, the rack without what is promised, numbers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from quoting.core import InputError, Sharing, one_by_one, part_words, shown_name
from quoting.record import PricedLineRecord, PromiseRecord, RunRecord
from quoting.shop import Shop
from quoting.tables import digest_of

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from quoting.ledger import Issued, Ledger


class Promiser(Protocol):
    """Puts what can be promised on the floor that the ledger knows into a record, with what a rush costs."""

    def __call__(
        self, connection: Connection, record: RunRecord, today: date, share_out: Sharing = one_by_one, /
    ) -> RunRecord:
        """Return the record with the days; `share_out` draws them."""
        ...


_FAR_ABOVE = 100


@dataclass(slots=True)
class LedgerRun:
    """One run's part of the ledger. Without a ledger everything is as the sheets alone make it."""

    orders: Sequence[Path]
    today: date
    ledger: Ledger | None = None
    connection: Connection | None = None
    tags: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def prefixes(self, shop: Shop) -> tuple[str, ...] | None:
        """Return what the line ids of each sheet begin with; None: letters in the order they are given."""
        if self.connection is None:
            return None
        from quoting.intake import read_all  # noqa: PLC0415 - slow to load, and most commands read no sheet
        from quoting.ledger import OrderWords, SheetSeen, tags_of  # noqa: PLC0415 - only with a ledger

        def peek(index: int) -> OrderWords:
            try:
                order = read_all([self.orders[index]], shop, today=self.today)[0]
            except InputError:
                return OrderWords("")  # the run itself says what is wrong with the sheet
            parts = frozenset(part_words(line, inch=shop.inch) for line in order.lines)
            return OrderWords(order.customer, order.reference, parts)

        seen = [SheetSeen(shown_name(path), digest_of(path)) for path in self.orders]
        self.tags = tags_of(self.connection, seen, self.today, peek)
        return tuple(f"{tag}-" for tag in self.tags)

    def free_rack(self, shop: Shop) -> Shop:
        """Return the shop without the plates that are promised to jobs, and say so in its warnings."""
        if self.connection is None or self.ledger is None:
            return shop
        from quoting.ledger import promised, taken_out, without_promised  # noqa: PLC0415 - only with a ledger

        rack = self.ledger.rack_now(shop)
        told = taken_out(self.connection, rack)
        if taken := promised(self.connection, rack):
            told.append(f"{sum(taken.values())} plates of the rack are promised to jobs and were left out")
        return replace(without_promised(shop, taken), warnings=(*shop.warnings, *told)) if told else shop

    def promised(
        self, record: RunRecord, promise: Promiser | None, today: date, share_out: Sharing = one_by_one
    ) -> RunRecord:
        """Return the record with the days that can be promised; as it is without a ledger."""
        if self.connection is None or promise is None:
            return record
        return promise(self.connection, record, today, share_out)

    def numbers(self, record: RunRecord, shop: Shop) -> list[str]:
        """Return the number each quote goes out under, written into the ledger; empty without one."""
        if self.connection is None:
            return []
        from quoting.ledger import QuotedOrder, SheetSeen, keep_quotes  # noqa: PLC0415 - only with a ledger

        orders = [
            QuotedOrder(tag, SheetSeen(shown_name(path), digest_of(path)))
            for tag, path in zip(self.tags, self.orders, strict=True)
        ]
        issued = keep_quotes(self.connection, record, orders, shop.pricing.validity_days)
        self.notes += [_decided(one) for one in issued if one.decided]
        return [one.words for one in issued]

    def far_above(self, record: RunRecord) -> list[str]:
        """Return what to ask of orders above a hundred times the largest quote that ever went out."""
        if self.connection is None:
            return []
        from quoting.ledger import largest_total  # noqa: PLC0415 - only with a ledger

        currency = record.made.currency
        largest = largest_total(self.connection, currency)
        return [
            f"{order.customer} ({order.file}) adds up to {order.total.total:,.2f} {currency}, over"
            f" {_FAR_ABOVE} times the largest quote in the ledger ({largest:,.2f}):"
            " is a quantity, a size or a unit wrong?"
            for order in record.orders
            if largest and order.total.total > _FAR_ABOVE * largest
        ]

    def commit(self) -> None:
        """Write the ledger; called when every file of the run is complete and before the first is moved."""
        if self.connection is not None:
            self.connection.commit()


@contextmanager
def ledger_run(orders: Sequence[Path], shop_dir: Path, today: date, *, ledger: bool) -> Iterator[LedgerRun]:
    """Yield the run's part of the ledger of a shop's folder, or of none."""
    if not ledger:
        yield LedgerRun(orders, today)
        return
    from quoting.ledger import ledger_of  # noqa: PLC0415 - only with a ledger

    found = ledger_of(shop_dir)
    with found.writing("a quote run") as connection:
        yield LedgerRun(orders, today, found, connection)


def promises_in(record: RunRecord) -> dict[str, PromiseRecord]:
    """Return the promises of a record's lines, by line id."""
    return {
        line.id: line.promise
        for line in record.lines
        if isinstance(line, PricedLineRecord) and line.promise is not None
    }


def _decided(issued: Issued) -> str:
    return (
        f"quote {issued.number} has lines that are decided: the ledger keeps it as it went out, "
        "and this run's papers are only a print"
    )
