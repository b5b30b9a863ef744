"""What went out to customers, as records: the lines that count today, and the quotes behind a result."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

from sqlalchemy import Connection, select

from quoting.ledger.quotes import LEFT_OUT, QuotedOrder, lines_of
from quoting.ledger.runs import run_record
from quoting.ledger.sheets import SheetSeen
from quoting.ledger.tables import INQUIRIES, ISSUES, QUOTES, RUNS
from quoting.record import PricedLineRecord, RunRecord


def quoted_records(connection: Connection) -> tuple[RunRecord, ...]:
    """Return the records behind the last issue of every quote, each with the lines that it still counts for.

    A line stands in one of them only, however often its sheet was quoted. Plates that serve none of the lines
    are left out. What a record replaces is not said: only what counts is here.
    """
    by_run: dict[int, set[str]] = defaultdict(set)
    for line in lines_of(connection):
        if line.state != LEFT_OUT:
            by_run[line.run].add(line.line)
    return tuple(_only(run_record(connection, run), lines) for run, lines in sorted(by_run.items()))


def _only(record: RunRecord, wanted: set[str]) -> RunRecord:
    lines = tuple(line for line in record.lines if line.id in wanted)
    plates = {plate for line in lines if isinstance(line, PricedLineRecord) for plate in line.plates}
    nest = tuple(
        replace(group, plates=tuple(plate for plate in group.plates if plate.id in plates))
        for group in record.nest
    )
    return replace(record, lines=lines, nest=nest, revision=replace(record.revision, replaces=""))


def orders_of_result(connection: Connection, record: RunRecord) -> tuple[QuotedOrder, ...]:
    """Return the quotes that a result went out as, in its order; empty when the ledger does not have it."""
    rows = connection.execute(
        select(INQUIRIES.c.tag, INQUIRIES.c.file, INQUIRIES.c.digest)
        .join(QUOTES, QUOTES.c.inquiry_id == INQUIRIES.c.id)
        .join(ISSUES, ISSUES.c.quote_id == QUOTES.c.id)
        .join(RUNS, RUNS.c.id == ISSUES.c.run_id)
        .where(RUNS.c.result == record.id)
    ).all()
    tags = {line.place.file: line.id.partition("-")[0] for line in record.lines}
    by_tag = {row.tag: QuotedOrder(row.tag, SheetSeen(row.file, row.digest)) for row in rows}
    found = [by_tag.get(tags.get(order.file, "")) for order in record.orders]
    return tuple(one for one in found if one is not None) if all(found) else ()
