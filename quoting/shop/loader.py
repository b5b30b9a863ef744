"""Reads a shop folder: `shop.toml` and the rack beside it, into one frozen `Shop`."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from decimal import Decimal
from enum import StrEnum
from importlib.resources import files
from pathlib import Path
from typing import Any

from quoting.errors import InputError, Place
from quoting.parts import Ends
from quoting.shop.findings import Findings, did_you_mean
from quoting.shop.hours import read_working_time
from quoting.shop.machines import read_roll
from quoting.shop.materials import find_material, published_grades, read_material
from quoting.shop.model import Material, Roll, Shop
from quoting.shop.quantities import KG_PER_POUND, LENGTH
from quoting.shop.rack import Rack, read_rack
from quoting.shop.settings import (
    read_cutting,
    read_labour,
    read_lifting,
    read_passes,
    read_pricing,
    read_rates,
    read_setups,
)
from quoting.shop.table import Table
from quoting.shop.toml_lines import line_numbers

BOOK = "shop.toml"
_RACKS = ("rack.xlsx", "rack.ods", "rack.xls", "rack.csv")
_PRICE_TABLES = {"price_per_lb": Decimal(str(KG_PER_POUND)), "price_per_kg": Decimal(1)}
_TABLES = (
    "shop",
    "roll",
    "rates",
    "labour",
    "lifting",
    "setups",
    "passes",
    "cutting",
    "pricing",
    "working_time",
    "shift",
    "closed",
    "material",
    *_PRICE_TABLES,
)


class Units(StrEnum):
    """What the shop reads sizes in."""

    INCH = "inch"
    METRIC = "metric"


class Paper(StrEnum):
    """What the shop prints on."""

    LETTER = "letter"
    A4 = "a4"


def load_shop(directory: Path) -> Shop:
    """Return the shop described in a folder by `shop.toml` and `rack.xlsx` (or .ods, .xls, .csv).

    A setting that the shop leaves out takes the starter book's example value, with a warning in
    `Shop.warnings`; rack rows that cannot be used are left out with a warning too. Raises InputError when a
    file is missing or does not open, and BookError (an InputError) naming every problem of the book at once.
    """
    directory = Path(directory)
    text = _read_book(directory / BOOK)
    shop = _Book(text, BOOK).read()
    rack_files = _rack_files(directory)
    rack = read_rack(rack_files, shop.materials, inch=shop.inch) if rack_files else Rack((), ())
    notes = () if rack_files else (f"{directory.name} holds no rack.xlsx: nothing in stock, nothing to buy",)
    return _with_stock(shop, rack, notes)


def _read_book(path: Path) -> str:
    try:
        return path.read_text("utf-8-sig")
    except FileNotFoundError as error:
        raise InputError(
            "the shop's book is missing",
            place=Place(str(path)),
            would_do="name the folder that holds shop.toml, or start one with `rollwright init DIR`",
        ) from error
    except (OSError, UnicodeDecodeError) as error:
        raise InputError("the shop's book cannot be read", place=Place(str(path)), read=str(error)) from error


def _rack_files(directory: Path) -> tuple[Path, ...]:
    first = next((directory / name for name in _RACKS if (directory / name).is_file()), None)
    if first is None:
        return ()
    buyable = directory / "buyable.csv"
    return (first, buyable) if first.suffix == ".csv" and buyable.is_file() else (first,)


def _with_stock(shop: Shop, rack: Rack, notes: tuple[str, ...]) -> Shop:
    from dataclasses import replace  # noqa: PLC0415

    return replace(shop, stock=rack.plates, warnings=(*shop.warnings, *notes, *rack.warnings))


class _Book:
    """The parsed text of one `shop.toml`, with the starter book behind it for what is left out."""

    def __init__(self, text: str, file: str) -> None:
        self.findings = Findings(file)
        self.data = _parse(text, file)
        self.lines = line_numbers(text)
        self.starter = _parse(starter_text(), "the starter book")

    def read(self) -> Shop:
        """Return the shop without its stock; raises BookError when anything is wrong."""
        self._unknown_tables()
        head = self._table("shop", needed=True)
        name, note = head.text("name"), head.text("note", default="")
        inch, paper = head.choice("units", Units) is Units.INCH, head.choice("paper", Paper).value
        ends = head.choice("default_ends", Ends)
        gap = head.quantity("default_weld_gap", LENGTH, least=0.0)
        head.close()
        rolls = self._rolls()
        settings = self._settings(tuple(roll.name for roll in rolls))
        materials = self._materials()
        self.findings.raise_if_any()
        return Shop(
            name=name,
            note=note,
            inch=inch,
            paper=paper,
            rolls=rolls,
            materials=materials,
            default_ends=ends,
            default_weld_gap_mm=gap,
            warnings=tuple(self.findings.warnings),
            **settings,
        )

    def _settings(self, rolls: tuple[str, ...]) -> dict[str, Any]:
        readers = {
            "rates": read_rates,
            "lifting": read_lifting,
            "setups": read_setups,
            "passes": read_passes,
            "cutting": read_cutting,
            "pricing": read_pricing,
        }
        settings: dict[str, Any] = {}
        for key, read in readers.items():
            table = self._table(key)
            settings[key] = read(table)
            table.close()
        labour = self._table("labour")
        settings["labour"] = read_labour(labour, self._inner(labour, "handling"))
        labour.close()
        hours = self._table("working_time")
        shifts = self._array("shift") or self._array("shift", starter=True)
        settings["working_time"] = read_working_time(hours, shifts, self._array("closed"), rolls)
        hours.close()
        return settings

    def _rolls(self) -> tuple[Roll, ...]:
        read: list[Roll] = []
        tables = self._array("roll")
        if not tables:
            self.findings.problem(
                self.findings.file, "has no [[roll]] table", would_do="describe at least one roll"
            )
        for table in tables:
            rated, slide = self._inner(table, "rated"), table.own.get("slide")
            slide_table = (
                self._make(slide, "[roll.slide]", f"{table.path}.slide") if isinstance(slide, dict) else None
            )
            roll = read_roll(table, tuple(rated), slide_table)
            if roll and roll.name in {other.name for other in read}:
                table.wrong("name", "two rolls of the same name")
            if roll:
                read.append(roll)
        return tuple(read)

    def _materials(self) -> tuple[Material, ...]:
        grades = published_grades()
        own = {str(table.own.get("key", "")): table for table in self._array("material")}
        prices = self._prices([*grades, *own])
        read: list[Material | None] = []
        for key in dict.fromkeys((*grades, *own)):
            fallback = grades.get(key, {})
            table = own.get(key) or self._make({}, f'grade "{key}"', "")
            table.fallback = fallback
            read.append(read_material(table, prices.get(key, Decimal(0))))
        return tuple(material for material in read if material)

    def _prices(self, keys: Sequence[str]) -> dict[str, Decimal]:
        prices: dict[str, Decimal] = {}
        for name, kg_per_unit in _PRICE_TABLES.items():
            if name not in self.data:
                continue
            table = self._table(name)
            for key in table.own:
                if key not in keys:
                    hint = did_you_mean(key, keys) or "add the grade as [[material]] first"
                    self.findings.problem(table.where(key), "is no material of this shop", would_do=hint)
                    continue
                if key in prices:
                    table.wrong(key, "has a price per lb and a price per kg", "keep one of them")
                prices[key] = (table.money(key) / kg_per_unit).quantize(Decimal("0.000001"))
        return prices

    def _unknown_tables(self) -> None:
        for key, value in self.data.items():
            if key not in _TABLES:
                line = self.lines.get((key, "")) or self.lines.get((f"{key}[1]", ""))
                line = line or self.lines.get(("", key))
                where = f"{self.findings.file} line {line}" if line else self.findings.file
                what = f"[{key}]" if isinstance(value, (dict, list)) else key
                hint = did_you_mean(key, _TABLES) or f"known tables: {', '.join(_TABLES)}"
                self.findings.problem(where, f"{what} is not a table of the shop's book", would_do=hint)

    def _table(self, key: str, *, needed: bool = False) -> Table:
        own = self.data.get(key, {})
        if not isinstance(own, dict):
            self.findings.problem(f"{self.findings.file}, {key}", f"must be a table, written [{key}]")
            own = {}
        if needed and not own:
            self.findings.problem(self.findings.file, f"[{key}] is missing")
        fallback = {k: v for k, v in self.starter.get(key, {}).items() if not _personal(key, k)}
        return self._make(own, f"[{key}]", key, fallback=fallback)

    def _array(self, key: str, *, starter: bool = False) -> list[Table]:
        rows = (self.starter if starter else self.data).get(key, [])
        if starter:
            self.findings.warnings.append(f"{self.findings.file} has no [[{key}]]: the example is used")
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            self.findings.problem(f"{self.findings.file}, {key}", f"must be written [[{key}]]")
            return []
        return [
            self._make(row, _label(key, row), f"{key}[{number}]") for number, row in enumerate(rows, start=1)
        ]

    def _inner(self, table: Table, key: str) -> list[Table]:
        rows = table.rows(key)
        name = table.path.split("[", maxsplit=1)[0]
        return [
            self._make(row, f"[[{name}.{key}]] {number}", f"{table.path}.{key}[{number}]")
            for number, row in enumerate(rows, start=1)
        ]

    def _make(
        self, own: Mapping[str, Any], label: str, path: str, *, fallback: Mapping[str, Any] | None = None
    ) -> Table:
        return Table(
            own,
            label=label,
            path=path,
            findings=self.findings,
            lines=self.lines,
            fallback=fallback,
            announce=fallback is not None,
        )


def starter_text() -> str:
    """Return the text of the starter `shop.toml` that ships with the package."""
    return files("quoting.shop").joinpath("starter", BOOK).read_text("utf-8")


def _parse(text: str, file: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise InputError(
            "is not valid TOML",
            place=Place(file),
            read=str(error),
            would_do="check quotation marks, brackets and that each key stands once in its table",
        ) from error


def _personal(table: str, key: str) -> bool:
    """Return whether a setting has no example value: a shop must say its own name."""
    return table == "shop" and key in ("name", "note")


def _label(key: str, row: Mapping[str, Any]) -> str:
    name = row.get("name", row.get("key", ""))
    return f'[[{key}]] "{name}"' if name else f"[[{key}]]"
