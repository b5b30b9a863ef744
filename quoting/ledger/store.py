"""The ledger's database: opened, brought to this program's shape, and changed in one transaction a command.

SQLite beside the shop's book, or PostgreSQL where `[ledger] url` says so; nothing else knows which. A command
takes the right to write when it begins and gives it up when it has written everything or nothing: on SQLite
that is BEGIN IMMEDIATE (SQLite, "Transactions", sqlite.org/lang_transaction.html), on PostgreSQL an advisory
lock of the transaction (PostgreSQL documentation, "Explicit Locking"). A process that is killed leaves
neither behind. SQLite is not opened on a network share (sqlite.org/useovernet.html).
"""

from __future__ import annotations

import getpass
import os
import socket
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sqlalchemy import Connection, Engine, create_engine, event, inspect, text
from sqlalchemy.exc import ArgumentError, DBAPIError, OperationalError, SQLAlchemyError
from sqlalchemy.pool import NullPool

from quoting.core import InputError, Place, on_one_line

if TYPE_CHECKING:
    from alembic.config import Config

FILE = "ledger.db"
HELD = ".ledger-held"
WAIT_SECONDS = 60.0
_KEY = 7_262_026
"""The advisory lock's number on PostgreSQL: any that no other program of the database uses."""

NEWEST = "0002"
"""The shape that the last of the migrations makes."""
_SHAPE = "alembic_version"
"""The table in which a ledger says which shape it has."""
_MIGRATIONS = str(Path(__file__).parent / "migrations")
_NETWORK = ("nfs", "nfs4", "cifs", "smb", "smbfs", "fuse.sshfs", "9p", "afs")
_WAY_BACK = "bring back a dated copy with `rollwright ledger restore`, or look at the file with its keeper"


@dataclass(frozen=True, slots=True)
class Store:
    """Where a ledger is: a file, or the address of a server. `wait` is how long a command waits, s."""

    file: Path | None
    url: str = ""
    wait: float = WAIT_SECONDS

    @property
    def place(self) -> Place:
        """Return what to call it in a message; an address never shows its password."""
        return Place(str(self.file) if self.file else "the ledger's server ([ledger] url)")

    @property
    def exists(self) -> bool:
        """Return whether it was begun; a server always is."""
        return self.file is None or self.file.is_file()

    @contextmanager
    def writing(self, what: str) -> Iterator[Connection]:
        """Yield a connection in the one transaction of a command; `what` is who holds it, for the others.

        The ledger is begun, or brought to this program's shape, when need be. Raises InputError when it
        cannot be opened, is damaged, is of a newer program, or is held by another command too long.
        """
        new, engine = not self.exists, self._engine()
        try:
            with self._told(), engine.connect() as connection, _held(self, connection, what):
                shaped(connection, self.place)
                yield connection
                connection.commit()
        finally:
            engine.dispose()
            if new:
                self._forget_empty()

    def _forget_empty(self) -> None:
        """Remove the file that opening a ledger has made, when nothing was written into it."""
        with suppress(OSError):
            if self.file is not None and self.file.stat().st_size == 0:
                self.file.unlink()

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Yield a connection that only looks; the ledger must have been begun."""
        if not self.exists:
            raise InputError(
                "there is no ledger yet", place=self.place, would_do="run or quote once without --no-ledger"
            )
        with self.writing("looking") as connection:
            yield connection

    def _engine(self) -> Engine:
        if self.file is not None:
            _local(self.file)
            return _sqlite(self.file, self.wait)
        try:
            return create_engine(
                self.url,
                poolclass=NullPool,
                hide_parameters=True,
                connect_args={"connect_timeout": 10, "application_name": "rollwright"},
            )
        except (ArgumentError, SQLAlchemyError, ValueError, ModuleNotFoundError) as error:
            raise InputError(
                "is no address of a database",
                place=self.place,
                read=type(error).__name__,
                would_do="write postgresql+psycopg://user@host/database, special signs in a password as %40",
            ) from None

    @contextmanager
    def _told(self) -> Iterator[None]:
        """Say what is wrong with the database in one message that never shows an address."""
        try:
            yield
        except OperationalError as error:
            raise InputError(
                "cannot be opened" if self.file is None else "cannot be written",
                place=self.place,
                read=_first_line(error),
                would_do="see that it runs and that you may write to it, or give --no-ledger",
            ) from None
        except DBAPIError as error:
            raise InputError(
                "is damaged or is no ledger",
                place=self.place,
                read=_first_line(error),
                would_do=_WAY_BACK,
            ) from None
        except UnicodeDecodeError:
            raise InputError(
                "is damaged: a text in it is none", place=self.place, would_do=_WAY_BACK
            ) from None
        except SQLAlchemyError as error:
            raise InputError(
                "does not fit this program",
                place=self.place,
                read=_first_line(error),
                would_do=_WAY_BACK,
            ) from None


def shaped(connection: Connection, place: Place) -> None:
    """Bring a ledger to this program's shape; InputError when a newer program has written it."""
    if _is_newest(connection):
        return
    from alembic import command  # noqa: PLC0415 - slow to load, and a ledger is of the newest shape but once
    from alembic.migration import MigrationContext  # noqa: PLC0415

    head, known = _steps()
    shapes = MigrationContext.configure(connection).get_current_heads()
    if len(shapes) > 1:
        raise InputError(
            "is damaged: it says of itself that it has two shapes",
            place=place,
            read=on_one_line(", ".join(map(str, shapes)), 60),
            would_do=_WAY_BACK,
        )
    now = shapes[0] if shapes else None
    if now == head:
        return
    if now is not None and now not in known:
        raise InputError(
            f"was written by a newer program (shape {on_one_line(str(now), 60)}; this one knows {head})",
            place=place,
            would_do="install that version, or bring back an older copy with `rollwright ledger restore`",
        )
    config = _config()
    config.attributes["connection"] = connection
    command.upgrade(config, "head")


def _is_newest(connection: Connection) -> bool:
    if not inspect(connection).has_table(_SHAPE):
        return False
    return connection.execute(text(f"SELECT version_num FROM {_SHAPE}")).scalars().all() == [NEWEST]


def _config() -> Config:
    from alembic.config import Config  # noqa: PLC0415 - slow to load

    config = Config()
    config.set_main_option("script_location", _MIGRATIONS.replace("%", "%%"))
    return config


@cache
def _steps() -> tuple[str | None, frozenset[str]]:
    """Return the newest shape that this program knows, and all of them."""
    from alembic.script import ScriptDirectory  # noqa: PLC0415 - slow to load

    found = ScriptDirectory.from_config(_config())
    return found.get_current_head(), frozenset(step.revision for step in found.walk_revisions())


def _sqlite(file: Path, wait: float) -> Engine:
    engine = create_engine(
        f"sqlite:///{file}",
        poolclass=NullPool,
        hide_parameters=True,
        connect_args={"timeout": min(wait, 0.2), "isolation_level": None},
    )

    @event.listens_for(engine, "connect")
    def _checked(connection: Any, _record: Any) -> None:
        connection.execute("PRAGMA foreign_keys = ON")

    return engine


@contextmanager
def _held(store: Store, connection: Connection, what: str) -> Iterator[None]:
    """Take the right to write, waiting for another command; say who has it when that takes too long."""
    me = f"{what} by {_user()} on {socket.gethostname()}, process {os.getpid()}"
    ends = time.monotonic() + store.wait
    while not _taken(store, connection, me):
        if time.monotonic() > ends:
            raise InputError(
                f"is held by another command: {_holder(store, connection)}",
                place=store.place,
                would_do="wait until it has ended and run again",
            )
        time.sleep(0.1)
    note = store.file.with_name(HELD) if store.file else None
    if note is not None:
        with suppress(OSError):
            note.write_text(me, encoding="utf-8")
    try:
        yield
    except BaseException:
        connection.rollback()
        raise
    finally:
        if note is not None:
            with suppress(OSError):
                note.unlink()


def _taken(store: Store, connection: Connection, me: str) -> bool:
    if store.file is None:
        # application_name is cut at 63 signs by the server
        connection.execute(text("SELECT set_config('application_name', :me, false)"), {"me": me[:63]})
        taken = connection.execute(text("SELECT pg_try_advisory_xact_lock(:key)"), {"key": _KEY}).scalar()
        if not taken:
            connection.rollback()
        return bool(taken)
    try:
        connection.exec_driver_sql("BEGIN IMMEDIATE")
    except OperationalError as error:
        connection.rollback()
        if "locked" in str(error.orig):
            return False
        raise
    return True


def _holder(store: Store, connection: Connection) -> str:
    if store.file is not None:
        try:
            return store.file.with_name(HELD).read_text(encoding="utf-8")[:200]
        except (OSError, UnicodeDecodeError):
            return "unknown"
    found = connection.execute(
        text(
            "SELECT a.application_name FROM pg_locks l JOIN pg_stat_activity a ON a.pid = l.pid"
            " WHERE l.locktype = 'advisory' AND l.objid = :key AND l.granted"
        ),
        {"key": _KEY},
    ).scalar()
    connection.rollback()
    return str(found or "unknown")


def _user() -> str:
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return "somebody"


def _first_line(error: Exception) -> str:
    """Return the first line of an error; one that may show a part of an address is told by its name only."""
    line = next(iter(str(getattr(error, "orig", error)).splitlines()), "")[:120]
    return type(error).__name__ if not line or "@" in line or "://" in line else line


def _local(file: Path) -> None:
    """Refuse a file on a network share, where SQLite's locks cannot be trusted."""
    with suppress(OSError):
        best = ("", "")
        for row in Path("/proc/mounts").read_text(encoding="utf-8").splitlines():
            _, point, kind, *_ = row.split()
            if file.resolve().is_relative_to(point) and len(point) > len(best[0]):
                best = (point, kind)
        if best[1] in _NETWORK or best[1].startswith("fuse.smb"):
            raise InputError(
                f"lies on a network share ({best[1]}), where a ledger file can be damaged",
                place=Place(str(file)),
                would_do="keep the shop's folder on this machine's own disk, or let [ledger] url in shop.toml"
                " point at a PostgreSQL server; or give --no-ledger",
            )
