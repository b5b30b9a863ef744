"""The ledger of a shop's folder."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from sqlalchemy import Connection

from quoting.ledger.copies import keep_copy
from quoting.ledger.store import FILE, Store
from quoting.shop import LedgerSettings, load_ledger_settings, rack_files


@dataclass(frozen=True, slots=True)
class Ledger:
    """The ledger of one shop: where it is kept and what the shop's book says about it."""

    shop_dir: Path
    settings: LedgerSettings
    store: Store

    @contextmanager
    def writing(self, what: str) -> Iterator[Connection]:
        """Yield a connection in the one transaction of a command, after the copy of the day was kept.

        Raises InputError when the ledger cannot be opened, is damaged, newer, or held by another command.
        """
        with self.store.writing(what) as connection:
            keep_copy(connection, self.shop_dir, date.today(), self.settings.copies_kept)
            yield connection

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Yield a connection that only looks; InputError when there is no ledger yet."""
        with self.store.reading() as connection:
            yield connection

    def rack_state(self) -> str:
        """Return a short digest of the rack's files: another one when somebody changed them."""
        digest = hashlib.sha256()
        for path in rack_files(self.shop_dir):
            digest.update(path.read_bytes())
        return digest.hexdigest()[:16]


def ledger_of(shop_dir: Path) -> Ledger:
    """Return the ledger of a shop's folder; InputError when `[ledger]` of the shop's book cannot be used."""
    settings = load_ledger_settings(shop_dir)
    store = Store(None, settings.url) if settings.url else Store(Path(shop_dir) / FILE)
    return Ledger(Path(shop_dir), settings, store)
