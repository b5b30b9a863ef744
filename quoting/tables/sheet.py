"""A sheet as cells with addresses: what the readers hand over, whatever the file was."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from functools import lru_cache
from typing import TypeAlias

from quoting.core import Place, column_letters


@dataclass(frozen=True, slots=True)
class CellError:
    """A cell that shows an error, or a formula whose result the file does not hold."""

    text: str

    def __str__(self) -> str:
        return self.text


LONGEST_TEXT = 2_000
"""Characters of a cell that are read; the rest of a longer text says nothing about one part."""

Cell: TypeAlias = str | float | bool | date | datetime | time | timedelta | CellError
"""A cell's value; an empty cell is the empty text."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """Rows of cells from A1 on. Row and column indexes count from 0 here and from 1 / A in a `Place`.

    `merged` holds (first row, first column, last row, last column); `shown` is the text that a cell shows
    where its number format writes more than the number does (a unit). `struck` are
    cells whose text is crossed out, `comments` the texts that hang on cells, `boxes` those that lie over
    them, paragraph by paragraph. `asides` tell what else the file holds. `source` is said on every
    line where the values did not stand in cells ("a PDF"); of the rows `unsure` it is not certain which value
    stands in which column. A sheet that `heads` a mail holds who sent it and the subject, nothing else.
    """

    file: str
    name: str
    rows: list[list[Cell]]
    hidden: bool = False
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    merged: tuple[tuple[int, int, int, int], ...] = ()
    shown: dict[tuple[int, int], str] = field(default_factory=dict)
    struck: frozenset[tuple[int, int]] = frozenset()
    asides: tuple[str, ...] = ()
    source: str = ""
    unsure: frozenset[int] = frozenset()
    heads: bool = False
    comments: dict[tuple[int, int], str] = field(default_factory=dict)
    boxes: tuple[str, ...] = ()

    def place(self, row: int, column: int | None = None, header: str = "") -> Place:
        """Return the address of a row, or of one of its cells."""
        return Place(self.file, self.name, row + 1, "" if column is None else column_letters(column), header)


def is_empty(cell: Cell) -> bool:
    """Return whether nothing can be seen in the cell."""
    return isinstance(cell, str) and (not cell or cell.isspace())


@lru_cache(maxsize=65_536)
def _one_line(text: str) -> str:
    return " ".join(text.split())


def text_of(cell: Cell) -> str:
    """Return a cell as a person reads it in the sheet, on one line.

    >>> text_of(48.0), text_of(0.1875), text_of("  1/4 "), text_of(True)
    ('48', '0.1875', '1/4', 'yes')
    """
    if isinstance(cell, str):
        return _one_line(cell if len(cell) <= LONGEST_TEXT else cell[:LONGEST_TEXT])
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, (int, float)):
        return f"{cell:.10g}"
    if isinstance(cell, datetime):
        midnight = cell.hour == cell.minute == cell.second == 0
        return cell.strftime("%Y-%m-%d" if midnight else "%Y-%m-%d %H:%M")
    return str(cell)


@dataclass(frozen=True, slots=True)
class FormulaSheet:
    """One sheet of a workbook with formulas: how many rows it has, what its cells show (None: nothing), and
    the formula of each cell that holds one, by 0-based row and column.
    """

    height: int
    values: list[list[Cell | None]]
    formulas: dict[tuple[int, int], str]

    def value(self, row: int, column: int) -> Cell | None:
        """Return what a cell shows; None for an empty one, and for a formula that was never worked out."""
        if row >= len(self.values) or column >= len(self.values[row]):
            return None
        return self.values[row][column]


@dataclass(frozen=True, slots=True)
class FormulaBook:
    """A workbook with formulas: sheets by name, and what each defined name stands for (`Settings!$B$4`)."""

    file: str
    sheets: dict[str, FormulaSheet]
    names: dict[str, str]
