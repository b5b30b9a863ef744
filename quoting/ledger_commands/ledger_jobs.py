"""The ledger itself: dated copies, bringing one back, plain tables out, an earlier result taken in."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any

from quoting.books import OutputFolder
from quoting.core import InputError, Place
from quoting.ledger import (
    QuotedOrder,
    SheetSeen,
    copies,
    jobs_of,
    keep_quotes,
    last_plan,
    ledger_of,
    lines_of,
    restore,
    tables_out,
    take_tag,
)
from quoting.record import RunRecord, read_record
from quoting.shop import load_shop


def copies_job(shop_dir: Path) -> int:
    """List the dated copies; return the exit code."""
    found = copies(shop_dir)
    print(
        "\n".join(str(path) for path in found) or "no copies yet: one is kept on each day the ledger changes"
    )
    return 0


def restore_job(copy: Path, shop_dir: Path) -> int:
    """Make the ledger what a copy holds; return the exit code."""
    aside = restore(ledger_of(shop_dir).store, copy)
    print(f"the ledger is that of {copy.name}; numbers given out since stay given out")
    if aside:
        print(f"the damaged file is kept as {aside.name}")
    return 0


def export_job(shop_dir: Path, out_dir: Path, *, force: bool) -> int:
    """Write every table as CSV; return the exit code."""
    folder = OutputFolder(out_dir, force=force)
    with folder.hold(), ledger_of(shop_dir).reading() as connection:
        paths = folder.write(dict(tables_out(connection)))
    print("\n".join([f"files in    {folder.directory}", *(f"            {path.name}" for path in paths)]))
    return 0


def take_job(result: Path, shop_dir: Path) -> int:
    """Take an earlier run's quotes in, under the ids and numbers they have; return the exit code.

    Raises InputError for a result of another shop and for line ids that the ledger gave to another sheet.
    """
    record = read_record(result)
    shop = load_shop(shop_dir)
    if record.made.shop != shop.name:
        raise InputError(
            f'is a result of another shop, "{record.made.shop}"',
            place=Place(str(result)),
            would_do=f'give one of "{shop.name}"',
        )
    with ledger_of(shop_dir).writing("take") as connection:
        orders = _orders(record)
        taken = [order.tag for order in orders if not take_tag(connection, order.tag)]
        if taken:
            raise InputError(
                f"its line ids {', '.join(f'{tag}-...' for tag in taken)} are those of other sheets",
                place=Place(str(result)),
                would_do="quote the sheets again with the ledger",
            )
        issued = keep_quotes(connection, record, orders, shop.pricing.validity_days)
    print("taken in    " + ", ".join(one.words for one in issued))
    return 0


def _orders(record: RunRecord) -> list[QuotedOrder]:
    """Return the record's orders with the letters of their lines and the numbers on their papers."""
    day = f"{record.made.today:%Y%m%d}"
    found = []
    for index, order in enumerate(record.orders, 1):
        tag = next((line.id.partition("-")[0] for line in record.lines if line.place.file == order.file), "")
        found.append(QuotedOrder(tag, SheetSeen(order.file, ""), f"{day}-{index:02d}"))
    return found


def unplanned_jobs(shop_dir: Path) -> tuple[str, ...]:
    """Return the open jobs, by their line, that no published plan holds; InputError when it is held."""
    with ledger_of(shop_dir).reading() as connection:
        planned = json.dumps(last_plan(connection) or {})
        return tuple(job.line for job in jobs_of(connection) if job.open and f'"{job.line}"' not in planned)


@dataclass(frozen=True, slots=True)
class LateJob:
    """A job that is not ready on its day: its line, that day, and the day the published plan has it ready;
    None when that day is past or no plan holds it.
    """

    line: str
    day: date
    ready: date | None


def late_jobs(shop_dir: Path, today: date) -> tuple[LateJob, ...]:
    """Return the open jobs that the published plan has ready too late or whose day is past, the worst first.

    The day that must be kept counts, else the one promised, else the one asked for. InputError when the
    ledger is held.
    """
    with ledger_of(shop_dir).reading() as connection:
        ready = _ready_days(last_plan(connection))
        jobs = [job for job in jobs_of(connection) if job.open]
    found = []
    for job in jobs:
        if text := job.must_ship or job.promised or job.due:
            day, planned = date.fromisoformat(text), ready.get(job.line)
            if day < today or (planned is not None and planned > day):
                found.append(LateJob(job.line, day, planned if planned and planned >= today else None))
    return tuple(sorted(found, key=lambda job: (job.day - (job.ready or today), job.line)))


def expired_quotes(shop_dir: Path, today: date) -> tuple[str, ...]:
    """Return the quotes with open lines whose validity has run out, each with its last day, oldest first."""
    with ledger_of(shop_dir).reading() as connection:
        over = [line for line in lines_of(connection) if line.expired(today)]
    found = {line.quote: line.valid_until for line in sorted(over, key=lambda one: one.valid_until)}
    return tuple(f"{quote} (until {day})" for quote, day in found.items())


def quoted_lines(shop_dir: Path) -> Mapping[str, tuple[str, bool]]:
    """Return for each line of the ledger its quote's number and whether it is still undecided.

    InputError when the ledger is held.
    """
    with ledger_of(shop_dir).reading() as connection:
        return {line.line: (line.quote, line.state == "open") for line in lines_of(connection)}


def _ready_days(plan: Mapping[str, Any] | None) -> dict[str, date]:
    """Return the day on which the last work of each line ends; none of a plan that cannot be read."""
    found: dict[str, date] = {}
    try:
        for line, _, _, _, end in (plan or {}).get("works", {}).values():
            day = datetime.fromisoformat(end).date()
            found[line] = max(day, found.get(line, day))
    except (ValueError, TypeError, AttributeError):
        return {}
    return found
