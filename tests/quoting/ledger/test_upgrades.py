"""A ledger of every shape that the program ever wrote, with data in it, brought to the shape of today."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, MetaData, Table, insert, select, text

from quoting.ledger import (
    LedgerStop,
    RackNow,
    change_job,
    jobs_of,
    keep_jobs,
    keep_plan,
    keep_stops,
    last_plan,
    lines_of,
    plates_of,
    run_record,
    stops_of,
)
from quoting.ledger.store import NEWEST, Store, _config
from quoting.ledger.tables import METADATA
from tests.quoting.ledger.weeks import quoted

SHAPES = sorted(step.revision for step in ScriptDirectory.from_config(_config()).walk_revisions())
ROWS = (1, 2, 3)
NEVER_WRITTEN = {"minutes"}
"""Tables of older shapes that no program ever put a row into, and that a later shape has no more."""

Rows = dict[str, list[dict[str, Any]]]


def shaped_as(store: Store, shape: str, rows: Rows | None = None) -> Rows:
    """Begin a ledger in an older shape and fill it; return what was written, by table.

    `rows` are those of a ledger of today, of which an older shape takes the columns it had; without them
    every column of every table is filled with values that are easily lost.
    """
    engine = store._engine()
    written: Rows = {}
    with engine.connect() as connection:
        if store.file is not None:
            connection.exec_driver_sql("BEGIN IMMEDIATE")
        config = _config()
        config.attributes["connection"] = connection
        command.upgrade(config, shape)
        found = MetaData()
        found.reflect(connection)
        for table in found.sorted_tables:
            if table.name in {"alembic_version", *NEVER_WRITTEN}:
                continue
            given = rows[table.name] if rows else [hard_row(table, k) for k in ROWS]
            kept = [
                {column.name: row[column.name] for column in table.c if column.name in row} for row in given
            ]
            if kept:
                connection.execute(insert(table), kept)
            written[table.name] = kept
            if connection.dialect.name == "postgresql" and "id" in table.c:
                connection.execute(
                    text(
                        f"SELECT setval(pg_get_serial_sequence('{table.name}', 'id'),"
                        f" (SELECT coalesce(max(id), 0) + 1 FROM {table.name}), false)"
                    )
                )
        connection.commit()
    engine.dispose()
    return written


def hard_row(table: Table, k: int) -> dict[str, Any]:
    return {column.name: hard_value(table, column, k) for column in table.c}


def hard_value(table: Table, column: Any, k: int) -> Any:
    kind = column.type.python_type
    if column.foreign_keys or column.name == "id":
        return k
    if column.nullable and k == ROWS[-1]:
        return None
    if kind is str:
        longest = column.type.length
        return f"{k:08d}"[:longest] if longest else f"{column.name} {k}: ½ × 48\" 'é' \\ 不锈钢\n=1+1"
    return {bool: k % 2 == 0, int: k * 1_000_003, float: k / 3, bytes: bytes(range(256)) * k}[kind]


def test_the_newest_shape_is_the_last_of_the_migrations() -> None:
    assert ScriptDirectory.from_config(_config()).get_current_head() == NEWEST


def everything(connection: Connection) -> Rows:
    return {
        table.name: [
            dict(row) for row in connection.execute(select(table).order_by(*table.primary_key)).mappings()
        ]
        for table in METADATA.sorted_tables
    }


@pytest.mark.parametrize("shape", SHAPES)
def test_every_value_of_every_shape_is_there_after_it_is_opened(store: Store, shape: str) -> None:
    before = shaped_as(store, shape)
    assert all(len(rows) == len(ROWS) for rows in before.values())
    with store.reading() as ledger:
        assert compare_metadata(MigrationContext.configure(ledger), METADATA) == []
        after = everything(ledger)
    for name, rows in before.items():
        assert [{key: row[key] for key in rows[0]} for row in after[name]] == rows, name
    assert all(not after[name] for name in after.keys() - before.keys()), "a new table begins empty"


def worked_on(connection: Connection) -> None:
    """A week in a shop: two quotes, jobs of one, a job cut and one dropped, a plan, a roll down."""
    quoted(connection, "Vessels", "Ducts")
    lines = [line for line in lines_of(connection) if line.customer == "Vessels"]
    record = run_record(connection, lines[0].run)
    keep_jobs(connection, record, lines, "PO 7", "2026-12-01", {lines[0].line: "2026-12-10"})
    one, two, _ = jobs_of(connection)
    change_job(connection, one, RackNow("digest"), state="cut", since="2026-12-02 08:00", rank=1)
    change_job(connection, two, state="dropped", since="2026-12-02 08:00")
    keep_plan(connection, "2026-12-01 06:00", "2026-12-01 06:00", "12.50", {"works": {"x": [1, "½"]}})
    keep_stops(connection, [LedgerStop("2026-12-02 06:00", "2026-12-02 14:00", "Heavy", reason="gearbox")])


def told(connection: Connection) -> tuple[Any, ...]:
    """What the program reads from a ledger."""
    lines = lines_of(connection)
    return (
        lines,
        jobs_of(connection, closed=True),
        plates_of(connection),
        stops_of(connection),
        last_plan(connection),
        [run_record(connection, run) for run in sorted({line.run for line in lines})],
    )


@pytest.mark.parametrize("shape", SHAPES)
def test_a_shop_goes_on_where_it_was_after_an_upgrade(store: Store, shape: str, tmp_path: Path) -> None:
    today = Store(tmp_path / "today.db")
    with today.writing("test") as ledger:
        worked_on(ledger)
        rows, before = everything(ledger), told(ledger)
    shaped_as(store, shape, rows)
    with store.writing("test") as ledger:
        assert told(ledger) == before
        (issued,) = quoted(ledger, "Tank Works", result="two", today=date(2026, 11, 30))
        assert issued.number == "20261130-03"
    with store.reading() as ledger:
        assert {line.line[0] for line in lines_of(ledger)} == {"A", "B", "C"}
