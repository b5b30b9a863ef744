"""The owner's page over many results, or over all that the ledger says went out."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from quoting.books import OutputFolder, write_owner
from quoting.core import InputError, Place
from quoting.record import OwnersFigures, RunRecord, owners_figures, read_record

RECORDS = "result*.json"


def owner_job(results: Path | None, shop_dir: Path | None, out_dir: Path, *, force: bool) -> int:
    """Write the owner's book from every record below a folder, else from the ledger; return the exit code."""
    if results is not None:
        records = _records_in(results)
    elif shop_dir is not None:
        records = _records_of(shop_dir)
    else:
        raise InputError(
            "neither a folder of results nor a shop is given",
            would_do="name the folder that the runs wrote into, or give --shop for what its ledger holds",
        )
    found = owners_figures(records)
    name = f"owner-{found.last:%Y-%m-%d}.xlsx"
    folder = OutputFolder(out_dir, force=force)
    folder.write({name: partial(write_owner, found)})
    print("\n".join([*_summary(found), f"files in    {folder.directory}", f"            {name}"]))
    return 0


def _records_of(shop_dir: Path) -> list[RunRecord]:
    from quoting.ledger import ledger_of, quoted_records  # noqa: PLC0415 - only with a ledger

    with ledger_of(shop_dir).reading() as connection:
        found = list(quoted_records(connection))
    if not found:
        raise InputError(
            "the ledger holds no quote yet", place=Place(str(shop_dir)), would_do="quote an order sheet first"
        )
    return found


def _records_in(results: Path) -> list[RunRecord]:
    paths = sorted(results.rglob(RECORDS)) if results.is_dir() else []
    if not paths:
        raise InputError(
            f"holds no {RECORDS}",
            place=Place(str(results)),
            would_do="give the folder that the runs wrote their results into",
        )
    return [read_record(path) for path in paths]


def _summary(found: OwnersFigures) -> list[str]:
    total = found.total
    under = sum(line.under_floor for line in found.lines)
    return [
        f"results     {found.results}, {found.left_out} replaced or given twice",
        f"quoted      {total.sold:,.2f} {found.currency} over {total.lines} lines",
        f"profit      {total.profit:,.2f}, {total.margin:.1%} of the price, {total.an_hour:,.2f} a roll hour",
        f"under floor {under} lines",
    ]
