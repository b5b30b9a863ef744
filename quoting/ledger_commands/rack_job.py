"""The rack as it stands now by the ledger: cut plates out, their drops in, promised plates named."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date
from functools import partial
from pathlib import Path

from sqlalchemy import Connection

from quoting.books import CUT, FREE, PROMISED, CutRun, OutputFolder, cut_sheets, remnants, write_rack_of_jobs
from quoting.core import InputError, Place
from quoting.ledger import RackNow, drops_given, ledger_of, nested_runs, run_record
from quoting.recording import unpack
from quoting.shop import load_shop, rack_files


def rack_job(shop_dir: Path, out_dir: Path, today: date, *, force: bool) -> int:
    """Write the copy of the rack; return the exit code."""
    shop, files, ledger = load_shop(shop_dir), rack_files(shop_dir), ledger_of(shop_dir)
    if not files:
        raise InputError("there is no rack file", place=Place(str(shop_dir)), would_do="list the rack first")
    folder = OutputFolder(out_dir, force=force)
    name = f"rack-{today:%Y-%m-%d}.xlsx"
    with folder.hold(), ledger.reading() as connection:
        runs = list(_runs(connection, ledger.rack_now(shop)))
        folder.write({name: partial(write_rack_of_jobs, shop, runs, files)})
    count = Counter(state for run in runs for state in run.states.values())
    drops = sum(run.states.get(one.from_plate) == CUT for run in runs for one in run.kept)
    rows = [
        f"cut         {count[CUT]} plates that are not out of the rack's file yet, {drops} drops put in",
        f"promised    {count[PROMISED]} plates, not cut yet",
        f"given back  {count[FREE]} plates of jobs that were dropped",
        f"files in    {folder.directory}",
        f"            {name}",
    ]
    print("\n".join(rows))
    return 0


def _runs(connection: Connection, rack: RackNow) -> Iterator[CutRun]:
    """Yield what was nested for jobs, how each plate stands, and the drops under the ids they were given."""
    for run in nested_runs(connection, rack):
        if not run.states:
            continue
        record = run_record(connection, run.run)
        if not record.archive:
            continue
        found = unpack(record.archive, Place("the ledger"))
        sheets = cut_sheets(found)
        kept = remnants(found, sheets, drops_given(connection, run.run))
        yield CutRun(found, sheets, kept, run.states)
