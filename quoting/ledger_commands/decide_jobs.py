"""What became of quotes: won lines become jobs with plates of their own, lost ones are noted."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

from sqlalchemy import Connection

from quoting.books import MADE, OutputFolder, cutting_writers, files_words
from quoting.commands import Say, promises_in, worked_out
from quoting.core import Doing, Effort, InputError, Order, Place, State, first_few
from quoting.estimating import Estimate
from quoting.ledger import (
    LEFT_OUT,
    LOST,
    WON,
    Ledger,
    LedgerLine,
    chosen,
    decide,
    drops_given,
    keep_jobs,
    ledger_of,
    lines_of,
    promised,
    run_record,
    taken_out,
    to_be_lost,
    to_be_won,
    without_promised,
)
from quoting.recording import make_record, unpack
from quoting.shop import Shop, load_shop

MOST_NAMED = 8


@dataclass(frozen=True, slots=True)
class WonRequest:
    """What was won: quote numbers, customers or lines; the customer's order, and where job papers go."""

    what: tuple[str, ...]
    shop_dir: Path
    out_dir: Path
    today: date
    order_no: str = ""
    order_day: date | None = None
    expired: bool = False
    effort: Effort = "normal"
    seed: int = 0
    force: bool = False
    workers: int = 1


def won_job(request: WonRequest, *, say: Say) -> int:
    """Make jobs of won lines, nest them on the free rack, write the cutting papers; return the exit code."""
    shop = load_shop(request.shop_dir)
    ledger = ledger_of(request.shop_dir)
    folder = OutputFolder(request.out_dir, force=request.force)
    with folder.hold(), ledger.writing("won") as connection:
        lines = chosen(lines_of(connection), request.what)
        to_be_won(lines, request.today, expired=request.expired)
        free = free_rack(connection, ledger, shop)
        orders = orders_of(connection, lines)
        tell_rack(free, shop, say)
        say(Doing(f"nesting {len(lines)} won lines"))
        found = worked_out(orders, free, request, say)
        _all_can_be_made(found)
        record = make_record(found)
        day = (request.order_day or request.today).isoformat()
        days = _promised(connection, lines, date.fromisoformat(day))
        run = keep_jobs(
            connection,
            record,
            lines,
            request.order_no,
            day,
            {line: d.isoformat() for line, d in days.items()},
        )
        decide(connection, lines, WON, request.today, request.order_no)
        writers = cutting_writers(
            _of_all_quoted(found, shop, connection, lines),
            request.shop_dir,
            drops_given=drops_given(connection, run),
        )
        paths = folder.write(writers, stale=MADE, complete=connection.commit, workers=request.workers)
    names = files_words([path.relative_to(folder.directory).as_posix() for path in paths])
    print("\n".join([*_won_rows(lines, found, shop, folder.directory, names), *_promise_rows(days)]))
    return 0


def lost_job(what: Sequence[str], shop_dir: Path, today: date, reason: str) -> int:
    """Note lines as lost, and why; return the exit code."""
    with ledger_of(shop_dir).writing("lost") as connection:
        lines = chosen(lines_of(connection), what)
        to_be_lost(lines)
        decide(connection, lines, LOST, today, reason)
    names = first_few([line.line for line in lines], MOST_NAMED)
    print(f"lost        {names}" + (f": {reason}" if reason else ""))
    return 0


def free_rack(connection: Connection, ledger: Ledger, shop: Shop) -> Shop:
    """Return the shop with what of its rack is not promised, where its file is off among its warnings."""
    rack = ledger.rack_now(shop)
    told = taken_out(connection, rack)
    free = without_promised(shop, promised(connection, rack))
    return replace(free, warnings=(*free.warnings, *told))


def tell_rack(free: Shop, shop: Shop, say: Say) -> None:
    """Say where the rack's file is not as the ledger expects."""
    for told in free.warnings[len(shop.warnings) :]:
        say(told)


def orders_of(connection: Connection, lines: Sequence[LedgerLine]) -> tuple[Order, ...]:
    """Return the orders as they were read, holding these lines only."""
    wanted = {line.line for line in lines}
    found: list[Order] = []
    for run in dict.fromkeys(line.run for line in lines):
        record = run_record(connection, run)
        if not record.archive:
            raise InputError("the ledger holds no estimate of this quote", would_do="quote the sheet again")
        for order in unpack(record.archive, Place("the ledger")).orders:
            kept = tuple(line for line in order.order.lines if line.id in wanted)
            cells = {line.place.cell for line in kept}
            rows = tuple(row for row in order.order.rows if row.place.cell in cells)
            if kept:
                found.append(replace(order.order, lines=kept, rows=rows, questions=(), drafts=(), answers=()))
    return tuple(found)


def _of_all_quoted(
    found: Estimate, shop: Shop, connection: Connection, lines: Sequence[LedgerLine]
) -> Estimate:
    """Return an estimate for the papers: on the whole rack, and of how many quoted lines these are won.

    Plates promised to others are still in the rack that its copy is made from.
    """
    quotes = {line.quote for line in lines}
    quoted = sum(line.quote in quotes and line.state != LEFT_OUT for line in lines_of(connection))
    return replace(found, shop=replace(found.shop, stock=shop.stock), won_of=quoted)


def _promised(connection: Connection, lines: Sequence[LedgerLine], ordered: date) -> dict[str, date]:
    """Return the days that the quotes promised; an order that came later than it might moves them as far."""
    found = {}
    for run in dict.fromkeys(line.run for line in lines):
        days = promises_in(run_record(connection, run))
        for line in lines:
            if line.run == run and (promise := days.get(line.line)):
                found[line.line] = promise.safe + max(timedelta(0), ordered - promise.order_by)
    return found


def _promise_rows(days: Mapping[str, date]) -> list[str]:
    told = [f"{line} {day}" for line, day in days.items()]
    return [f"promised    {first_few(told, MOST_NAMED)}"] if told else []


def _all_can_be_made(found: Estimate) -> None:
    stuck = [f"{line.line.id} ({line.reason})" for line in found.lines if line.state is not State.PRICED]
    if stuck:
        raise InputError(
            f"cannot be made with the shop's book and rack of today: {first_few(stuck, 3)}",
            would_do="mend the book or the rack, or leave these lines out",
        )


def _won_rows(
    lines: Sequence[LedgerLine], found: Estimate, shop: Shop, directory: Path, names: Sequence[str]
) -> list[str]:
    money = sum((Decimal(line.price) for line in lines), Decimal(0))
    plates = [group.problem.plate(cut.plate) for group in found.nests for cut in group.nest.cut_plates]
    bought = sum(plate.count is None for plate in plates)
    return [
        f"won         {first_few([line.line for line in lines], MOST_NAMED)}",
        f"worth       {money:,.2f} {shop.rates.currency}",
        f"plates      {len(plates)} promised, {bought} of them to buy",
        f"files in    {directory}",
        *(f"            {name}" for name in names),
    ]
