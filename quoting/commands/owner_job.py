"""The owner's page over many results."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from quoting.books import OutputFolder, write_owner
from quoting.core import InputError, Place
from quoting.record import OwnersFigures, owners_figures, read_record

RECORDS = "result*.json"


def owner_job(results: Path, out_dir: Path, *, force: bool) -> int:
    """Write the owner's book from every record below a folder; return the exit code."""
    paths = sorted(results.rglob(RECORDS)) if results.is_dir() else []
    if not paths:
        raise InputError(
            f"holds no {RECORDS}",
            place=Place(str(results)),
            would_do="give the folder that the runs wrote their results into",
        )
    found = owners_figures([read_record(path) for path in paths])
    name = f"owner-{found.last:%Y-%m-%d}.xlsx"
    folder = OutputFolder(out_dir, force=force)
    folder.write({name: partial(write_owner, found)})
    print("\n".join([*_summary(found), f"files in    {folder.directory}", f"            {name}"]))
    return 0


def _summary(found: OwnersFigures) -> list[str]:
    total = found.total
    under = sum(line.under_floor for line in found.lines)
    return [
        f"results     {found.results}, {found.left_out} replaced or given twice",
        f"quoted      {total.sold:,.2f} {found.currency} over {total.lines} lines",
        f"profit      {total.profit:,.2f}, {total.margin:.1%} of the price, {total.an_hour:,.2f} a roll hour",
        f"under floor {under} lines",
    ]
