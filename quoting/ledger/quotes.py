"""Quotes as they go out: number, issue, lines under their lasting ids, and what became of them."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal, InvalidOperation
from typing import Annotated

from pydantic import Field
from sqlalchemy import Connection, func, insert, select, update

from quoting.ledger.runs import QUOTE, keep_run
from quoting.ledger.sheets import OrderWords, SheetSeen, inquiry_of, quote_number
from quoting.ledger.sound import DayText, MomentText, MoneyText, damaged, sound
from quoting.ledger.tables import CUSTOMERS, EVENTS, INQUIRIES, ISSUES, LINES, QUOTES, RUNS
from quoting.record import PricedLineRecord, RunRecord, UnreadLineRecord

OPEN, WON, LOST, LEFT_OUT = "open", "won", "lost", "left out"


@dataclass(frozen=True, slots=True)
class Issued:
    """A quote as it goes out: its number, which issue of it, and whether the ledger had it already."""

    number: str
    issue: int
    known: bool
    decided: bool = False

    @property
    def words(self) -> str:
        """Return the number as it is printed.

        >>> Issued("20261130-01", 2, False).words
        '20261130-01 issue 2'
        """
        return self.number if self.issue == 1 else f"{self.number} issue {self.issue}"


@dataclass(frozen=True, slots=True)
class QuotedOrder:
    """One order of a run and the sheet it was read from, with the lasting letters of its line ids.

    `wanted` is the number that papers made elsewhere already bear.
    """

    tag: str
    sheet: SheetSeen
    wanted: str = ""


def keep_quotes(
    connection: Connection, record: RunRecord, orders: Sequence[QuotedOrder], validity_days: int
) -> tuple[Issued, ...]:
    """Write a run's quotes into the ledger and return how each goes out, in the run's order.

    The same result again is the same issue. A quote of which a line is decided keeps what it is: the run is
    then told apart by `Issued.decided`.
    """
    today = record.made.today
    run: int | None = None
    found: list[Issued] = []
    for order, quoted in zip(record.orders, orders, strict=True):
        words = OrderWords(order.customer, order.reference)
        inquiry = inquiry_of(connection, quoted.tag, quoted.sheet, words, today.isoformat())
        number = quote_number(connection, inquiry, today, quoted.wanted)
        quote = connection.execute(select(QUOTES.c.id).where(QUOTES.c.number == number)).scalar_one()
        issued = _issued(connection, quote, number, record.id)
        found.append(issued)
        if issued.known or issued.decided:
            continue
        run = keep_run(connection, QUOTE, record) if run is None else run
        connection.execute(
            insert(ISSUES).values(
                quote_id=quote,
                number=issued.issue,
                run_id=run,
                day=today.isoformat(),
                valid_until=(today + timedelta(days=validity_days)).isoformat(),
                total=str(order.total.total),
                currency=record.made.currency,
            )
        )
        _keep_lines(
            connection, quote, [line for line in record.lines if line.id.startswith(f"{quoted.tag}-")]
        )
        note_event(connection, today.isoformat(), "quoted", issued.words, f"{order.customer}, {order.file}")
    return tuple(found)


def largest_total(connection: Connection, currency: str) -> Decimal | None:
    """Return the largest total that ever went out in this currency; None before the first."""
    totals = connection.execute(select(ISSUES.c.total).where(ISSUES.c.currency == currency)).scalars()
    with suppress(InvalidOperation):
        return max((Decimal(total) for total in totals), default=None)
    raise damaged("the total of a quote is no sum of money")


def note_event(connection: Connection, at: str, kind: str, subject: str, text: str = "") -> None:
    """Note what was done, to what, and when."""
    connection.execute(insert(EVENTS).values(at=at, kind=kind, subject=subject, text=text))


@dataclass(frozen=True, slots=True)
class LineDays:
    """When a line was quoted (as last issued) and decided, and why; ISO text, empty when open."""

    quoted: MomentText
    decided: MomentText
    reason: str


def line_days(connection: Connection) -> dict[str, LineDays]:
    """Return the days of every line of the ledger."""
    rows = connection.execute(
        select(LINES.c.line, func.max(ISSUES.c.day).label("quoted"), LINES.c.decided, LINES.c.reason)
        .join(ISSUES, ISSUES.c.quote_id == LINES.c.quote_id)
        .group_by(LINES.c.line, LINES.c.decided, LINES.c.reason)
    )
    return {row.line: sound(LineDays, (row.quoted, row.decided, row.reason)) for row in rows}


def first_seen(connection: Connection, kind: str) -> dict[str, str]:
    """Return the day of the first event of a kind by its subject."""
    rows = connection.execute(
        select(EVENTS.c.subject, func.min(EVENTS.c.at).label("at"))
        .where(EVENTS.c.kind == kind)
        .group_by(EVENTS.c.subject)
    )
    return {row.subject: row.at for row in rows}


def last_event(connection: Connection, kind: str) -> str:
    """Return the text of the event of a kind that was noted last, empty when there is none."""
    found = connection.execute(
        select(EVENTS.c.text).where(EVENTS.c.kind == kind).order_by(EVENTS.c.id.desc())
    )
    return str(found.scalar() or "")


def _issued(connection: Connection, quote: int, number: str, result: str) -> Issued:
    last = connection.execute(
        select(ISSUES.c.number, RUNS.c.result)
        .join(RUNS, RUNS.c.id == ISSUES.c.run_id)
        .where(ISSUES.c.quote_id == quote)
        .order_by(ISSUES.c.number.desc())
    ).first()
    if last is None:
        return Issued(number, 1, known=False)
    if last.result == result:
        return Issued(number, int(last.number), known=True)
    decided = connection.execute(
        select(func.count()).where(LINES.c.quote_id == quote, LINES.c.state.in_((WON, LOST)))
    ).scalar_one()
    if decided:
        return Issued(number, int(last.number), known=True, decided=True)
    return Issued(number, int(last.number) + 1, known=False)


def _keep_lines(connection: Connection, quote: int, lines: Sequence[UnreadLineRecord]) -> None:
    priced = [line for line in lines if isinstance(line, PricedLineRecord)]
    connection.execute(update(LINES).where(LINES.c.quote_id == quote).values(state=LEFT_OUT))
    for line in priced:
        values = {
            "quote_id": quote,
            "number": line.number,
            "part": line.part,
            "quantity": line.quantity,
            "price": str(line.price.extended),
            "due": line.due.isoformat() if line.due else "",
            "state": OPEN,
        }
        known = connection.execute(select(LINES.c.id).where(LINES.c.line == line.id)).scalar()
        if known is None:
            connection.execute(insert(LINES).values(line=line.id, **values))
        else:
            connection.execute(update(LINES).where(LINES.c.id == known).values(**values))


@dataclass(frozen=True, slots=True)
class LedgerLine:
    """A quoted line: whose, in which quote and run, valid until when, and what became of it."""

    key: int
    line: str
    customer: str
    quote: str
    number: str
    part: str
    quantity: Annotated[int, Field(ge=1)]
    price: MoneyText
    due: DayText
    state: str
    valid_until: DayText
    run: int

    def expired(self, today: date) -> bool:
        """Return whether the quote's validity has run out on a line that is still open."""
        return self.state == OPEN and self.valid_until < today.isoformat()


def lines_of(connection: Connection, states: Collection[str] = ()) -> tuple[LedgerLine, ...]:
    """Return the lines of the ledger in these states (all when none is named), as last issued."""
    last = select(ISSUES.c.quote_id, func.max(ISSUES.c.number).label("number")).group_by(ISSUES.c.quote_id)
    newest = last.subquery()
    rows = connection.execute(
        select(
            LINES.c.id,
            LINES.c.line,
            CUSTOMERS.c.name,
            QUOTES.c.number.label("quote"),
            LINES.c.number,
            LINES.c.part,
            LINES.c.quantity,
            LINES.c.price,
            LINES.c.due,
            LINES.c.state,
            ISSUES.c.valid_until,
            ISSUES.c.run_id,
        )
        .join(QUOTES, QUOTES.c.id == LINES.c.quote_id)
        .join(INQUIRIES, INQUIRIES.c.id == QUOTES.c.inquiry_id)
        .join(CUSTOMERS, CUSTOMERS.c.id == INQUIRIES.c.customer_id)
        .join(newest, newest.c.quote_id == QUOTES.c.id)
        .join(ISSUES, (ISSUES.c.quote_id == QUOTES.c.id) & (ISSUES.c.number == newest.c.number))
        .order_by(LINES.c.id)
    ).all()
    found = (sound(LedgerLine, row) for row in rows)
    return tuple(line for line in found if not states or line.state in states)


def decide(
    connection: Connection, lines: Sequence[LedgerLine], state: str, today: date, reason: str = ""
) -> None:
    """Write what became of these lines, and when."""
    for line in lines:
        connection.execute(
            update(LINES)
            .where(LINES.c.id == line.key)
            .values(state=state, reason=reason, decided=today.isoformat())
        )
        note_event(connection, today.isoformat(), state, line.line, reason)


def quoted_order(connection: Connection, number: str) -> QuotedOrder:
    """Return the sheet and letters of a quote that the ledger has."""
    row = connection.execute(
        select(INQUIRIES.c.tag, INQUIRIES.c.file, INQUIRIES.c.digest)
        .join(QUOTES, QUOTES.c.inquiry_id == INQUIRIES.c.id)
        .where(QUOTES.c.number == number)
    ).one()
    return QuotedOrder(row.tag, SheetSeen(row.file, row.digest))
