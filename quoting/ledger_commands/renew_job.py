"""A quote priced again with the shop's book and rack of today: its next issue, and what changed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from quoting.books import OutputFolder, files_words
from quoting.commands import (
    RECORD_NAME,
    Promiser,
    Say,
    promises_in,
    quote_writers,
    record_writer,
)
from quoting.core import Effort, Hands, InputError, one_by_one
from quoting.estimating import Estimate, estimate, with_risk
from quoting.ledger import OPEN, LedgerLine, chosen, keep_quotes, ledger_of, lines_of, quoted_order
from quoting.ledger_commands.decide_jobs import free_rack, orders_of
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
        found = with_risk(
            estimate(
                orders,
                free,
                today=request.today,
                effort=request.effort,
                seed=request.seed,
                hands=Hands(one_by_one, say),
            )
        )
        record = make_record(found)
        if promise is not None:
            record = promise(connection, record, request.today)
        quoted = quoted_order(connection, request.number)
        issued = keep_quotes(connection, record, [quoted], shop.pricing.validity_days)
        writers = quote_writers(found, promises_in(record), [one.words for one in issued], record.orders)
        writers[RECORD_NAME] = record_writer(record)
        paths = folder.write(writers, complete=connection.commit)
    names = files_words([path.relative_to(folder.directory).as_posix() for path in paths])
    rows = [f"quote       {issued[0].words}", *_differences(lines, found)]
    print("\n".join([*rows, f"files in    {folder.directory}", *(f"            {name}" for name in names)]))
    return 0


def _differences(before: tuple[LedgerLine, ...], after: Estimate) -> list[str]:
    now = {line.line.id: line for line in after.lines}
    rows = []
    for line in before:
        price = now[line.line].price
        told = f"{price.extended}" if price else f"no quote: {now[line.line].reason}"
        if told != line.price:
            rows.append(f"{line.line}: {line.price} -> {told}")
    return [f"{'changed' if not k else '':<12}{row}" for k, row in enumerate(rows)] or ["changed     nothing"]
