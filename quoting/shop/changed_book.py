"""A shop's book with some settings changed, written beside the book or in its place; the old one is kept."""

from __future__ import annotations

import os
import re
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place
from quoting.shop.book import BookTables, read_tables, starter_text, tables_of_text
from quoting.shop.forms import read_workbook, toml_value, write_workbook
from quoting.shop.loader import BOOK, WORKBOOK, book_tables
from quoting.shop.model import Band, Shop
from quoting.tables import read_own_text

_NUMBERED = re.compile(r"(.+)\[(\d+)\]$")


@dataclass(frozen=True, slots=True)
class BookEdit:
    """A setting by its table (`labour.handling[2]`) and its name without unit; old and new in one unit.

    What stands in the book is multiplied by new over old, so that it keeps its own unit. `note` goes into the
    comment of a text form.
    """

    table: str
    name: str
    old: Band
    new: Band
    note: str = ""


def changed_book(directory: Path, edits: Sequence[BookEdit], path: Path) -> Shop:
    """Write a shop's book with these edits to `path`, in the form it has; return the shop it describes.

    A text form keeps its own remarks. Raises InputError when the book cannot be used.
    """
    tables, ours = book_tables(directory)
    if (directory / WORKBOOK).exists():
        keys = [_edited(tables.data, edit) for edit in edits]
        write_workbook(path, tables.data, ours | frozenset(keys), tables.worked_out - frozenset(keys))
        return read_tables(read_workbook(path)[0])
    text = read_own_text(directory / BOOK, "the shop's book", missing="")
    for edit in edits:
        text = _edited_text(text, edit, directory)
    shop = read_tables(tables_of_text(text, path.name))
    path.write_text(text, "utf-8")
    return shop


def take_book(directory: Path, proposed: Path, day: date) -> Path:
    """Put a proposed book in the place of the shop's; return where the old one, dated, now is."""
    name = WORKBOOK if (directory / WORKBOOK).exists() else BOOK
    stem, ending = name.split(".")
    names = (f"{stem}-before-{day:%Y-%m-%d}{'' if n == 1 else f'-{n}'}.{ending}" for n in range(1, 1000))
    kept = next(directory / name for name in names if not (directory / name).exists())
    try:
        with tempfile.TemporaryDirectory(prefix=".staging-", dir=directory) as staging:
            made = Path(staging) / name
            made.write_bytes(proposed.read_bytes())
            os.link(directory / name, kept)
            os.replace(made, directory / name)
    except OSError as error:
        raise InputError(
            f"cannot be written to ({error.strerror or error})",
            place=Place(str(directory)),
            would_do="close the book if another program has it open, and check that you may write there",
        ) from error
    return kept


def book_ending(directory: Path) -> str:
    """Return the ending of the form that a shop's book has."""
    return (WORKBOOK if (directory / WORKBOOK).exists() else BOOK).rpartition(".")[2]


def _edited(data: dict[str, Any], edit: BookEdit) -> str:
    """Change one setting in the tables of a book; return the name under which the forms know it."""
    inside, table = _table(data, edit.table)
    key = _key(inside, edit.name)
    if key is None:
        starter = _starter(table)
        key = _key(starter, edit.name) or edit.name
        inside[key] = starter[key]
    inside[key] = _scaled(inside[key], edit)
    return f"{table}.{_key(_starter(table), edit.name) or key}"


def _table(data: dict[str, Any], path: str) -> tuple[dict[str, Any], str]:
    """Return the table at a path, and its path without numbers."""
    inside: Any = data
    plain = []
    for part in path.split("."):
        found = _NUMBERED.match(part)
        name = found[1] if found else part
        plain.append(name)
        inside = inside[name][int(found[2]) - 1] if found else inside.setdefault(name, {})
    return inside, ".".join(plain)


def _starter(table: str) -> Mapping[str, Any]:
    inside: Any = tables_of_text(starter_text(), "the starter book").data
    for part in table.split("."):
        inside = inside[part]
        inside = inside[0] if isinstance(inside, list) else inside
    assert isinstance(inside, dict)
    return inside


def _key(table: Mapping[str, Any], name: str) -> str | None:
    """Return the key of a setting with whatever unit it has in a table.

    >>> _key({"gap_fixed_min": 8, "gap_min_per_in": 12}, "gap")
    'gap_min_per_in'
    """
    unit = re.compile(rf"{name}(_min(_per_\w+)?)?$")
    return next((key for key in table if unit.match(key)), None)


def _scaled(value: Any, edit: BookEdit) -> Any:
    pairs = [(edit.old.low, edit.new.low), (edit.old.likely, edit.new.likely), (edit.old.high, edit.new.high)]
    if isinstance(value, list):
        return [
            _figure(float(part) * new / old if old else new)
            for part, (old, new) in zip(value, pairs, strict=True)
        ]
    return _figure(float(value) * edit.new.likely / edit.old.likely if edit.old.likely else edit.new.likely)


def _figure(value: float) -> Decimal:
    """Return a figure to three places that count, as people write settings.

    >>> _figure(28.4321), _figure(0.81250)
    (Decimal('28.4'), Decimal('0.812'))
    """
    shown = Decimal(f"{value:.3g}")
    return Decimal(f"{shown:f}")


def _edited_text(text: str, edit: BookEdit, directory: Path) -> str:
    tables: BookTables = tables_of_text(text, BOOK)
    inside, table = _table(tables.data, edit.table)
    key = _key(inside, edit.name)
    lines = text.splitlines()
    if key is None:
        starter = _starter(table)
        key = _key(starter, edit.name) or edit.name
        line = f"{key} = {toml_value(_scaled(starter[key], edit))}  # {edit.note}"
        head = tables.lines.get((edit.table, ""))
        if head is None:
            lines += ["", f"[{table}]", line]
        else:
            lines.insert(int(head), line)
        return "\n".join(lines) + "\n"
    number = int(tables.lines[edit.table, key]) - 1
    found = re.match(r"(\s*[\w\"']+\s*=\s*)([^#]*?)(\s*)(#.*)?$", lines[number])
    value = inside[key]
    if found is None or (isinstance(value, list) and not found[2].endswith("]")):
        raise InputError(
            "a setting stands on several lines and cannot be changed in place",
            place=Place(str(directory / BOOK), row=number + 1),
            read=key,
            would_do="write it on one line",
        )
    said = (found[4] or "").removesuffix("; example").rstrip()
    comment = f"{said or '#'}; {edit.note}" if said else f"# {edit.note}"
    setting = f"{found[1]}{toml_value(_scaled(value, edit))}"
    wide = len(lines[number]) - len(found[4] or "")
    lines[number] = f"{setting:<{wide - 1}} {comment}"
    return "\n".join(lines) + "\n"
