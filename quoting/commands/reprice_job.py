"""A costing book that came back: read, checked, priced again, and written as the next revision.

With a ledger that knows the result, the revision is the next issue of its quotes.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from quoting.books import OutputFolder, ReturnedCosting
from quoting.commands.ledger_run import Promiser, promises_in
from quoting.commands.quote_files import quote_writers, record_writer
from quoting.core import InputError, Place
from quoting.estimating import Change, Estimate, large_totals, revise
from quoting.pricing import settings_of
from quoting.record import PromiseRecord, RunRecord, planned_days, read_record
from quoting.recording import make_record, unpack
from quoting.shop import load_shop

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True)
class RepriceRequest:
    """What came back and where the revision goes.

    With `shop_dir` the shop's book of now is looked at too, with `ledger` its ledger takes the revision.
    """

    costing: Path
    record: Path
    out_dir: Path
    today: date
    shop_dir: Path | None = None
    force: bool = False
    ledger: bool = False


def reprice_job(request: RepriceRequest, promise: Promiser | None = None) -> int:
    """Write the next revision of the quotes, or nothing when anything is wrong; return the exit code."""
    record, place = read_record(request.record), Place(str(request.record))
    if not record.archive:
        raise InputError(
            "holds no estimate to revise",
            place=place,
            would_do="make the record again with this version of rollwright",
        )
    before = unpack(record.archive, place)
    returned = ReturnedCosting(request.costing, before, record.id)
    after = revise(before, returned.edits(), replaces=record.id, today=request.today)
    returned.check(after)
    assert after.revision is not None
    if not after.revision.changes:
        raise InputError(
            "changes nothing: no boxed cell differs from the result",
            place=Place(str(request.costing)),
            would_do="change a boxed cell on Settings or Lines and save the book",
        )
    folder = OutputFolder(request.out_dir, force=request.force)
    folder.prepare()
    revised = replace(make_record(after), schedule=record.schedule)
    name = f"result-rev{after.revision.number}.json"
    with _issuing(request) as ledger:
        issued = Issue(revised) if ledger is None else _issue(ledger, record, revised, request, promise)
        days: dict[str, date | PromiseRecord] = {
            **planned_days(record.schedule),
            **promises_in(issued.record),
        }
        writers = quote_writers(after, days, issued.numbers, issued.record.orders)
        all_writers = writers | {name: record_writer(issued.record)}
        folder.write(all_writers, complete=ledger.commit if ledger else _nothing)
    asked = large_totals(after.orders, after.shop)
    notes = _shop_has_changed(before, request.shop_dir) if request.shop_dir else []
    print(
        "\n".join(
            [*_changes(after), *issued.said, *asked, *notes, *_files(folder.directory, [*writers, name])]
        )
    )
    return 1 if asked else 0


def _nothing() -> None:
    """Do nothing: without a ledger there is none to be written."""


@dataclass(frozen=True, slots=True)
class Issue:
    """A revision as it goes out: its record, the numbers of its quotes, and what the ledger says to it."""

    record: RunRecord
    numbers: tuple[str, ...] = ()
    said: tuple[str, ...] = ()


@contextmanager
def _issuing(request: RepriceRequest) -> Iterator[Connection | None]:
    """Yield the shop's ledger to write into, None without one."""
    if request.shop_dir is None or not request.ledger:
        yield None
        return
    from quoting.ledger import ledger_of  # noqa: PLC0415 - only with a ledger

    found = ledger_of(request.shop_dir)
    if not found.store.exists:
        yield None
        return
    with found.writing("reprice") as connection:
        yield connection


def _issue(
    ledger: Connection,
    before: RunRecord,
    revised: RunRecord,
    request: RepriceRequest,
    promise: Promiser | None,
) -> Issue:
    """Keep a revision as the next issue of its quotes; a quote with decided lines stays as it is."""
    from quoting.ledger import keep_quotes, orders_of_result  # noqa: PLC0415 - only with a ledger

    assert request.shop_dir is not None
    orders = orders_of_result(ledger, before)
    if not orders:
        return Issue(revised, said=(f"result {before.id} is not in the ledger, and neither is its revision",))
    if promise is not None:
        revised = promise(ledger, revised, request.today)
    issued = keep_quotes(ledger, revised, orders, load_shop(request.shop_dir).pricing.validity_days)
    said = [
        f"{one.number} has lines that are decided: the ledger keeps it as it went out"
        if one.decided
        else f"the ledger has it as {one.words}"
        for one in issued
    ]
    return Issue(revised, tuple(one.words for one in issued), tuple(said))


def _changes(after: Estimate) -> list[str]:
    assert after.revision is not None
    rows = [f"revision {after.revision.number}, replaces result {after.revision.replaces}"]
    return rows + [f"  {change_text(change)}" for change in after.revision.changes]


def change_text(change: Change) -> str:
    """Return one change as a line of text."""
    where = f"{change.line}: " if change.line else ""
    why = f" ({change.reason})" if change.reason else ""
    return f"{where}{change.what} {change.before} -> {change.after}{why}"


def _shop_has_changed(before: Estimate, shop_dir: Path) -> list[str]:
    """Return what the shop's book says now that the quote was not built from; the quote keeps its own."""
    old, new = settings_of(before.shop), settings_of(load_shop(shop_dir))
    moved = [name for name in old if name in new and old[name] != new[name]]
    said = "the shop's book says otherwise today (the costing book counts):"
    return [said, *(f"  {name} {old[name]} -> {new[name]}" for name in moved)] if moved else []


def _files(directory: Path, names: list[str]) -> list[str]:
    return [f"files in {directory}", *(f"  {name}" for name in names)]
