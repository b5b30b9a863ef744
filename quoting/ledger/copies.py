"""Dated copies of the ledger, bringing one back, and everything as plain tables.

A copy is a SQLite file of its own, also when the ledger is on a server, so it also moves a ledger from one to
the other. What was given out, quote numbers and letters of line ids, is not taken back with a copy.
"""

from __future__ import annotations

import csv
import os
import sqlite3
from collections.abc import Mapping
from contextlib import closing
from datetime import date, datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Integer, delete, func, insert, select, text

from quoting.core import InputError, Place
from quoting.ledger.store import Store
from quoting.ledger.tables import METADATA, NUMBERS

FOLDER = "ledger-copies"
AHEAD = 100
"""How far counts jump when a copy replaces a ledger that cannot be read: who knows what was given out."""

_ROWS = 500


def keep_copy(connection: Connection, shop_dir: Path, day: date, keep: int) -> Path | None:
    """Copy the ledger as it is, once a day, and remove all but the newest copies; None when there is one."""
    folder = shop_dir / FOLDER
    path = folder / f"ledger-{day:%Y-%m-%d}.db"
    if path.exists() or not connection.execute(select(func.count()).select_from(NUMBERS)).scalar_one():
        return None
    draft = path.with_suffix(".part")
    try:
        folder.mkdir(exist_ok=True)
        draft.unlink(missing_ok=True)
        _copy_out(connection, draft)
        os.replace(draft, path)
    except (OSError, sqlite3.Error) as error:
        raise InputError(
            f"no copy of the ledger can be kept ({getattr(error, 'strerror', '') or error})",
            place=Place(str(folder)),
            would_do="see that the folder can be written to",
        ) from error
    for old in copies(shop_dir)[:-keep]:
        old.unlink(missing_ok=True)
    return path


def _copy_out(connection: Connection, path: Path) -> None:
    """Write what other commands see of the ledger, before this one changed anything, to a new file."""
    if connection.dialect.name != "sqlite":
        with Store(path).writing("copying") as copy:
            _carry(connection, copy)
        return
    # page by page: a new ledger and its rows one by one took a quarter of a second
    own = Path(str(connection.engine.url.database)).absolute().as_uri()
    with (
        closing(sqlite3.connect(f"{own}?mode=ro", uri=True)) as source,
        closing(sqlite3.connect(path)) as target,
    ):
        source.backup(target)
        if (found := target.execute("PRAGMA quick_check(1)").fetchone()[0]) != "ok":
            raise sqlite3.DatabaseError(f"the ledger is damaged: {str(found).splitlines()[-1][:80]}")


def copies(shop_dir: Path) -> list[Path]:
    """Return the dated copies, oldest first."""
    return sorted((shop_dir / FOLDER).glob("ledger-*.db"))


def restore(store: Store, copy: Path) -> Path | None:
    """Make the ledger what a copy holds; return where a damaged ledger file was put aside.

    Raises InputError when the copy cannot be read; the ledger is then as it was.
    """
    if not copy.is_file():
        raise InputError(
            "there is no such copy", place=Place(str(copy)), would_do="see `rollwright ledger copies`"
        )
    aside = _put_aside(store)
    with Store(copy).writing("restoring") as source, store.writing("restoring") as target:
        given = _numbers(target)
        for table in reversed(METADATA.sorted_tables):
            target.execute(delete(table))
        _carry(source, target)
        mine = _numbers(target)
        target.execute(delete(NUMBERS))
        for what in given.keys() | mine.keys():
            last = max(given.get(what, 0), mine.get(what, 0) + (AHEAD if aside else 0))
            target.execute(insert(NUMBERS).values(day=what, last=last))
        _count_on(target)
    return aside


def _put_aside(store: Store) -> Path | None:
    """Move a ledger file that cannot be read out of the way."""
    if store.file is None or not store.file.exists():
        return None
    try:
        with store.writing("restoring") as connection:
            _numbers(connection)
    except InputError as error:
        if "is held by" in error.problem:
            raise
        aside = store.file.with_name(f"ledger-damaged-{datetime.now():%Y-%m-%d-%H%M%S}.db")
        os.replace(store.file, aside)
        return aside
    return None


def _numbers(connection: Connection) -> dict[str, int]:
    return {row.day: row.last for row in connection.execute(select(NUMBERS))}


def _carry(source: Connection, target: Connection) -> None:
    """Copy every row of every table into an empty ledger."""
    for table in METADATA.sorted_tables:
        found = source.execute(select(table)).mappings()
        while rows := found.fetchmany(_ROWS):
            target.execute(insert(table), [dict(row) for row in rows])


def _count_on(connection: Connection) -> None:
    """Let a server count its ids on from the rows that were copied in."""
    if connection.dialect.name != "postgresql":
        return
    for table in METADATA.sorted_tables:
        if "id" in table.c and isinstance(table.c.id.type, Integer):
            last = connection.execute(select(func.max(table.c.id))).scalar()
            connection.execute(
                text("SELECT setval(pg_get_serial_sequence(:table, 'id'), :last, :used)"),
                {"table": table.name, "last": last or 1, "used": last is not None},
            )


def tables_out(connection: Connection) -> Mapping[str, Any]:
    """Return a writer of a CSV file for every table, by file name; packed records are left out."""
    return {f"{table.name}.csv": _csv_writer(connection, table) for table in METADATA.sorted_tables}


def _csv_writer(connection: Connection, table: Any) -> Any:
    columns = [column for column in table.c if column.name != "record"]
    rows = connection.execute(select(*columns).order_by(*table.primary_key.columns)).all()

    def write(path: Path) -> None:
        with path.open("w", encoding="utf-8", newline="") as stream:
            out = csv.writer(stream)
            out.writerow([column.name for column in columns])
            out.writerows(tuple(_safe(value) for value in row) for row in rows)

    return write


def _safe(value: Any) -> Any:
    """Return a text so that no spreadsheet takes it for a formula."""
    return f"'{value}" if isinstance(value, str) and value[:1] in ("=", "+", "-", "@", "\t", "\r") else value
