"""Reads a shop folder: its book, `shop.xlsx` or `shop.toml`, and the rack beside it, into one `Shop`."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from quoting.core import InputError, Place
from quoting.shop.book import BookTables, read_ledger_settings, read_tables, tables_of_text
from quoting.shop.forms import own_in_text, read_workbook, worked_out_in_text
from quoting.shop.model import LedgerSettings, Shop
from quoting.shop.rack import Rack, read_rack
from quoting.tables import read_own_text

BOOK, WORKBOOK = "shop.toml", "shop.xlsx"
_NO_BOOK = "name the folder that holds shop.xlsx or shop.toml, or start one with `rollwright init DIR`"
_RACKS = ("rack.xlsx", "rack.ods", "rack.xls", "rack.csv")


def load_shop(directory: Path) -> Shop:
    """Return the shop described in a folder by `shop.xlsx` or `shop.toml`, with its rack.

    A setting that the shop leaves out takes the starter book's example value, with a warning in
    `Shop.warnings`; rack rows that cannot be used are left out with a warning too. Raises InputError when a
    file is missing or does not open, and BookError (an InputError) naming every problem of the book at once.
    """
    directory = Path(directory)
    shop = read_tables(_tables(directory))
    files = rack_files(directory)
    if files:
        rack = read_rack(files, shop.materials, inch=shop.inch, remnant_share=shop.cutting.drop_value_share)
    else:
        rack = Rack((), (f"{directory.name} holds no rack.xlsx: nothing in stock, nothing to buy",))
    return replace(shop, stock=rack.plates, warnings=(*shop.warnings, *rack.warnings))


def load_ledger_settings(directory: Path) -> LedgerSettings:
    """Return `[ledger]` of the shop's book; InputError as `load_shop` raises it."""
    return read_ledger_settings(_tables(Path(directory)))


def book_tables(directory: Path) -> tuple[BookTables, frozenset[str]]:
    """Return the tables of a shop's book in either form, and the settings that it calls its own.

    Raises InputError when there is none, when there are two, or when it cannot be read at all.
    """
    text = _text_form(directory)
    return read_workbook(directory / WORKBOOK) if text is None else (_tables_of(text), own_in_text(text))


def _tables(directory: Path) -> BookTables:
    """Return the tables of a shop's book alone: which settings are its own takes long to tell."""
    text = _text_form(directory)
    return read_workbook(directory / WORKBOOK)[0] if text is None else _tables_of(text)


def _tables_of(text: str) -> BookTables:
    return replace(tables_of_text(text, BOOK), worked_out=worked_out_in_text(text))


def _text_form(directory: Path) -> str | None:
    """Return the text of a shop's book; None when it is a workbook."""
    if not (directory / WORKBOOK).exists():
        return read_own_text(directory / BOOK, "the shop's book", missing=_NO_BOOK)
    if (directory / BOOK).exists():
        raise InputError(
            f"the shop's book is there twice, as {WORKBOOK} and as {BOOK}",
            place=Place(str(directory)),
            would_do=f"move {BOOK} away to go on with the workbook, or {WORKBOOK} to go on with the text",
        )
    return None


def rack_files(directory: Path) -> tuple[Path, ...]:
    """Return the file or files that hold the rack of a shop's folder; none when it has no rack."""
    first = next((directory / name for name in _RACKS if (directory / name).is_file()), None)
    if first is None:
        return ()
    buyable = directory / "buyable.csv"
    return (first, buyable) if first.suffix == ".csv" and buyable.is_file() else (first,)
