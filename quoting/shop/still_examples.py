"""Which settings of a book are still the program's examples, and the book with each of them low and high.

How far off an example may be nobody publishes: a setting with a low and a high of its own is tried at those,
a figure of the machine a tenth lower and higher, every other a third lower and half as much higher. That is
our assumption, no source; it only ranks the settings.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from quoting.core import Place
from quoting.shop.book import PRICE_TABLES, UNIT_WORDS, BookTables, read_tables
from quoting.shop.findings import BookError, Findings, Rule
from quoting.shop.forms import setting_of, settings, starter_data
from quoting.shop.loader import book_tables, rack_files
from quoting.shop.model import Shop
from quoting.shop.rack import read_rack
from quoting.tables import toml_data

_MACHINE, _OTHER = (Decimal("0.9"), Decimal("1.1")), (Decimal("0.67"), Decimal("1.5"))
_NO_MONEY = frozenset(("shop", "shift", "closed", "ledger", "material", "working_time", "risk"))
"""Tables whose settings a price does not come from, or that hold no figures."""
_NUMBERS = frozenset(("number", "whole", "money", "share", "quantity", "money_per", "band"))


@dataclass(frozen=True, slots=True)
class StillExample:
    """A setting that is still an example: what it says, low and high, where it stands, how to find it."""

    name: str
    words: str
    sentence: str
    where: str
    now: str
    low: str
    high: str
    way: str
    path: tuple[str | int, ...]
    values: tuple[Any, Any]


@dataclass(frozen=True, slots=True)
class BookAtHand:
    """A shop's book that can be read again with one setting changed."""

    directory: Path
    tables: BookTables
    ours: frozenset[str]
    shop: Shop

    def with_value(self, example: StillExample, value: Any) -> Shop | None:
        """Return the shop with another value of an example; None where the book does not take it."""
        data = copy.deepcopy(self.tables.data)
        into: Any = data
        *way, last = example.path
        for step in way:
            into = into[step] if isinstance(step, int) else into.setdefault(step, {})
        into[last] = value
        try:
            found = read_tables(BookTables(data, self.tables.lines, Findings(self.tables.findings.file)))
        except BookError:
            return None
        priced = example.path[0] in PRICE_TABLES or example.name == "cutting.drop_value_share"
        stock = self._stock(found) if priced else self.shop
        return replace(found, stock=stock.stock)

    def _stock(self, shop: Shop) -> Shop:
        rack = rack_files(self.directory)
        if not rack:
            return shop
        share = shop.cutting.drop_value_share
        return replace(
            shop, stock=read_rack(rack, shop.materials, inch=shop.inch, remnant_share=share).plates
        )


def book_at_hand(directory: Path, shop: Shop) -> BookAtHand:
    """Return the book of a folder, already read as `shop`. InputError when it cannot be read."""
    tables, ours = book_tables(directory)
    return BookAtHand(directory, tables, ours, shop)


def still_examples(book: BookAtHand, grades: frozenset[str]) -> tuple[StillExample, ...]:
    """Return the settings with figures that are still examples; of the plate prices those of these grades."""
    return (*_plain(book), *_of_handling(book), *_of_rolls(book), *_prices(book, grades))


def _plain(book: BookAtHand) -> Iterator[StillExample]:
    data = book.tables.data
    for (table, key), setting in settings().items():
        top = table.partition(".")[0]
        if top in _NO_MONEY or top == "roll" or table == "labour.handling" or setting.value is None:
            continue
        own = data.get(table, {})
        named, value = _found(own, table, setting.key)
        if named is None:
            named, value = (setting.key, setting.value)
        elif not setting.is_example(named, value):
            continue
        if setting.example and f"{table}.{key}" not in book.ours:
            words = f"{table.replace('_', ' ').capitalize()}: {setting.words.lower()}"
            yield from _one(book, (table, named), words, setting.sentence, (value, setting.rule))


def _of_handling(book: BookAtHand) -> Iterator[StillExample]:
    table = "labour.handling"
    for at, row in enumerate(book.tables.data.get("labour", {}).get("handling", ())):
        limit = next(
            (f"{value} {key.removeprefix('up_to_')}" for key, value in row.items() if "up_to" in key), ""
        )
        for key, value in row.items():
            setting = setting_of(table, key)
            if (
                setting is not None
                and setting.rule.kind == "band"
                and f"{table}.{setting.key}" not in book.ours
            ):
                words = f"{setting.words}, pieces up to {limit}"
                path = ("labour", "handling", at, key)
                yield from _one(book, path, words, setting.sentence, (value, setting.rule))


def _of_rolls(book: BookAtHand) -> Iterator[StillExample]:
    for number, roll in enumerate(book.tables.data.get("roll", ())):
        named = roll.get("name", f"roll {number + 1}")
        parts: list[tuple[str, tuple[str | int, ...], Any]]
        parts = [("roll", (), roll), ("roll.slide", ("slide",), roll.get("slide", {}))]
        parts += [("roll.rated", ("rated", at), point) for at, point in enumerate(roll.get("rated", ()))]
        for table, inner, own in parts:
            for key, value in own.items():
                setting = setting_of(table, key)
                if setting is None or f"{table}.{setting.key}" in book.ours or "set_" in key[:4]:
                    continue
                if setting.is_example(key, value):
                    path = ("roll", number, *inner, key)
                    words = f"{named}: {setting.words.lower()}"
                    yield from _one(book, path, words, setting.sentence, (value, setting.rule))


def _prices(book: BookAtHand, grades: frozenset[str]) -> Iterator[StillExample]:
    usual = starter_data()["price_per_lb"]
    for table in PRICE_TABLES:
        for grade, value in book.tables.data.get(table, {}).items():
            if grade in grades and table == "price_per_lb" and value == usual.get(grade):
                sentence = "price of new plate of this grade; example"
                yield from _one(
                    book, (table, grade), f"{grade}: plate price", sentence, (value, Rule("money"))
                )


def _found(own: Mapping[str, Any], table: str, key: str) -> tuple[str | None, Any]:
    """Return the key and value of a setting in a table, in whatever unit it stands there."""
    wanted = setting_of(table, key)
    for name, value in own.items():
        if name == key or (wanted is not None and setting_of(table, name) == wanted):
            return name, value
    return None, None


def _one(
    book: BookAtHand, path: tuple[str | int, ...], words: str, sentence: str, held: tuple[Any, Rule]
) -> Iterator[StillExample]:
    value, rule = held
    table = ".".join(step for step in path[:-1] if isinstance(step, str))
    ends = _ends(value, rule, _MACHINE if path[0] == "roll" else _OTHER)
    if ends is None or rule.kind not in _NUMBERS:
        return
    key = str(path[-1])
    if rule.stem and key.removeprefix(f"{rule.stem}_") in UNIT_WORDS:
        words = f"{words} ({UNIT_WORDS[key.removeprefix(f'{rule.stem}_')]})"
    yield StillExample(
        name=f"{table}.{key}",
        words=words,
        sentence=sentence.removesuffix("; example"),
        where=_where(book.tables, path),
        now=_text(value),
        low=_text(ends[0]),
        high=_text(ends[1]),
        way=_way(table, key),
        path=path,
        values=ends,
    )


def _ends(value: Any, rule: Rule, factors: tuple[Decimal, Decimal]) -> tuple[Any, Any] | None:
    """Return a setting's low and high value; None when it has none (0, a text, a switch)."""
    if isinstance(value, list):
        spread = len(value) == 3 and value[0] != value[2] and rule.kind == "band"
        return ([value[0]] * 3, [value[2]] * 3) if spread else None
    if isinstance(value, bool) or not isinstance(value, (int, Decimal)) or not value:
        return None
    found = []
    for factor in factors:
        scaled = Decimal(f"{float(Decimal(value) * factor):.3g}")
        if rule.kind == "whole":
            scaled = Decimal(round(scaled))
        if rule.least is not None:
            scaled = max(scaled, Decimal(str(rule.least)))
        if rule.most is not None:
            scaled = min(scaled, Decimal(str(rule.most)))
        found.append(int(scaled) if isinstance(value, int) and scaled == int(scaled) else scaled)
    return (found[0], found[1]) if found[0] != found[1] else None


def _text(value: Any) -> str:
    if isinstance(value, list):
        return _text(value[0]) if len(set(value)) == 1 else " / ".join(_text(one) for one in value)
    return f"{float(value):.6g}"


def _where(tables: BookTables, path: tuple[str | int, ...]) -> str:
    """Return line, or sheet and cell; empty for a setting that the book leaves out."""
    way = ""
    for at, step in enumerate(path[:-1]):
        if isinstance(step, int):
            way += f"[{step + 1}]"
        else:
            way += f".{step}" if at else step
    line = tables.lines.get((way, str(path[-1])))
    return "left out" if line is None else f"line {line}" if isinstance(line, int) else str(line)


def _way(table: str, key: str) -> str:
    ways = _ways()
    if table in PRICE_TABLES:
        return ways["plate price"]
    setting = setting_of(table, key)
    stem = setting.stem if setting else key
    return ways.get(f"{table}.{key}") or ways.get(f"{table}.{stem}") or ways.get(table) or ways["roll"]


@cache
def _ways() -> Mapping[str, str]:
    text = files("quoting.shop").joinpath("starter", "floor_ways.toml").read_text("utf-8")
    data = toml_data(text, Place("floor_ways.toml"))["ways"]
    assert isinstance(data, dict)
    return data
