"""Reads a shop folder: `shop.toml` and the rack beside it, into one frozen `Shop`."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from quoting.shop.book import read_book, read_ledger_settings
from quoting.shop.model import LedgerSettings, Shop
from quoting.shop.rack import Rack, read_rack
from quoting.tables import read_own_text

BOOK = "shop.toml"
_NO_BOOK = "name the folder that holds shop.toml, or start one with `rollwright init DIR`"
_RACKS = ("rack.xlsx", "rack.ods", "rack.xls", "rack.csv")


def load_shop(directory: Path) -> Shop:
    """Return the shop described in a folder by `shop.toml` and `rack.xlsx` (or .ods, .xls, .csv).

    A setting that the shop leaves out takes the starter book's example value, with a warning in
    `Shop.warnings`; rack rows that cannot be used are left out with a warning too. Raises InputError when a
    file is missing or does not open, and BookError (an InputError) naming every problem of the book at once.
    """
    directory = Path(directory)
    shop = read_book(_book(directory), BOOK)
    files = rack_files(directory)
    if files:
        rack = read_rack(files, shop.materials, inch=shop.inch, remnant_share=shop.cutting.drop_value_share)
    else:
        rack = Rack((), (f"{directory.name} holds no rack.xlsx: nothing in stock, nothing to buy",))
    return replace(shop, stock=rack.plates, warnings=(*shop.warnings, *rack.warnings))


def load_ledger_settings(directory: Path) -> LedgerSettings:
    """Return `[ledger]` of the shop's book; InputError as `load_shop` raises it."""
    return read_ledger_settings(_book(Path(directory)), BOOK)


def _book(directory: Path) -> str:
    return read_own_text(directory / BOOK, "the shop's book", missing=_NO_BOOK)


def rack_files(directory: Path) -> tuple[Path, ...]:
    """Return the file or files that hold the rack of a shop's folder; none when it has no rack."""
    first = next((directory / name for name in _RACKS if (directory / name).is_file()), None)
    if first is None:
        return ()
    buyable = directory / "buyable.csv"
    return (first, buyable) if first.suffix == ".csv" and buyable.is_file() else (first,)
