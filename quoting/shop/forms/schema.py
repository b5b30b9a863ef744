"""Every setting of the shop's book: sentence and example from the starter book, range from the readers.

The starter text and the readers are the one place where a setting is described; the text form and the
workbook are both made from here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Any

from quoting.shop.book import PRICE_TABLES, rules_of_starter, starter_text, tables_of_text
from quoting.shop.findings import Rule

METRIC = {
    "in": "mm", "ft": "m", "lb": "kg", "ksi": "mpa", "ft_min": "m_min", "hp": "kw",
    "min_per_in": "min_per_mm", "min_per_ft": "min_per_m", "min_per_ft_in": "min_per_m_mm",
    "lb_hour": "kg_hour", "per_lb": "per_kg", "per_ft": "per_m", "per_ft3": "per_m3",
}  # fmt: skip
"""The unit that a metric shop uses in place of each of the starter book's."""

_HEADER = re.compile(r"^(?:# )?(\[\[?)([\w.]+)\]\]?\s*$")
_SETTING = re.compile(r"^(# )?(\w+|\"[^\"]+\")\s*=\s*(.*)$")
_VALUE = re.compile(r"""((?:"(?:[^"\\]|\\.)*"|'[^']*'|[^#"'])*)(?:#\s*(.*))?$""")
_FORM_WORDS = (
    ("leave the three lines out", "leave the three cells empty"),
    ("leave the line out", "leave empty"),
    ("leave both out", "leave both empty"),
    ("leave out", "leave empty"),
    ("true:", "yes:"),
    ("; false:", "; no:"),
    ("false:", "no:"),
    ("true when", "yes when"),
)
METRIC_WORDS = (
    (", in;", ", mm;"), (", in:", ", mm:"), (", lb", ", kg"), (", ksi", ", MPa"), (", hp", ", kW"),
    (", ft/min", ", m/min"), ("one foot", "one metre"), ("a foot", "a metre"), ("each inch", "each mm"),
    ("a pound", "a kilogram"), ("in an hour of arc time, lb", "in an hour of arc time, kg"),
)  # fmt: skip
"""What a sentence of the starter book says in a metric shop."""

_UNIT_SAID = re.compile(r", (?:in|lb|ksi|hp|ft/min)(?=$|[;:])")


@dataclass(frozen=True, slots=True)
class BookSetting:
    """One setting: `table` without numbers, `key` as in the starter book, `value` None if left out there."""

    table: str
    key: str
    sentence: str
    example: bool
    value: Any
    rule: Rule

    @property
    def stem(self) -> str:
        """Return the name without its unit."""
        return self.rule.stem or self.key

    @property
    def unit(self) -> str:
        """Return the unit in the starter book's name, empty when it has none."""
        return self.key.removeprefix(f"{self.rule.stem}_") if self.rule.stem else ""

    @property
    def words(self) -> str:
        """Return the name as people say it.

        >>> settings()["rates", "operator_per_hour"].words
        'Operator per hour'
        """
        return self.stem.replace("_", " ").capitalize()

    @property
    def plain_sentence(self) -> str:
        """Return the sentence for a form: unit and mark have columns of their own there."""
        text = _UNIT_SAID.sub("", self.sentence.removesuffix("; example"))
        for written, said in _FORM_WORDS:
            text = text.replace(written, said)
        return text[:1].upper() + text[1:]

    @property
    def metric(self) -> tuple[str, Any]:
        """Return key and value for a metric shop, the value to four figures."""
        unit = METRIC.get(self.unit)
        if unit is None or self.rule.quantity is None:
            return self.key, self.value
        units = self.rule.quantity.units
        factor = Decimal(str(units[self.unit] / units[unit]))
        return f"{self.stem}_{unit}", _times(self.value, factor)

    def is_example(self, key: str, value: Any) -> bool:
        """Return whether a value is still the starter book's, in its inch or its metric form."""
        return self.example and (key, value) in ((self.key, self.value), self.metric)


def comments_of(text: str) -> Iterator[tuple[str, str, str, bool]]:
    """Yield (table, key, comment, left out) of a book's text in its order; tables without numbers."""
    table = ""
    for line in text.splitlines():
        if header := _HEADER.match(line):
            table = header[2]
        elif found := _SETTING.match(line):
            rest = _VALUE.match(found[3])
            yield table, found[2].strip('"'), (rest[2] or "" if rest else ""), bool(found[1])


@cache
def headings() -> Mapping[str, tuple[str, str]]:
    """Return the title of the starter book's part that each table stands in, and what is said above it."""
    found: dict[str, tuple[str, str]] = {}
    title, said = "", []  # type: ignore[var-annotated]
    for line in starter_text().splitlines():
        if part := re.match(r"# -+ (.+?) -*$", line):
            title, said = part[1].partition(":")[0], []
        elif header := _HEADER.match(line):
            found.setdefault(header[2], (title, " ".join(said)))
            said = []
        elif line.startswith("# ") and not _SETTING.match(line):
            said.append(line[2:])
    return found


@cache
def settings() -> Mapping[tuple[str, str], BookSetting]:
    """Return every setting of the starter book by table and key, in its order, but prices by grade."""
    taken, values = rules(), _values()
    found: dict[tuple[str, str], BookSetting] = {}
    for table, key, comment, _ in comments_of(starter_text()):
        if table in PRICE_TABLES or (table, key) in found:
            continue
        example = "example" in comment or table.startswith("roll") or (table, key) == ("shop", "name")
        found[table, key] = BookSetting(
            table, key, comment, example, values.get((table, key)), taken.get((table, key), Rule("text"))
        )
    return found


def setting_of(table: str, key: str) -> BookSetting | None:
    """Return the setting that a key means, whatever its unit; None when the book has no such setting."""
    known = settings()
    if (table, key) in known:
        return known[table, key]
    rule = rules().get((table, key))
    if rule is None or not rule.stem:
        return None
    return next((one for (place, _), one in known.items() if place == table and one.rule == rule), None)


@cache
def rules() -> Mapping[tuple[str, str], Rule]:
    """Return what the readers take for each (table, key), in every unit."""
    return rules_of_starter()


@cache
def _values() -> Mapping[tuple[str, str], Any]:
    data = tables_of_text(starter_text(), "the starter book").data
    found: dict[tuple[str, str], Any] = {}
    for table, content in data.items():
        first = content[0] if isinstance(content, list) else content
        for key, value in first.items():
            if isinstance(value, dict):
                found |= {(f"{table}.{key}", inner): one for inner, one in value.items()}
            elif isinstance(value, list) and value and isinstance(value[0], dict):
                found |= {(f"{table}.{key}", inner): one for inner, one in value[0].items()}
            else:
                found[table, key] = value
    return found


def _times(value: Any, factor: Decimal) -> Any:
    if isinstance(value, list):
        return [_times(part, factor) for part in value]
    if isinstance(value, bool) or not isinstance(value, (int, Decimal)):
        return value
    shown = Decimal(f"{float(value * factor):.4g}")
    return int(shown) if shown == int(shown) else shown.normalize()
