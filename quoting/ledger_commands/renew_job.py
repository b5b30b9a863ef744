"""A quote priced again with the shop's book and rack of today: its next issue, and what changed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

from quoting.books import OutputFolder, files_words
from quoting.commands import (
    RECORD_NAME,
    Promiser,
    Say,
    promises_in,
    quote_writers,
    record_writer,
    worked_out,
)
from quoting.core import Effort, InputError
from quoting.estimating import with_risk
from quoting.ledger import (
    OPEN,
    LedgerLine,
    chosen,
    keep_quotes,
    ledger_of,
    lines_of,
    quoted_order,
    run_record,
)
from quoting.ledger_commands.decide_jobs import free_rack, orders_of, tell_rack
from quoting.record import PricedLineRecord, RunRecord
from quoting.recording import make_record
from quoting.shop import load_shop


@dataclass(frozen=True, slots=True)
class RenewRequest:
    """Which quote is priced again, with what, and where its papers go."""

    number: str
    shop_dir: Path
    out_dir: Path
    today: date
    effort: Effort = "normal"
    seed: int = 0
    force: bool = False
    workers: int = 1


def renew_job(request: RenewRequest, *, say: Say, promise: Promiser | None = None) -> int:
    """Write a quote's next issue and list the differences; return the exit code."""
    shop = load_shop(request.shop_dir)
    ledger = ledger_of(request.shop_dir)
    folder = OutputFolder(request.out_dir, force=request.force)
    with folder.hold(), ledger.writing("renew") as connection:
        lines = chosen(lines_of(connection), [request.number])
        if {line.quote for line in lines} != {request.number}:
            raise InputError(f"{request.number} is no quote", would_do="give its number, as 20261130-01")
        if any(line.state != OPEN for line in lines_of(connection) if line.quote == request.number):
            raise InputError(f"{request.number} has lines that are decided", would_do="quote the rest anew")
        free = free_rack(connection, ledger, shop)
        orders = orders_of(connection, lines)
        before = [run_record(connection, run) for run in dict.fromkeys(line.run for line in lines)]
        tell_rack(free, shop, say)
        found = worked_out(orders, free, request, say)
        found = with_risk(found)
        record = make_record(found)
        if promise is not None:
            record = promise(connection, record, request.today)
        quoted = quoted_order(connection, request.number)
        issued = keep_quotes(connection, record, [quoted], shop.pricing.validity_days)
        writers = quote_writers(found, promises_in(record), [one.words for one in issued], record.orders)
        writers[RECORD_NAME] = record_writer(record)
        paths = folder.write(writers, complete=connection.commit)
    names = files_words([path.relative_to(folder.directory).as_posix() for path in paths])
    until = request.today + timedelta(days=shop.pricing.validity_days)
    rows = [
        f"quote       {issued[0].words}",
        f"valid       until {until}, was until {lines[0].valid_until}",
        *_differences(lines, before, record),
    ]
    print("\n".join([*rows, f"files in    {folder.directory}", *(f"            {name}" for name in names)]))
    return 0


def _differences(lines: Sequence[LedgerLine], before: Sequence[RunRecord], after: RunRecord) -> list[str]:
    """Return a row for the total and for each line whose price or safe day is another."""
    was, now = _priced(before), _priced([after])
    reasons = {line.id: line.reason for line in after.lines if not isinstance(line, PricedLineRecord)}
    rows = []
    for line in lines:
        old, new = was.get(line.line), now.get(line.line)
        if new is None:
            rows.append(f"{line.line}: {line.price} -> no quote: {reasons.get(line.line, 'not read')}")
            continue
        told = []
        if str(new.price.extended) != line.price:
            told.append(f"{line.price} -> {new.price.extended}")
        days = [one.promise.safe if one and one.promise else None for one in (old, new)]
        if days[0] != days[1] and days[1] is not None:
            told.append(f"safe day {days[0] or 'none'} -> {days[1]}")
        if told:
            rows.append(f"{line.line}: {', '.join(told)}")
    mine = {line.line for line in lines}
    sums = [
        sum((one.price.extended for one in known.values() if one.id in mine), Decimal(0))
        for known in (was, now)
    ]
    if sums[0] != sums[1]:
        rows.insert(0, f"{sums[0]:,.2f} -> {sums[1]:,.2f} {after.made.currency} for all lines")
    return [f"{'changed' if not k else '':<12}{row}" for k, row in enumerate(rows)] or ["changed     nothing"]


def _priced(records: Sequence[RunRecord]) -> dict[str, PricedLineRecord]:
    return {
        line.id: line for record in records for line in record.lines if isinstance(line, PricedLineRecord)
    }
