"""An empty ledger on each engine."""

from __future__ import annotations

import os
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import psycopg
import pytest

from quoting.ledger.store import Store
from tests.quoting.ledger.servers import NEEDED, programs, server

_names = count(1)


@pytest.fixture(scope="session")
def postgresql() -> Iterator[str]:
    if programs() is None:
        if os.environ.get(NEEDED):
            pytest.fail("no PostgreSQL server here")
        pytest.skip("no PostgreSQL server on this machine: the ledger is tried on SQLite only")
    with server() as folder:
        yield folder


@pytest.fixture(params=["sqlite", "postgresql"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Store:
    if request.param == "sqlite":
        return Store(tmp_path / "ledger.db", wait=10.0)
    folder = request.getfixturevalue("postgresql")
    name = f"shop{next(_names)}"
    with psycopg.connect(f"host={folder} user=rw dbname=postgres", autocommit=True) as connection:
        connection.execute(f"CREATE DATABASE {name}".encode())
    return Store(None, f"postgresql+psycopg://rw@/{name}?host={folder}", wait=10.0)
