"""The tables of the book with several rows: rated points, weight bands, shifts, days off, prices, grades."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

from quoting.core import Place
from quoting.shop.book import PRICE_TABLES, starter_text
from quoting.shop.forms.cells import with_unit
from quoting.shop.forms.layout import PRICES
from quoting.shop.forms.schema import METRIC, BookSetting, headings, rules, setting_of, settings
from quoting.shop.quantities import KG_PER_POUND
from quoting.tables import toml_data

_GRADE_UNITS = {"density": ("lb_in3", "kg_m3"), "elastic": ("gpa", "gpa"), "price": ("per_lb", "per_kg")}


@dataclass(frozen=True, slots=True)
class RecordField:
    """One column: heading, unit by the ending of its name, name, and the setting that it is."""

    words: str
    unit: str
    key: str
    setting: BookSetting | None


@dataclass(frozen=True, slots=True)
class RecordTable:
    """One table of rows: its cells by column, and which rows are still the starter book's."""

    name: str
    title: str
    fields: tuple[RecordField, ...]
    rows: tuple[tuple[Any, ...], ...]
    examples: tuple[bool, ...]


def record_tables(data: Mapping[str, Any], *, metric: bool) -> dict[str, RecordTable]:
    """Return every table of rows of a book by its name."""
    rated = [
        (number, point)
        for number, roll in enumerate(data.get("roll", ()), start=1)
        for point in roll.get("rated", ())
    ]
    handling = data.get("labour", {}).get("handling", ())
    return {
        "roll.rated": _table(
            "roll.rated", [one for _, one in rated], metric, [number for number, _ in rated]
        ),
        "labour.handling": _table("labour.handling", handling, metric),
        "shift": _table("shift", data.get("shift", ()), metric),
        "closed": _table("closed", data.get("closed", ()), metric),
        "material": _table("material", data.get("material", ()), metric),
        PRICES: _prices(data),
    }


def starter_data() -> dict[str, Any]:
    """Return the tables of the starter book."""
    return toml_data(starter_text(), Place("the starter book"))


@cache
def _examples(table: str) -> tuple[Mapping[str, Any], ...]:
    data = starter_data()
    rows = {
        "roll.rated": data["roll"][0]["rated"],
        "labour.handling": data["labour"]["handling"],
        "shift": data["shift"],
        "closed": data["closed"],
        "material": [],
    }[table]
    return (*rows, *(_metric_row(table, row) for row in rows))


def _metric_row(table: str, row: Mapping[str, Any]) -> Mapping[str, Any]:
    found: dict[str, Any] = {}
    for key, value in row.items():
        setting = setting_of(table, key)
        own = setting and BookSetting(table, key, "", True, value, setting.rule)
        found |= dict([own.metric]) if own else {key: value}
    return found


def _table(
    table: str, rows: Sequence[Mapping[str, Any]], metric: bool, owners: Sequence[int] = ()
) -> RecordTable:
    fields = [_field(table, one, rows, metric) for one in _settings(table)]
    cells = [tuple(_cell(table, row, field) for field in fields) for row in rows]
    if table == "roll.rated":
        fields.insert(0, RecordField("Roll (number of its column)", "", "roll", None))
        cells = [(owner, *row) for owner, row in zip(owners, cells, strict=True)]
    title = {"roll.rated": "Rated points", "labour.handling": "Handling by weight", "shift": "Shifts"}
    return RecordTable(
        table,
        title.get(table) or {"closed": "Days off"}.get(table) or headings()[table][0],
        tuple(fields),
        tuple(cells),
        tuple(row in _examples(table) for row in rows),
    )


def _settings(table: str) -> list[BookSetting]:
    if table != "material":
        return [one for one in settings().values() if one.table == table]
    found: dict[str, BookSetting] = {}
    for (place, key), rule in rules().items():
        if place == "material":
            name = rule.stem or key
            found.setdefault(name, BookSetting(table, key, "", False, None, rule))
    first = ("key", "names", "family", "yield_low", "yield_likely", "yield_high")
    return [*(found[name] for name in first), *(one for name, one in found.items() if name not in first)]


def _field(table: str, setting: BookSetting, rows: Sequence[Mapping[str, Any]], metric: bool) -> RecordField:
    rule = setting.rule
    if not rule.stem or rule.quantity is None:
        return RecordField(setting.words, "", setting.key, setting)
    keys = rule.quantity.keys(rule.stem)
    used = [key for row in rows for key in row if key in keys]
    if table == "material":
        usual = _GRADE_UNITS.get(rule.stem, ("ksi", "mpa"))[metric]
    else:
        usual = METRIC.get(setting.unit, setting.unit) if metric else setting.unit
    unit = used[0].removeprefix(f"{rule.stem}_") if used else usual
    return RecordField(setting.words, unit, setting.key, setting)


def _cell(table: str, row: Mapping[str, Any], field: RecordField) -> Any:
    setting = field.setting
    if setting is None or not setting.rule.stem or setting.rule.quantity is None:
        return row.get(field.key)
    for key in setting.rule.quantity.keys(setting.rule.stem):
        if key in row:
            unit = key.removeprefix(f"{setting.rule.stem}_")
            return row[key] if unit == field.unit else with_unit(row[key], unit)
    return None


def _prices(data: Mapping[str, Any]) -> RecordTable:
    rows = [
        (grade, price, table.removeprefix("price_per_"))
        for table in PRICE_TABLES
        for grade, price in data.get(table, {}).items()
    ]
    usual = starter_data()["price_per_lb"]
    fields = [
        RecordField(words, "", key, None)
        for words, key in (("Grade", "grade"), ("Price", "price"), ("Per", "per"))
    ]
    per_kg = _per_kg(usual)
    examples = [price == {"lb": usual, "kg": per_kg}.get(per, {}).get(grade) for grade, price, per in rows]
    return RecordTable(PRICES, "Plate prices", tuple(fields), tuple(rows), tuple(examples))


def metric_data(data: Mapping[str, Any]) -> dict[str, Any]:
    """Return the starter book's tables as a metric shop would have them: mm, kg, MPa, A4."""

    def table(path: str, content: Any) -> Any:
        if isinstance(content, list) and content and isinstance(content[0], dict):
            return [table(path, row) for row in content]
        if not isinstance(content, dict):
            return content
        found: dict[str, Any] = {}
        for key, value in content.items():
            inner = table(f"{path}.{key}" if path else key, value)
            found |= _metric_row(path, {key: inner})
        return found

    found: dict[str, Any] = {name: table(name, content) for name, content in data.items()}
    found["shop"] |= {"units": "metric", "paper": "a4"}
    found["price_per_kg"] = _per_kg(found.pop("price_per_lb"))
    return found


def _per_kg(per_lb: Mapping[str, Decimal]) -> dict[str, Decimal]:
    return {grade: round(price / Decimal(str(KG_PER_POUND)), 2) for grade, price in per_lb.items()}
