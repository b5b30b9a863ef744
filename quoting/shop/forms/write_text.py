"""The tables of a book as the commented text `shop.toml`."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, time
from decimal import Decimal
from typing import Any

from quoting.shop.book import PRICE_TABLES, starter_text
from quoting.shop.forms.look import WORKED_OUT
from quoting.shop.forms.schema import METRIC_WORDS, comments_of, setting_of, settings

_HEAD_END = "[shop]"
_Marks = tuple[frozenset[str], frozenset[str]]


def text_of_tables(
    data: Mapping[str, Any], ours: frozenset[str] = frozenset(), worked_out: frozenset[str] = frozenset()
) -> str:
    """Return the text form of a book; `ours` names settings (`rates.operator_per_hour`) that are no examples,
    `worked_out` those that follow from others and are marked so.

    Every setting stands with its sentence, marked as an example while it is the starter book's value.
    """
    head = starter_text().partition(_HEAD_END)[0].rstrip()
    lines = [head]
    metric = data.get("shop", {}).get("units") == "metric"
    for table in dict.fromkeys(place for place, *_ in comments_of(starter_text())):
        if "." in table or table in PRICE_TABLES:
            continue
        lines += _table(table, data.get(table, {}), (ours, worked_out), metric)
    for table in PRICE_TABLES:
        if table in data:
            lines += ["", f"[{table}]"]
            lines += [f"{_key(key)} = {toml_value(value)}" for key, value in data[table].items()]
    return "\n".join(lines) + "\n"


def _table(table: str, content: Any, marks: _Marks, metric: bool) -> Iterator[str]:
    for one in content if isinstance(content, list) else [content] if content else []:
        yield ""
        yield f"[[{table}]]" if isinstance(content, list) else f"[{table}]"
        inner: list[tuple[str, Any]] = []
        for key in _in_order(table, one):
            if isinstance(one[key], dict) or _is_rows(one[key]):
                inner.append((key, one[key]))
            else:
                yield _line(table, key, one[key], marks, metric)
        for key, rows in inner:
            for row in rows if isinstance(rows, list) else [rows]:
                place = f"{table}.{key}"
                yield ""
                yield f"[[{place}]]" if isinstance(rows, list) else f"[{place}]"
                yield from (_line(place, name, row[name], marks, metric) for name in _in_order(place, row))


def _line(table: str, key: str, value: Any, marks: _Marks, metric: bool) -> str:
    setting = setting_of(table, key)
    text = f"{_key(key)} = {toml_value(value)}"
    if setting is None or not setting.sentence:
        return text
    said = setting.sentence
    ours, worked_out = (f"{table}.{setting.key}" in names for names in marks)
    if not setting.is_example(key, value) or ours:
        said = said.removesuffix("; example")
    if metric:
        said = f"{said};"
        for written, meant in METRIC_WORDS:
            said = said.replace(written, meant)
        said = said.removesuffix(";")
    if worked_out:
        said = f"{said.removesuffix('; example')}; {WORKED_OUT}"
    return f"{text:<40} # {said}"


def _in_order(table: str, content: Mapping[str, Any]) -> list[str]:
    known = list(settings())

    def place(key: str) -> int:
        setting = setting_of(table, key)
        return known.index((table, setting.key)) if setting else len(known)

    return sorted(content, key=place)


def _is_rows(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def _key(key: str) -> str:
    return key if key.replace("_", "").isalnum() and key.isascii() else _quoted(key)


def toml_value(value: Any) -> str:
    """Return a value as TOML writes it.

    >>> toml_value(Decimal("0.620")), toml_value(["a", 1, True])
    ('0.620', '["a", 1, true]')
    """
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, Decimal):
        text = f"{value:f}"
        return text if "." in text else f"{text}.0"
    if isinstance(value, (date, time)):
        return value.isoformat()
    if isinstance(value, str):
        return _quoted(value)
    if isinstance(value, Sequence):
        return f"[{', '.join(toml_value(part) for part in value)}]"
    return str(value)


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")
