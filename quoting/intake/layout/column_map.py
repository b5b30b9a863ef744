"""What a shop pins about one customer's sheets: a small TOML file a person can read and edit."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from quoting.core import Basis, InputError, Place
from quoting.intake.layout.columns import Meaning, known_fields, meaning_of
from quoting.intake.layout.find_tables import layout_of
from quoting.tables import Limits, Sheet, is_empty, read_sheets, text_of, toml_data

IGNORED = "ignored"
CARRIED = "carried"
"""A column that is no field: it goes along to the quote as a remark, as unknown columns do."""
_MOST_ROWS = 40
_FEWEST_HEADINGS = 3
_UNITS = ("", "mm", "cm", "m", "in", "ft", "deg", "ga")


@dataclass(frozen=True, slots=True)
class CustomerMap:
    """Column meanings by header (in lower case), and what holds where a sheet does not say.

    `unit` is "in", "mm" or empty; `basis` and `material` are taken for diameters and lines that say nothing,
    and stand as assumptions on every line they were used for.
    """

    name: str = ""
    columns: tuple[tuple[str, Meaning], ...] = ()
    unit: str = ""
    basis: Basis | None = None
    material: str = ""
    language: str = ""

    def meaning(self, header: str) -> Meaning:
        """Return what a header means to this customer, else what it means in the trade."""
        pinned = dict(self.columns).get(" ".join(header.lower().split()))
        return meaning_of(header) if pinned is None else pinned

    def to_text(self) -> str:
        """Return the map as TOML that `customer_map` reads back."""
        whose = " ".join(self.name.split()) or "this customer"
        lines = [
            f"# How the sheets of {whose} are read. A column's text: its field, then",
            "# inside, outside or mean, then its unit, as far as they apply; or carried (along as a remark);",
            "# or ignored.",
            f"name = {_quoted(self.name)}",
            f"unit = {_quoted(self.unit)}  # of bare numbers: in, mm or empty",
            f"basis = {_quoted(str(self.basis or ''))}  # of bare diameters: inside, outside, mean or empty",
            f"material = {_quoted(self.material)}  # where no material is given",
            f"language = {_quoted(self.language)}  # of quotes and mails: en, de, es, fr or empty",
            "",
            "[columns]",
        ]
        for header, meaning in self.columns:
            words = (meaning.field or CARRIED, str(meaning.basis or ""), meaning.unit)
            lines.append(f"{_quoted(header)} = {_quoted(' '.join(word for word in words if word))}")
        return "\n".join(lines) + "\n"


def customer_map(text: str, file: str) -> CustomerMap:
    """Return the map a TOML text describes; InputError names the key that does not fit."""
    data = toml_data(text, Place(file))
    unknown = set(data) - {"name", "unit", "basis", "material", "language", "columns"}
    if unknown:
        raise _bad(file, sorted(unknown)[0], "", "use name, unit, basis, material, language or [columns]")
    unit, basis = str(data.get("unit", "")), str(data.get("basis", ""))
    if unit not in ("", "in", "mm"):
        raise _bad(file, "unit", unit, 'use "in", "mm" or ""')
    if basis not in ("", *map(str, Basis)):
        raise _bad(file, "basis", basis, 'use "inside", "outside", "mean" or ""')
    language = str(data.get("language", ""))
    if language not in ("", "en", "de", "es", "fr"):
        raise _bad(file, "language", language, 'use "en", "de", "es", "fr" or ""')
    columns = data.get("columns", {})
    if not isinstance(columns, dict):
        raise _bad(file, "columns", str(columns), "write a table [columns]")
    pairs = tuple(
        (" ".join(str(header).lower().split()), _meaning(file, str(header), value))
        for header, value in columns.items()
    )
    material = str(data.get("material", ""))
    return CustomerMap(
        str(data.get("name", "")), pairs, unit, Basis(basis) if basis else None, material, language
    )


def _meaning(file: str, header: str, value: Any) -> Meaning:
    """Return the meaning of a column's text: `diameter outside in`."""
    words = str(value).split()
    fields = known_fields() | {IGNORED, CARRIED}
    if not words or words[0] not in fields:
        raise _bad(file, header, str(value), f"use one of {', '.join(sorted(fields))}")
    meaning = Meaning(words[0])
    for word in words[1:]:
        if word in map(str, Basis):
            meaning = replace(meaning, basis=Basis(word))
        elif word in _UNITS:
            meaning = replace(meaning, unit=word)
        else:
            raise _bad(file, header, str(value), "after the field write inside, outside or mean, and a unit")
    return meaning


def _bad(file: str, key: str, read: str, would_do: str) -> InputError:
    return InputError(f"{key} does not fit", place=Place(file), read=read, would_do=would_do)


def columns_read(
    path: str | Path,
    limits: Limits | None = None,
    name: str = "",
    pinned: CustomerMap | None = None,
) -> CustomerMap:
    """Return how a file's columns are understood, as a map to edit and keep; unknown columns are `carried`.

    Headers that stand for different things in one file, and those whose unit is in doubt, are left out.
    `pinned` is a map that already holds. Raises InputError when the file cannot be read.
    """
    known = pinned or CustomerMap()
    found: dict[str, set[Meaning]] = {}
    for sheet in read_sheets(path, limits or Limits()):
        tables = layout_of(sheet, known.meaning).tables if not sheet.hidden else ()
        for text in _headings(sheet) if not tables and not sheet.hidden else ():
            found.setdefault(" ".join(text.lower().split()), set()).add(_or_carried(known.meaning(text)))
        for table in tables:
            for column in table.columns:
                header = " ".join(text_of(column.header).lower().split())
                found.setdefault(header, set()).add(_or_carried(column.meaning))
    return CustomerMap(
        name,
        tuple(
            (header, meaning)
            for header, meanings in found.items()
            if header and len(meanings) == 1 and (meaning := next(iter(meanings))).unit in _UNITS
        ),
    )


def _or_carried(meaning: Meaning) -> Meaning:
    return meaning if meaning.field else Meaning(CARRIED)


def _headings(sheet: Sheet) -> tuple[str, ...]:
    """Return the row of a sheet without a table that looks most like its headings: words, no figures."""
    for row in sheet.rows[:_MOST_ROWS]:
        texts = [text_of(cell) for cell in row if not is_empty(cell)]
        if len(texts) >= _FEWEST_HEADINGS and not any(sign.isdecimal() for text in texts for sign in text):
            return tuple(texts)
    return ()


def _quoted(text: str) -> str:
    """Return a TOML basic string."""
    plain = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(sign if sign >= " " else " " for sign in plain) + '"'
