"""Customers' sheets written blind, with what a careful estimator would make of each line.

A corpus is a folder with three files (README.md there says whose and how). Each lists sheets: their cells as
typed, and the expectation of each line as it was written, lengths in mm. This module turns them into the
sheets that the writer and the grader know.
"""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path
from typing import Any

from tests.data.blind_expectations import want_of
from tests.data.sheet_model import Cell, CellValue, Part, Row, Sheet, Tab

LEVELS = ("easy", "medium", "hard")


def sheets_in(corpus: Path) -> tuple[Sheet, ...]:
    """Return all sheets of a corpus."""
    texts = ((corpus / f"{level}.json").read_text(encoding="utf-8") for level in LEVELS)
    return tuple(_sheet(entry) for text in texts for entry in json.loads(text))


def _sheet(entry: dict[str, Any]) -> Sheet:
    return Sheet(
        entry["name"],
        entry["kind"],
        entry["language"],
        entry["about"],
        tuple(_tab(tab, entry) for tab in entry["tabs"]),
        entry.get("encoding", "utf-8"),
        entry.get("separator", ","),
    )


def _tab(tab: dict[str, Any], entry: dict[str, Any]) -> Tab:
    rows = tuple(_row(row) for row in tab["rows"])
    may_ask = entry.get("mapping_may_be_asked", False)
    form = "key-value" in str(entry.get("layout", ""))
    lines = [line for line in entry["lines"] if line["sheet"] == tab["name"]]
    parts = tuple(_part(line, len(rows), may_ask=may_ask) for line in lines)
    if form:
        parts = _of_forms(parts, len(rows))
    hidden = tuple(_number(letters) for letters in tab.get("hidden_columns", ()))
    return Tab(tab["name"], rows, tuple(tab.get("merged", ())), parts, hidden_columns=hidden)


def _row(row: list[Any] | dict[str, Any]) -> Row:
    if isinstance(row, list):
        return Row(tuple(_cell(cell) for cell in row))
    cells = tuple(_cell(cell) for cell in row["cells"])
    strike, bold, hidden = (row.get(look, False) for look in ("strike", "bold", "hidden"))
    return Row(cells, strike=strike, bold=bold, hidden=hidden)


def _cell(cell: Any) -> CellValue:
    if not isinstance(cell, dict):
        value: CellValue = cell
        return value
    value = datetime.fromisoformat(cell["date"]) if "date" in cell else cell["value"]
    return Cell(value, cell["format"])


def _of_forms(parts: tuple[Part, ...], rows: int) -> tuple[Part, ...]:
    """Return the parts of data sheets: each may be told at any of its rows, down to the next one's first."""
    starts = [part.first for part in parts]
    ends = [*(start - 1 for start in starts[1:]), rows]
    return tuple(
        Part(part.want, first, last, 0, part.number)
        for part, first, last in zip(parts, starts, ends, strict=True)
    )


def _part(line: dict[str, Any], rows: int, *, may_ask: bool) -> Part:
    """Return where a line stands; a part along a column may be told at any of its rows."""
    want = want_of(line, may_ask=may_ask)
    column = _number(line.get("cell_column", ""))
    first, last = (1, rows) if column else (line["cell_row"], line["cell_row"])
    return Part(want, first, last, column, line.get("item", ""))


def _number(letters: str) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - 64
    return number
