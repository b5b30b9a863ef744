"""Records as a quote run makes them, as short as the ledger takes them; all invented."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache

from sqlalchemy import Connection

from quoting.ledger.quotes import Issued, QuotedOrder, keep_quotes
from quoting.ledger.sheets import OrderWords, SheetSeen, tags_of
from quoting.record import VERSION, PricedLineRecord, RunRecord, read_record
from tests.data.records.make import golden

MONDAY = date(2026, 11, 30)


def record(
    result: str, orders: Sequence[tuple[str, str, int]], *, today: date = MONDAY, price: str = "100.00"
) -> RunRecord:
    """A run of orders: letters of the sheet, customer, number of lines."""
    plain = _golden()
    order, (line, *_), nest = plain.orders[0], plain.lines, plain.nest[0]
    assert isinstance(line, PricedLineRecord)
    worth = Decimal(price)
    numbers = range(1, max(lines for _, _, lines in orders) + 1)
    return replace(
        plain,
        id=result,
        made=replace(plain.made, today=today, currency="USD", shop="A shop (invented)"),
        orders=tuple(
            replace(
                order,
                file=f"{customer}.xlsx",
                customer=customer,
                reference="",
                total=replace(order.total, total=worth),
            )
            for _, customer, _ in orders
        ),
        lines=tuple(
            replace(
                line,
                id=f"{tag}-{number}",
                number=str(number),
                part=f"Cylinder {number}",
                quantity=1,
                price=replace(line.price, extended=worth),
                due=None,
                plates=(f"R{number} #1",),
            )
            for tag, _, lines in orders
            for number in range(1, lines + 1)
        ),
        nest=(
            replace(
                nest,
                plates=tuple(
                    replace(nest.plates[0], id=f"R{number} #1", plate=f"R{number}", bought=False)
                    for number in numbers
                ),
            ),
        ),
    )


@cache
def _golden() -> RunRecord:
    return read_record(golden(VERSION))


def sheet(customer: str, content: str = "") -> SheetSeen:
    return SheetSeen(f"{customer}.xlsx", f"{customer}{content}")


def never(_: int) -> OrderWords:
    raise AssertionError("a sheet that is known, or of a new name, need not be read twice")


def quoted(
    connection: Connection, *customers: str, result: str = "one", today: date = MONDAY, content: str = ""
) -> tuple[Issued, ...]:
    """Quote a sheet of three lines for each customer."""
    seen = [sheet(customer, content) for customer in customers]
    words = [
        OrderWords(customer, "", frozenset(f"Cylinder {number}" for number in (1, 2, 3)))
        for customer in customers
    ]
    tags = tags_of(connection, seen, today, words.__getitem__)
    made = record(
        result, [(tag, customer, 3) for tag, customer in zip(tags, customers, strict=True)], today=today
    )
    orders = [QuotedOrder(tag, one) for tag, one in zip(tags, seen, strict=True)]
    return keep_quotes(connection, made, orders, validity_days=30)
