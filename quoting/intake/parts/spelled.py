"""The cells of a table that hold a whole part, written again with a mark at each size."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from quoting.intake.layout import TableContext
from quoting.intake.parts.pieces import Writing
from quoting.intake.parts.rewritten import rewritten
from quoting.intake.parts.sizes import Size
from quoting.intake.parts.told import Told, orders_in
from quoting.intake.texts import grade_spans, without_count
from quoting.tables import Cell, is_empty, text_of

_FIGURES = re.compile(r"[\d½⅓⅔¼¾⅛⅜⅝⅞]+(?:[.,][\d]+)*")
_LONGEST_LABEL = 3
_NUMBER_OF_LINE = re.compile(r"\d{1,4}[a-z]?|(?<![^\W\d_])[a-z](?![^\W\d_])", re.I)
_FEWEST, _SHORTEST, _LONGEST = 3, 9, 240
"""Fewer numbers or characters are no whole part; a longer text is a letter."""


@dataclass(frozen=True, slots=True)
class Spelled:
    """A cell whose text is written again: its column, both texts, its sizes as written, and their values."""

    index: int
    old: str
    new: str
    marked: tuple[str, ...]
    sizes: tuple[Size, ...]


class WholeParts:
    """Finds the cells of one table's rows that hold a whole part; each text is read once."""

    def __init__(self, frame: TableContext, columns: Sequence[int]) -> None:
        self._frame = frame
        self._columns = columns
        unit = frame.unit.unit
        self._writing = Writing(frame.style, inch=unit == "in", bare=unit in ("in", "mm"))
        self._told = _told(frame)
        self._known: dict[tuple[int, str], Spelled | None] = {}

    def of(self, cells: Sequence[Cell]) -> Spelled | None:
        """Return the one cell of a row that holds a whole part; nothing if no cell or two cells do."""
        found = None
        for index in self._columns:
            cell = cells[index] if index < len(cells) else ""
            if not isinstance(cell, str) or not _SHORTEST <= len(cell) <= _LONGEST:
                continue
            if (index, cell) not in self._known:
                self._known[index, cell] = self._spelled(index, cell)
            spelled = self._known[index, cell]
            if spelled is not None and found is not None:
                return None
            found = found or spelled
        return found

    def _spelled(self, index: int, cell: str) -> Spelled | None:
        """Return a cell written again: in the customer's own words, else in the English they are read as.

        What is no size in it is in English then as it was before.
        """
        if len(_FIGURES.findall(cell)) < max(1, _FEWEST - len(self._told.fields)):
            return None
        words = self._frame.translation
        for text in dict.fromkeys((words.own.get(cell, cell) if words else cell, cell)):
            frame = self._frame
            label, count, bare = without_count(text, frame.style, frame.materials)
            again = rewritten(bare, self._writing, grade_spans(bare, frame.materials), self._told)
            if again is not None:
                rest = again.words if text == cell or words is None else words.english(again.words)
                counted = [f"{count} off"] if count else []
                new = _led_by(label) + " ; ".join([*([rest] if rest else []), *again.marked, *counted])
                return Spelled(index, cell, new, again.marked, again.sizes)
        return None


def _led_by(label: str) -> str:
    """Return the number or the name of a line as it stands before a part: 1), Mk D1:."""
    number = _NUMBER_OF_LINE.search(label)
    if number is not None and len(label) < _LONGEST_LABEL:
        return f"{number.group()}) "
    return f"{label}: " if label else ""


_FIELDS = {"thickness": "T", "diameter": "D", "length": "L", "width": "L", "height": "L"}
_MOST_NOTES = 60


def _told(frame: TableContext) -> Told:
    """Return what the titles and notes of a sheet say of all parts of a table."""
    sheet, parts = frame.sheet, {*frame.table.rows, *frame.table.header_rows}
    fields = frozenset(letter for name, letter in _FIELDS.items() if frame.said.size(name))
    notes = [at for at in range(len(sheet.rows)) if at not in parts][:_MOST_NOTES]
    texts = (", ".join(text_of(cell) for cell in sheet.rows[at] if not is_empty(cell)) for at in notes)
    own = frame.translation.own if frame.translation else {}
    said = (one for text in texts for one in (text, own.get(text, "")) if one)
    return Told(fields, frame.basis is not None, orders_in(said))
