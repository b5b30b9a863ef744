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
from quoting.ledger.rack_now import RackNow, with_ids
from quoting.ledger.store import FILE, Store
from quoting.shop import LedgerSettings, Shop, load_ledger_settings, rack_files


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

    def rack_now(self, shop: Shop) -> RackNow:
        """Return the rack's file as it is now; `shop` is as it was read from it, nothing left out."""
        digest, files = hashlib.sha256(), rack_files(self.shop_dir)
        for path in files:
            digest.update(path.read_bytes())
        return RackNow(digest.hexdigest()[:16], files[0].name if files else "", with_ids(shop.stock))


def ledger_of(shop_dir: Path) -> Ledger:
    """Return the ledger of a shop's folder; InputError when `[ledger]` of the shop's book cannot be used."""
    settings = load_ledger_settings(shop_dir)
    store = Store(None, settings.url) if settings.url else Store(Path(shop_dir) / FILE)
    return Ledger(Path(shop_dir), settings, store)
