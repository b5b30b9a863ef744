"""What a changed book would have done to quotes: their price by it, and the margin they really carry."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from quoting.estimating import LineResult, at_minutes_of, price_of
from quoting.shop import Shop


@dataclass(frozen=True, slots=True)
class QuoteEffect:
    """One quoted line: its price as it went out, by the book of today and by the new one.

    `margin` and `new_margin` are what its price leaves by the minutes of either book, as a share of it.
    """

    line: str
    customer: str
    quote: str
    state: str
    quoted: Decimal
    before: Decimal
    after: Decimal
    margin: Decimal
    new_margin: Decimal


@dataclass(frozen=True, slots=True)
class QuotedResult:
    """A quoted line as the ledger has it, with what was worked out for it."""

    result: LineResult
    customer: str
    quote: str
    state: str
    price: Decimal


def effects_on(quoted: Iterable[QuotedResult], now: Shop, new: Shop) -> tuple[QuoteEffect, ...]:
    """Return what the new book would have done to quoted lines, the largest change of price first.

    Lines on rolls that the shop no longer has are left out.
    """
    rolls = {roll.name for roll in now.rolls}
    found = []
    for one in quoted:
        route = one.result.route
        if route is None or one.result.drivers is None or route.roll not in rolls:
            continue
        before = price_of(at_minutes_of(one.result, now), now)
        after = price_of(at_minutes_of(one.result, new), new)
        found.append(
            QuoteEffect(
                one.result.line.id, one.customer, one.quote, one.state, one.price,
                before.extended, after.extended,
                _margin(one.price, before.parts.cost), _margin(one.price, after.parts.cost),
            )
        )  # fmt: skip
    return tuple(sorted(found, key=lambda one: (-abs(one.after - one.before), one.line)))


def _margin(price: Decimal, cost: Decimal) -> Decimal:
    return (price - cost) / price if price else Decimal(0)
