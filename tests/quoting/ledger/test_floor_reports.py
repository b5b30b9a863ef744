"""What the floor wrote down, kept once a task, on either engine; a ledger of the first shape goes on."""

from __future__ import annotations

import zlib
from dataclasses import asdict, replace

import pytest
import sqlalchemy as sa
from alembic import command

from quoting.core import InputError
from quoting.ledger.floor_reports import (
    FloorReport,
    FloorTask,
    keep_report,
    plan_names,
    reports_of,
    tasks_of,
)
from quoting.ledger.plans import keep_plan, plan_of
from quoting.ledger.quotes import line_days, lines_of
from quoting.ledger.store import Store, _config
from tests.quoting.ledger.weeks import quoted

TASK = FloorTask("A-1", "roll", "A-1", "Medium", "2026-12-02 07:00", 20, 60, 4, {"first_off": 1.0})
REPORT = FloorReport("A-1", "roll", "A-1", "Medium", "2026-12-02", setup=18.0, planned=TASK, plan="1-0")


def test_a_report_is_kept_once_and_added_to(store: Store) -> None:
    with store.writing("test") as ledger:
        assert keep_report(ledger, REPORT, None) == REPORT
        (known,) = reports_of(ledger)
        assert known == REPORT
        assert keep_report(ledger, replace(REPORT, cells={"setup": "J5"}), known) is None, "nothing new"
        more = replace(REPORT, setup=None, run=71.0, good=4, cells={"run": "K5"})
        keep_report(ledger, more, known)
        (merged,) = reports_of(ledger)
    assert (merged.setup, merged.run, merged.good) == (18.0, 71.0, 4), "what was written down stays"
    assert merged.cells == {"run": "K5"}


def test_plans_have_names_and_tasks(store: Store) -> None:
    with store.writing("test") as ledger:
        keep_plan(ledger, "today", "2026-12-02 06:00", "1.00", {"works": {}})
        keep_plan(ledger, "today", "2026-12-03 06:00", "1.00", {"tasks": [asdict(TASK)]})
        old, new = plan_names(ledger).items()
        assert tasks_of(ledger, old[1]) == (), "a plan of an earlier program has none"
        assert tasks_of(ledger, new[1]) == (TASK,)
        assert old[0] != new[0]


def test_a_ledger_of_the_first_shape_keeps_its_customers(store: Store) -> None:
    engine = store._engine()
    with engine.begin() as connection:
        config = _config()
        config.attributes["connection"] = connection
        command.upgrade(config, "0001")
        connection.execute(sa.text("INSERT INTO customers (id, name) VALUES (7, 'Vessels')"))
        if connection.dialect.name == "postgresql":
            connection.execute(sa.text("SELECT setval('customers_id_seq', 7)"))
    engine.dispose()
    with store.writing("test") as ledger:
        quoted(ledger, "Ducts")
        assert len(lines_of(ledger)) == 3
        assert reports_of(ledger) == ()
        names = ledger.execute(sa.text("SELECT name FROM customers ORDER BY id")).scalars().all()
    assert names == ["Vessels", "Ducts"]


@pytest.mark.parametrize(
    "damage",
    [
        "scrap = 'x'",
        "day = '2026-13-45'",
        "planned = '[1'",
        "planned = '{}'",
        "cells = '[[[['",
        "setup = 'nan'",
    ],
)
def test_a_damaged_report_is_told_as_damage(store: Store, damage: str) -> None:
    with store.writing("test") as ledger:
        keep_report(ledger, REPORT, None)
        if ledger.dialect.name != "sqlite" and damage[:5] in ("scrap", "setup"):
            return  # this engine does not let a text into a column of numbers
        ledger.execute(sa.text(f"UPDATE actuals SET {damage}"))
        with pytest.raises(InputError, match="the ledger is damaged"):
            reports_of(ledger)
        ledger.rollback()


def test_a_day_of_a_quote_that_cannot_be_is_told_as_damage(store: Store) -> None:
    with store.writing("test") as ledger:
        quoted(ledger, "Ducts")
        ledger.execute(sa.text("UPDATE issues SET day = '2026-13-45'"))
        with pytest.raises(InputError, match="the ledger is damaged"):
            line_days(ledger)
        ledger.rollback()


def test_a_plan_that_would_fill_the_memory_is_told_as_damage() -> None:
    long = zlib.compressobj(9)
    with pytest.raises(InputError, match="the ledger is damaged"):
        plan_of(b"".join(long.compress(b" " * 1_000_000) for _ in range(100)) + long.flush())
