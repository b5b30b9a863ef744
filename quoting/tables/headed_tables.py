"""A spreadsheet or CSV file as plain rows of cells, each table found by the words in its header row."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from quoting.core import Place, column_letters
from quoting.tables.kinds import TEXTS
from quoting.tables.limits import Limits
from quoting.tables.open_file import read_sheets

_HEADER_ROWS = 15


@dataclass(frozen=True, slots=True)
class SheetTable:
    """The rows under a header: each a 1-based row number and the cells by the heading's field name.

    `headers` gives the text over each field, `columns` its letter.
    """

    place: Place
    headers: Mapping[str, str]
    columns: Mapping[str, str]
    rows: tuple[tuple[int, Mapping[str, Any]], ...]

    def at(self, row: int, field: str = "") -> Place:
        """Return the address of a cell, or of the row when no field is named."""
        return self.place.at(row=row, column=self.columns.get(field, ""), header=self.headers.get(field, ""))


def read_plain_sheets(path: Path) -> dict[str, list[list[Any]]]:
    """Return the cells of every sheet of a file of the shop's own by sheet name; a text table has no name.

    Raises InputError when the file is none of the kinds that are read, or cannot be opened.
    """
    sheets = read_sheets(path, Limits(), links=True)
    return {"" if path.suffix.lower() in TEXTS else sheet.name: sheet.rows for sheet in sheets}


def find_table(
    rows: Sequence[Sequence[Any]], headings: Mapping[str, Sequence[str]], needed: Sequence[str], place: Place
) -> SheetTable | None:
    """Return the table whose header row names the `needed` fields, or None when no row does.

    `headings` gives for each field the words it may go by, without unit: `Thickness (in)` is `thickness`.
    """
    for index, cells in enumerate(rows[:_HEADER_ROWS]):
        found: dict[str, int] = {}
        for column, cell in enumerate(cells):
            field = _field(cell, headings)
            if field and field not in found:
                found[field] = column
        if all(field in found for field in needed):
            body = tuple(
                (number, {field: _cell(row, column) for field, column in found.items()})
                for number, row in enumerate(rows[index + 1 :], start=index + 2)
                if any(_cell(row, column) != "" for column in range(len(row)))
            )
            return SheetTable(
                place,
                {field: str(cells[column]).strip() for field, column in found.items()},
                {field: column_letters(column) for field, column in found.items()},
                body,
            )
    return None


def missing_headings(
    rows: Sequence[Sequence[Any]], headings: Mapping[str, Sequence[str]], needed: Sequence[str]
) -> tuple[str, ...]:
    """Return the needed fields that the likeliest header row lacks; all when no row looks like one."""
    lacking: tuple[str, ...] = tuple(needed)
    for cells in rows[:_HEADER_ROWS]:
        found = {_field(cell, headings) for cell in cells}
        here = tuple(field for field in needed if field not in found)
        lacking = here if len(here) < len(lacking) else lacking
    return lacking


def _field(cell: Any, headings: Mapping[str, Sequence[str]]) -> str:
    if cell == "":
        return ""
    words = plain_heading(str(cell))
    return next((field for field, names in headings.items() if words in names), "")


def plain_heading(text: str) -> str:
    """Return a heading in small letters without punctuation and without its unit.

    >>> plain_heading("Thickness (in)"), plain_heading("Price per lb")
    ('thickness', 'price per lb')
    """
    words = re.sub(r"[^a-z0-9/]+", " ", text.casefold()).split()
    if len(words) > 1 and words[-1] in ("in", "inch", "inches", "mm") and words[-2] != "per":
        words.pop()
    return " ".join(words)


def _cell(row: Sequence[Any], column: int) -> Any:
    value = row[column] if column < len(row) else ""
    return value.strip() if isinstance(value, str) else value
