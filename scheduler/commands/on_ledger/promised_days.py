"""What can be promised on the floor that the ledger knows, with the quotes that are still open."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from decimal import ROUND_UP, Decimal
from pathlib import Path

from sqlalchemy import Connection

from quoting.commands import Promiser
from quoting.core import Sharing, one_by_one, remembered
from quoting.ledger import LOST, OPEN, WON, LedgerJob, jobs_of, last_plan, lines_of, run_record
from quoting.record import ExpediteRecord, PricedLineRecord, PromiseRecord, RunRecord
from quoting.shop import Shop, load_shop
from scheduler.calendar import next_working_day, working_days_after
from scheduler.commands.on_ledger.ledger_floor import LedgerFloor, own_names
from scheduler.commands.on_ledger.plan_job import read_published
from scheduler.jobs import WonLine, plates_to_cut, won_lines
from scheduler.promising import (
    OpenQuote,
    Promise,
    PromiseAsked,
    Rush,
    promises_and_rushes,
    wanted_level,
    win_chance,
)


@dataclass(frozen=True, slots=True)
class DaysAsked:
    """A run to be promised on a day: its record, and the seed."""

    record: RunRecord
    today: date
    shop: Shop
    seed: int = 0


def promiser(shop_dir: Path, seed: int) -> Promiser:
    """Return what works out the days of a run on the floor that the ledger of a shop's folder knows."""

    def promise(
        connection: Connection, record: RunRecord, today: date, share_out: Sharing = one_by_one, /
    ) -> RunRecord:
        return with_promises(connection, DaysAsked(record, today, load_shop(shop_dir), seed), share_out)

    return promise


def with_promises(connection: Connection, asked: DaysAsked, share_out: Sharing = one_by_one) -> RunRecord:
    """Return the run's record with what can be promised of its lines, and what a rush of each order costs."""
    floor = LedgerFloor(connection, asked.shop)
    moment = datetime.combine(next_working_day(asked.today, asked.shop), time())
    mine = _quotes_of_run(asked, moment.date(), floor.jobs)
    if not mine:
        return asked.record
    names = {line.id for quote in mine for line in quote.lines}
    ask = PromiseAsked(
        floor=floor.floor(moment),
        published=read_published(last_plan(connection)),
        quotes=(*_open_quotes(connection, asked, moment.date(), names), *mine),
        wanted=tuple(quote.name for quote in mine),
        shop=asked.shop,
        level=wanted_level(_kept(jobs_of(connection, closed=True), asked.today), asked.shop.promise),
        seed=asked.seed,
    )
    days, rushed = remembered(promises_and_rushes, ask, share_out)
    lines = tuple(
        replace(line, promise=_record(days[line.id]))
        if isinstance(line, PricedLineRecord) and line.id in days
        else line
        for line in asked.record.lines
    )
    file_of = {_letters(line.id): line.place.file for line in asked.record.lines}
    charged = {file_of[name]: _expedite(rush, asked.shop) for name, rush in rushed.items()}
    orders = tuple(replace(order, expedite=charged.get(order.file)) for order in asked.record.orders)
    return replace(asked.record, lines=lines, orders=orders)


def _record(promise: Promise) -> PromiseRecord:
    return PromiseRecord(promise.earliest, promise.safe, promise.order_by)


def _expedite(rush: Rush, shop: Shop) -> ExpediteRecord:
    """Return what a rush is charged: what it costs with the shop's margin, a line's minimum at the least."""
    rules = shop.pricing
    price = max(rush.cost / (1 - rules.margin), rules.line_minimum)
    return ExpediteRecord(rush.safe, price.quantize(Decimal(1), ROUND_UP).quantize(Decimal("0.01")))


def _letters(line: str) -> str:
    return line.rpartition("-")[0]


def _kept(jobs: Iterable[LedgerJob], today: date) -> list[bool]:
    """Return which promises were kept, in the order in which that became known."""
    known = []
    for job in jobs:
        if not job.promised or job.state == "dropped":
            continue
        done = job.since[:10] if job.state == "done" else ""
        if done:
            known.append((min(done, job.promised), job.line, done <= job.promised))
        elif job.promised < today.isoformat():
            known.append((job.promised, job.line, False))
    return [kept for _, _, kept in sorted(known)]


def _quotes_of_run(asked: DaysAsked, start: date, won: Collection[str]) -> list[OpenQuote]:
    """Return the run's quotes; the lines of each bear the letters of its sheet.

    A sheet that comes again after lines of it were won: those are on the floor already.
    """
    order_by = working_days_after(asked.today, asked.shop.promise.order_within_days, asked.shop)
    quotes: dict[str, list[WonLine]] = {}
    for line in won_lines(asked.record, None):
        if line.id not in won:
            quotes.setdefault(_letters(line.id), []).append(line)
    return [
        OpenQuote(
            name,
            tuple(lines),
            plates_to_cut(asked.record, lines, asked.shop, start, order_by),
            order_by,
            asked.shop.promise.win_chance,
        )
        for name, lines in quotes.items()
    ]


def _open_quotes(connection: Connection, asked: DaysAsked, start: date, mine: set[str]) -> list[OpenQuote]:
    """Return the quotes that may still be won, the oldest first, without the lines that are quoted now."""
    lines = lines_of(connection)
    counts = Counter(line.state for line in lines)
    chance = win_chance(counts[WON], counts[LOST], asked.shop.promise)
    open_ = [
        line
        for line in lines
        if line.state == OPEN and line.line not in mine and not line.expired(asked.today)
    ]
    found = []
    for name, run in dict.fromkeys((line.quote, line.run) for line in open_):
        record = run_record(connection, run)
        own = [line.line for line in open_ if line.quote == name]
        plain = won_lines(record, own)
        plates = plates_to_cut(record, plain, asked.shop, start, start)
        found.append(
            OpenQuote(
                name,
                tuple(own_names(line, run) for line in plain),
                tuple(replace(plate, id=f"{plate.id} ({run})") for plate in plates),
                start,
                chance,
            )
        )
    return found
