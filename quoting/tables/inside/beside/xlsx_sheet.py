"""Follows the rows and cells of one sheet of an .xlsx."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from quoting.tables.inside.refusals import SMALLER, SUSPECT, RefusedError, SheetFacts, reaches_too_far
from quoting.tables.inside.xml_walk import Walk, whole
from quoting.tables.limits import Limits

_ROWS, _COLUMNS = 1_048_576, 16_384
_FIGURES, _LETTERS = 7, 3
_MOST_LETTERS = 1_000
_NO_FIGURES = "\0"
"""No address ends with it: XML has no such sign."""
_TRUE = ("1", "true")
_NO_RESULT = "a formula without a result"


class SheetWalk:
    """Follows the rows and cells of one sheet as the fast reader does, and adds up what it will lay out."""

    def __init__(
        self, walk: Walk, limits: Limits, units: Mapping[str, str], crossed: frozenset[str] = frozenset()
    ) -> None:
        self._walk, self._limits, self._units, self._crossed = walk, limits, units, crossed
        self._facts = SheetFacts()
        self._line = self._row = self._column = -1
        self._height = self._width = 0
        self._error = self._formula = self._valued = False
        self._text: list[str] = []
        self._figures = _NO_FIGURES
        self._letters: dict[str, int] = {}

    def facts(self, data: bytes) -> SheetFacts:
        """Return what one part says; a part that is no sheet says nothing."""
        self._walk.over(data, self._start)
        return self._facts

    def _start(self, tag: str, given: Mapping[str, str]) -> None:
        if tag == "c":
            self._cell(given)
        elif tag == "row":
            self._line = whole(given.get("r"), otherwise=self._line + 2, most=_ROWS) - 1
            self._column = -1
            self._figures = str(self._line + 1) if self._line >= 0 else _NO_FIGURES
            if given.get("hidden") in _TRUE:
                self._facts.hidden_rows.add(self._line)
        elif tag == "v":
            plain = not (self._formula or self._error)
            if not plain or self._row >= self._height or self._column >= self._width:
                self._content(tag)  # most values stand plainly inside what is laid out already
        elif tag in ("is", "f"):
            self._content(tag)
        elif tag == "col" and given.get("hidden") in _TRUE and len(self._facts.hidden_columns) < _COLUMNS:
            first = whole(given.get("min"), otherwise=1, most=_COLUMNS)
            last = whole(given.get("max"), otherwise=first, most=_COLUMNS)
            self._facts.hidden_columns.update(range(first - 1, last))
        elif tag == "mergeCell":
            self._facts.merged_cells += _cells_of(given.get("ref", ""))

    def _cell(self, given: Mapping[str, str]) -> None:
        address = given.get("r")
        if address is None:
            self._row, self._column = self._line, self._column + 1
        else:
            column = self._letters.get(address[: -len(self._figures)])
            if column is not None and address.endswith(self._figures):  # as nearly every cell of a row
                self._row, self._column = self._line, column
            else:
                self._row, self._column = row_and_column(address)
                self._keep(address)
        self._error = given.get("t") == "e"
        self._formula = self._valued = False
        if self._text:
            self._text = []
        if self._units or self._crossed:
            look = given.get("s", "")
            if unit := self._units.get(look):
                self._facts.units[self._row, self._column] = unit
            if look in self._crossed:
                self._facts.struck.add((self._row, self._column))
        if self._error:
            self._walk.listen(self._text.append, self._end)

    def _keep(self, address: str) -> None:
        """Keep the letters of a column: the next rows have the same."""
        if len(self._letters) < _MOST_LETTERS:
            self._letters[address.rstrip("0123456789")] = self._column

    def _content(self, tag: str) -> None:
        """Take a value or formula of a cell; one that only carries a format does not count."""
        if self._row >= self._height or self._column >= self._width:
            self._height, self._width = max(self._height, self._row + 1), max(self._width, self._column + 1)
            self._facts.cells = self._height * self._width
            if self._facts.cells > self._limits.cells or self._height > self._limits.rows:
                raise RefusedError(reaches_too_far(self._height, self._width), SMALLER)
        if tag == "f":
            self._formula = True
            self._walk.listen(self._text.append, self._end)
        elif self._formula or self._error:
            self._text.clear()  # the text of the formula; what follows is its result
            self._valued = tag == "is"

    def _end(self, tag: str) -> None:
        """Note an error cell, and a formula whose result the file does not hold."""
        if tag == "f":
            self._text.clear()
        elif tag == "v":
            self._valued = bool(self._text)
        elif tag == "c":
            shown = "".join(self._text).strip()[:20]
            if self._error and shown:
                self._facts.errors[self._row, self._column] = shown
            elif self._error or not self._valued:
                self._facts.errors[self._row, self._column] = _NO_RESULT
            self._walk.listen(None, None)


def _cells_of(area: str) -> int:
    """Return how many cells an area such as A1:B2 has; 0 where it is none that a spreadsheet has."""
    first, _, last = area.partition(":")
    try:
        (top, left), (bottom, right) = row_and_column(first), row_and_column(last)
    except RefusedError:
        return 0
    return max(0, bottom - top + 1) * max(0, right - left + 1)


def row_and_column(address: str) -> tuple[int, int]:
    """Return the row and the column of a cell, counted from 0.

    Raises RefusedError when there is no such cell in a spreadsheet.

    >>> row_and_column("B3")
    (2, 1)
    """
    letters = address.rstrip("0123456789")
    digits = address[len(letters) :]
    if len(letters) <= _LETTERS and 0 < len(digits) <= _FIGURES:
        row, column = int(digits), _column(letters)
        if 0 < row <= _ROWS and 0 < column <= _COLUMNS:
            return row - 1, column - 1
    raise RefusedError(f'"{address[:20]}" is no cell that a spreadsheet has', SUSPECT)


@lru_cache(maxsize=1_000)
def _column(letters: str) -> int:
    """Return the number of a column counted from 1; 0 when these are no letters of one."""
    if not letters.isascii() or not letters.isalpha():
        return 0
    column = 0
    for letter in letters:
        column = column * 26 + (ord(letter) & 31)
    return column
