"""Which inquiry a sheet belongs to, the letters its line ids begin with, and quote numbers.

A sheet is known again by its content; and a sheet of the same file name and customer, most of whose parts are
the same, is the next word on an inquiry that is still open. A sheet that comes back after the day on which
all in it was decided is asked anew.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, insert, select, update

from quoting.core import column_letters
from quoting.ledger.tables import CUSTOMERS, INQUIRIES, LINES, NUMBERS, QUOTES

SAME_SHARE = 0.5
"""Share of parts that two sheets of one name must have in common to be one inquiry."""

_TAGS = "tags"


@dataclass(frozen=True, slots=True)
class SheetSeen:
    """A sheet of a run: its name and the digest of its content."""

    file: str
    digest: str


@dataclass(frozen=True, slots=True)
class OrderWords:
    """Who asked, under which reference, and for which parts, in words."""

    customer: str
    reference: str = ""
    parts: frozenset[str] = frozenset()


Peek = Callable[[int], OrderWords]


def tags_of(connection: Connection, sheets: Sequence[SheetSeen], today: date, peek: Peek) -> list[str]:
    """Return the lasting letters of each sheet; `peek` reads a sheet that may have changed."""
    used: set[str] = set()
    found: list[str] = []
    for index, sheet in enumerate(sheets):
        tag = _known(connection, sheet, today, used) or _next_word(connection, sheet, used, index, peek)
        found.append(tag or _new_tag(connection))
        used.add(found[-1])
    return found


def inquiry_of(connection: Connection, tag: str, sheet: SheetSeen, order: OrderWords, today: str) -> int:
    """Return the inquiry of these letters, begun when it is new, with the sheet's latest content noted."""
    row = connection.execute(select(INQUIRIES.c.id).where(INQUIRIES.c.tag == tag)).scalar()
    if row is not None:
        connection.execute(
            update(INQUIRIES).where(INQUIRIES.c.id == row).values(digest=sheet.digest, file=sheet.file)
        )
        return int(row)
    made = connection.execute(
        insert(INQUIRIES).values(
            customer_id=_customer(connection, order.customer),
            tag=tag,
            file=sheet.file,
            digest=sheet.digest,
            reference=order.reference,
            first_day=today,
        )
    )
    assert made.inserted_primary_key is not None
    return int(made.inserted_primary_key[0])


def quote_number(connection: Connection, inquiry: int, day: date, wanted: str = "") -> str:
    """Return the number of an inquiry's quote, a new one when it has none; none is ever given out twice."""
    known = connection.execute(select(QUOTES.c.number).where(QUOTES.c.inquiry_id == inquiry)).scalar()
    if known is not None:
        return str(known)
    taken = select(QUOTES.c.id).where(QUOTES.c.number == wanted)
    if wanted and connection.execute(taken).scalar() is None:
        start, _, count = wanted.rpartition("-")
        _counted(connection, start, at_least=int(count) if count.isdigit() else 0)
        number = wanted
    else:
        number = f"{day:%Y%m%d}-{_counted(connection, f'{day:%Y%m%d}'):02d}"
    connection.execute(insert(QUOTES).values(number=number, inquiry_id=inquiry, day=day.isoformat()))
    return number


def take_tag(connection: Connection, tag: str) -> bool:
    """Take these letters for an inquiry from outside; return whether they were free."""
    if connection.execute(select(INQUIRIES.c.id).where(INQUIRIES.c.tag == tag)).scalar() is not None:
        return False
    index = 0
    for letter in tag:
        index = index * 26 + ord(letter) - ord("A") + 1
    _counted(connection, _TAGS, at_least=index)
    return True


def _known(connection: Connection, sheet: SheetSeen, today: date, used: Collection[str]) -> str | None:
    if not sheet.digest:
        return None  # a sheet that could not be read is no other one
    rows = connection.execute(
        select(INQUIRIES.c.id, INQUIRIES.c.tag)
        .where(INQUIRIES.c.digest == sheet.digest, INQUIRIES.c.file == sheet.file)
        .order_by(INQUIRIES.c.id.desc())
    )
    free = [row for row in rows if row.tag not in used]
    open_ones = [row.tag for row in reversed(free) if not _closed(connection, row.id, today)]
    return open_ones[0] if open_ones else None


def _closed(connection: Connection, inquiry: int, today: date) -> bool:
    """Return whether every line of an inquiry was decided before today."""
    rows = connection.execute(
        select(LINES.c.state, LINES.c.decided)
        .join(QUOTES, QUOTES.c.id == LINES.c.quote_id)
        .where(QUOTES.c.inquiry_id == inquiry)
    ).all()
    return bool(rows) and all(row.state != "open" and row.decided < today.isoformat() for row in rows)


def _next_word(
    connection: Connection, sheet: SheetSeen, used: Collection[str], index: int, peek: Peek
) -> str | None:
    """Return the letters of an open inquiry that this sheet is a later state of."""
    rows = connection.execute(
        select(INQUIRIES.c.tag, INQUIRIES.c.id, CUSTOMERS.c.name)
        .join(CUSTOMERS, CUSTOMERS.c.id == INQUIRIES.c.customer_id)
        .where(INQUIRIES.c.file == sheet.file)
        .order_by(INQUIRIES.c.id.desc())
    ).all()
    rows = [row for row in rows if row.tag not in used]
    order = peek(index) if rows else OrderWords("")
    for row in rows:
        lines = connection.execute(
            select(LINES.c.part, LINES.c.state)
            .join(QUOTES, QUOTES.c.id == LINES.c.quote_id)
            .where(QUOTES.c.inquiry_id == row.id)
        ).all()
        had = {line.part for line in lines}
        alike = len(had & order.parts) >= SAME_SHARE * max(1, len(had | order.parts))
        if row.name == order.customer and alike and all(line.state == "open" for line in lines):
            return str(row.tag)
    return None


def _new_tag(connection: Connection) -> str:
    return column_letters(_counted(connection, _TAGS) - 1)


def _counted(connection: Connection, what: str, *, at_least: int | None = None) -> int:
    """Count one on, or up to at least a number, and return where the count is."""
    last = connection.execute(select(NUMBERS.c.last).where(NUMBERS.c.day == what)).scalar()
    now = (last or 0) + 1 if at_least is None else max(last or 0, at_least)
    if last is None:
        connection.execute(insert(NUMBERS).values(day=what, last=now))
    else:
        connection.execute(update(NUMBERS).where(NUMBERS.c.day == what).values(last=now))
    return now


def _customer(connection: Connection, name: str) -> int:
    known = connection.execute(select(CUSTOMERS.c.id).where(CUSTOMERS.c.name == name)).scalar()
    if known is not None:
        return int(known)
    made = connection.execute(insert(CUSTOMERS).values(name=name))
    assert made.inserted_primary_key is not None
    return int(made.inserted_primary_key[0])
