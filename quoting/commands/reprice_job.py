"""A costing book that came back: read, checked, priced again, and written as the next revision."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from quoting.books import OutputFolder, ReturnedCosting
from quoting.commands.quote_files import quote_writers, record_writer
from quoting.core import InputError, Place
from quoting.estimating import Change, Estimate, large_totals, revise
from quoting.pricing import settings_of
from quoting.record import planned_days, read_record
from quoting.recording import make_record, unpack
from quoting.shop import load_shop


@dataclass(frozen=True, slots=True)
class RepriceRequest:
    """What came back and where the revision goes; with `shop_dir` the shop's book of now is looked at too."""

    costing: Path
    record: Path
    out_dir: Path
    today: date
    shop_dir: Path | None = None
    force: bool = False


def reprice_job(request: RepriceRequest) -> int:
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
    writers = quote_writers(after, planned_days(record.schedule))
    name = f"result-rev{after.revision.number}.json"
    folder.write(writers | {name: record_writer(revised)})
    asked = large_totals(after.orders, after.shop)
    notes = _shop_has_changed(before, request.shop_dir) if request.shop_dir else []
    print("\n".join([*_changes(after), *asked, *notes, *_files(folder.directory, [*writers, name])]))
    return 1 if asked else 0


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
