"""Records of runs, kept whole: compressed JSON in one column."""

from __future__ import annotations

import zlib
from typing import Any

from sqlalchemy import Connection, insert, select

from quoting.core import Place
from quoting.ledger.sound import damaged
from quoting.ledger.tables import RUNS
from quoting.record import RunRecord, record_of, record_text

QUOTE = "quote"
JOB = "job"
MOST_BYTES = 200_000_000
"""More than this is not unpacked: no record is so long."""


def packed(record: RunRecord) -> bytes:
    """Return a record as compressed JSON."""
    return zlib.compress(record_text(record), 6)


def unpacked(data: bytes) -> RunRecord:
    """Return the record in compressed JSON; InputError when it is damaged."""
    place = Place("the ledger")
    try:
        text = zlib.decompressobj().decompress(data, MOST_BYTES)
    except (zlib.error, TypeError) as error:
        raise damaged("the record of a run cannot be read") from error
    return record_of(text, place)


def keep_run(connection: Connection, kind: str, record: RunRecord) -> int:
    """Keep a record and return its number; the very same result is kept once."""
    result = record.id
    known = connection.execute(
        select(RUNS.c.id, RUNS.c.record).where(RUNS.c.result == result, RUNS.c.kind == kind)
    ).all()
    data = packed(record)
    for row in known:
        if row.record == data:
            return int(row.id)
    made = connection.execute(
        insert(RUNS).values(kind=kind, result=result, day=record.made.today.isoformat(), record=data)
    )
    return key_of(made)


def run_record(connection: Connection, run: int) -> RunRecord:
    """Return the record of a run by its number."""
    return unpacked(connection.execute(select(RUNS.c.record).where(RUNS.c.id == run)).scalar_one())


def key_of(made: Any) -> int:
    """Return the number that the database gave to a row just written."""
    return int(made.inserted_primary_key[0])
