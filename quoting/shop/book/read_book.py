"""The text of `shop.toml` to a `Shop` without its stock, with every problem named at once."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import Any

from quoting.core import Ends, Paper, Place
from quoting.shop.book.grade_tables import PRICE_TABLES, odd_prices, read_materials
from quoting.shop.book.ledger_settings import read_ledger_settings
from quoting.shop.book.operations import (
    read_edges,
    read_freight,
    read_handwork,
    read_press,
    read_tolerance,
    read_welding,
)
from quoting.shop.book.promise_settings import read_promise
from quoting.shop.book.rolls import read_roll
from quoting.shop.book.settings import (
    read_cutting,
    read_labour,
    read_lifting,
    read_passes,
    read_pricing,
    read_rates,
    read_risk,
    read_setups,
)
from quoting.shop.book.settings_table import SettingsTable
from quoting.shop.book.tables_of_text import BookTables, tables_of_text
from quoting.shop.book.working_hours import read_working_time
from quoting.shop.findings import Rule, did_you_mean
from quoting.shop.model import Letterhead, Operations, Roll, Shop
from quoting.shop.quantities import LENGTH
from quoting.tables import toml_data

_READERS = {
    "rates": read_rates,
    "lifting": read_lifting,
    "setups": read_setups,
    "passes": read_passes,
    "cutting": read_cutting,
    "pricing": read_pricing,
    "risk": read_risk,
}
_OPERATIONS = {
    "edges": read_edges,
    "welding": read_welding,
    "handwork": read_handwork,
    "tolerance": read_tolerance,
    "freight": read_freight,
    "press": read_press,
}
TABLES = (
    "shop",
    "roll",
    *_READERS,
    *_OPERATIONS,
    "labour",
    "working_time",
    "shift",
    "closed",
    "material",
    "ledger",
    "promise",
    *PRICE_TABLES,
)
_LETTER = ("address", "contact", "payment", "delivery", "tolerances")
_ROLL_EXAMPLES = ("least_diameter_factor", "surface_speed_ft_min", "rate_per_hour")
_NO_EXAMPLE = {"shop": ("name", "note", *_LETTER, "choice_worths")}


class _Units(StrEnum):
    INCH = "inch"
    METRIC = "metric"


def read_book(text: str, file: str) -> Shop:
    """Return the shop that a `shop.toml` text describes, its stock still empty.

    Raises InputError when the text is no TOML, and BookError naming everything that is wrong with it.
    """
    return read_tables(tables_of_text(text, file))


def read_tables(tables: BookTables) -> Shop:
    """Return the shop that the tables of a book describe; BookError names everything wrong with them."""
    return _Book(tables).read()


def rules_of_starter() -> Mapping[tuple[str, str], Rule]:
    """Return what the readers take for each (table, setting) of the starter book, arrays without a number."""
    tables = tables_of_text(starter_text(), "the starter book")
    tables.data["material"] = [{"key": "A36", "hardening": Decimal("0.2"), "price_per_kg": Decimal(1)}]
    _Book(tables).read()
    read_ledger_settings(tables)
    return tables.findings.rules


def starter_text() -> str:
    """Return the text of the starter `shop.toml` that ships with the package."""
    return files("quoting.shop").joinpath("starter", "shop.toml").read_text("utf-8")


@cache
def _starter() -> Mapping[str, Any]:
    return toml_data(starter_text(), Place("the starter book"))


class _Book:
    """The parsed text of one `shop.toml`, with the starter book behind it for what is left out."""

    def __init__(self, tables: BookTables) -> None:
        self.findings, self.data, self.lines = tables.findings, tables.data, tables.lines
        self.starter = _starter()

    def read(self) -> Shop:
        self._unknown_tables()
        head = self._table("shop")
        common: dict[str, Any] = {
            "name": head.text("name"),
            "note": head.text("note", default=""),
            "inch": head.choice("units", _Units) is _Units.INCH,
            "paper": head.choice("paper", Paper).value,
            "default_ends": head.choice("default_ends", Ends),
            "default_weld_gap_mm": head.quantity("default_weld_gap", LENGTH, least=0.0),
            "letter": _letterhead(head),
            "plain_steel": head.text("plain_steel") if head.has("plain_steel") else "",
        }
        head.close()
        rolls = self._rolls()
        settings = self._settings(tuple(roll.name for roll in rolls))
        prices = [self._table(name) for name in PRICE_TABLES if name in self.data]
        materials = read_materials(self._array("material"), prices, self._table("", label="the grades"))
        if common["plain_steel"] not in ("", *(material.key for material in materials)):
            would_do = "the name of one of the shop's grades, such as A36, or an empty text to ask each time"
            head.wrong("plain_steel", f"names no grade of the book: {common['plain_steel']!r}", would_do)
        usual = {name: self.starter.get(name, {}) for name in PRICE_TABLES}
        self.findings.warnings.extend(f"{self.findings.file}: {one}" for one in odd_prices(materials, usual))
        self.findings.raise_if_any()
        return Shop(
            **common, rolls=rolls, materials=materials, warnings=tuple(self.findings.warnings), **settings
        )

    def _settings(self, rolls: tuple[str, ...]) -> dict[str, Any]:
        settings: dict[str, Any] = {}
        for key, read in _READERS.items():
            table = self._table(key)
            self._hush(table, key)
            settings[key] = read(table)
            table.close()
        settings["operations"] = Operations(**self._operations())
        promise = self._table("promise")
        promise.announce = "promise" in self.data
        settings["promise"] = read_promise(promise)
        promise.close()
        labour = self._table("labour")
        self._hush(labour, "labour")
        settings["labour"] = read_labour(labour, self._inner(labour, "handling"))
        labour.close()
        hours = self._table("working_time")
        shifts = self._array("shift") or self._example_shifts()
        settings["working_time"] = read_working_time(hours, shifts, self._array("closed"), rolls)
        hours.close()
        return settings

    def _operations(self) -> dict[str, Any]:
        """Return the work off the roll."""
        found: dict[str, Any] = {}
        for key, read in _OPERATIONS.items():
            table = self._table(key)
            self._hush(table, key)
            found[key] = read(table)
            table.close()
        return found

    def _hush(self, table: SettingsTable, key: str) -> None:
        """Make one warning, not twenty, of a table that the book does not have."""
        if key not in self.data:
            table.announce = False
            self.findings.warn(f"{self.findings.file} has no [{key}]: the examples are used")

    def _rolls(self) -> tuple[Roll, ...]:
        read: list[Roll] = []
        tables = self._array("roll")
        if not tables:
            self.findings.problem(
                self.findings.file, "has no [[roll]]", would_do="describe at least one roll"
            )
        for table in tables:
            slide = table.own.get("slide")
            slide_table = (
                self._make(slide, f"{table.label} [slide]", f"{table.path}.slide")
                if isinstance(slide, dict)
                else None
            )
            example = self.starter["roll"][0]
            table.fallback = {key: example[key] for key in _ROLL_EXAMPLES}
            table.announce = True
            rated = self._inner(table, "rated")
            for point in rated:
                point.fallback, point.announce = {"yield_ksi": example["rated"][0]["yield_ksi"]}, True
            roll = read_roll(table, rated, slide_table)
            if roll and roll.name in {other.name for other in read}:
                table.wrong("name", "two rolls of the same name", "give each roll its own name")
            if roll:
                read.append(roll)
        return tuple(read)

    def _unknown_tables(self) -> None:
        for key, value in self.data.items():
            if key not in TABLES:
                table = self._make({}, f"[{key}]" if isinstance(value, (dict, list)) else key, key)
                table.flawed(
                    "is not a table of the shop's book",
                    did_you_mean(key, TABLES) or f"known tables: {', '.join(TABLES)}",
                )

    def _table(self, key: str, *, label: str = "") -> SettingsTable:
        own = self.data.get(key, {})
        table = self._make(own if isinstance(own, dict) else {}, label or f"[{key}]", key)
        if not isinstance(own, dict):
            table.flawed(f"must be a table with the heading [{key}]")
        example = self.starter.get(key, {})
        table.fallback = {k: v for k, v in example.items() if k not in _NO_EXAMPLE.get(key, ())}
        table.announce = True
        return table

    def _array(self, key: str) -> list[SettingsTable]:
        rows = self.data.get(key, [])
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            self._make({}, key, key).flawed(f"must be tables with the heading [[{key}]]")
            return []
        return [
            self._make(row, _label(key, row), f"{key}[{number}]") for number, row in enumerate(rows, start=1)
        ]

    def _example_shifts(self) -> list[SettingsTable]:
        self.findings.warn(f"{self.findings.file} has no [[shift]]: the example is used")
        return [self._make(row, "[[shift]]", "") for row in self.starter["shift"]]

    def _inner(self, table: SettingsTable, key: str) -> list[SettingsTable]:
        return [
            self._make(row, f"{table.label} {key} {number}", f"{table.path}.{key}[{number}]")
            for number, row in enumerate(table.rows(key), start=1)
        ]

    def _make(self, own: Mapping[str, Any], label: str, path: str) -> SettingsTable:
        return SettingsTable(own, label=label, path=path, findings=self.findings, lines=self.lines)


def _letterhead(head: SettingsTable) -> Letterhead:
    texts = {name: head.text(name, default="") for name in _LETTER}
    return Letterhead(
        address=texts["address"],
        contact=texts["contact"],
        payment=texts["payment"],
        delivery=texts["delivery"],
        tolerances=texts["tolerances"],
        choice_worths=head.flag("choice_worths", default=False),
    )


def _label(key: str, row: Mapping[str, Any]) -> str:
    name = row.get("name", row.get("key", ""))
    return f'[[{key}]] "{name}"' if name else f"[[{key}]]"
