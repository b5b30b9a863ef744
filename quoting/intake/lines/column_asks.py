"""A column whose heading is not understood and whose cells hold sizes: one question for the whole column."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from quoting.core import Choice, Place, Question, SizeError, column_letters, parse_measure
from quoting.intake.layout import OrderTable, TableColumn
from quoting.intake.row_record import Record
from quoting.tables import Sheet, is_empty, text_of

_HOLDERS = {
    "quantity": ("quantity", "breaks", "per_unit", "of_one_ring"),
    "thickness": ("thickness", "gauge", "size", "schedule"),
    "diameter": (
        "diameter",
        "radius",
        "large",
        "small",
        "size",
        "girth",
        "circumference",
        "chord",
        "arc_length",
        "nominal",
    ),
    "length": ("length", "width", "height", "slant", "size"),
}
_LABELS: dict[str, tuple[tuple[str, tuple[tuple[str, str], ...]], ...]] = {
    "quantity": (("the quantity", ()),),
    "thickness": (("the thickness", ()),),
    "diameter": (
        ("the inside diameter", (("basis", "inside"),)),
        ("the outside diameter", (("basis", "outside"),)),
    ),
    "length": (("the length", ()),),
}
_SHOWN = 4
_SHORT = 7
_ENOUGH = 0.8


@dataclass(frozen=True, slots=True)
class ColumnAsk:
    """A column that may hold what its table lacks: its name in ids, its place, cells, and the fields."""

    name: str
    place: Place
    shown: tuple[str, ...]
    fields: tuple[str, ...]

    def question(self, prefix: str) -> Question:
        """Return the question, with each field that the column may be as a choice."""
        choices = [
            Choice(label, ((self.name, field), *more))
            for field in self.fields
            for label, more in _LABELS[field]
        ]
        choices.append(Choice("nothing for the price, pass it on", ((self.name, "carried"),)))
        what = " or ".join(label for field in self.fields for label, _ in _LABELS[field])
        asked = (
            f'Column {self.place.column} is headed "{self.place.header}" and holds {", ".join(self.shown)}: '
            f"is it {what}?"
        )
        read = ", ".join(self.shown)
        return Question(f"{prefix}all/{self.name}", "", self.place, read, asked, tuple(choices))


def column_asks(
    sheet: Sheet, table: OrderTable, rows: Sequence[int], records: Sequence[Record]
) -> tuple[ColumnAsk, ...]:
    """Return a question for each column of sizes with an unknown heading, where the table lacks a size.

    The lines keep the cell, and wait for the one answer instead of asking each for itself.
    """
    held = {column.meaning.field for column in table.columns}
    lacking = tuple(
        field
        for field, holders in _HOLDERS.items()
        if not held & set(holders)
        and sum(_missing(record, field) for record in records) >= max(1, _ENOUGH * len(records))
    )
    asks = []
    for column in table.columns if lacking else ():
        cells = [(row, sheet.rows[row][column.index]) for row in rows if column.index < len(sheet.rows[row])]
        cells = [(row, cell) for row, cell in cells if not is_empty(cell)]
        if column.meaning.field or not cells:
            continue
        texts = [text_of(cell) for _, cell in cells]
        if sum(map(_is_size, texts)) < _ENOUGH * len(texts) or _counts_on(texts):
            continue
        asks.append(_ask(sheet, table, column, texts, lacking))
        by_row = dict(zip((row for row, _ in cells), texts, strict=True))
        for row, record in zip(rows, records, strict=True):
            if text := by_row.get(row):
                _wait(record, asks[-1], text, lacking)
    return tuple(asks)


def _ask(
    sheet: Sheet, table: OrderTable, column: TableColumn, texts: list[str], lacking: tuple[str, ...]
) -> ColumnAsk:
    letters = column_letters(column.index)
    place = Place(sheet.file, sheet.name, table.first_row + 1, letters, column.header)
    whole = all(text.isdecimal() for text in texts)
    fields = tuple(field for field in lacking if whole or field != "quantity")
    shown = tuple(dict.fromkeys(texts))[:_SHOWN]
    return ColumnAsk(f"column_{letters.lower()}{table.first_row + 1}", place, shown, fields or lacking)


def _wait(record: Record, ask: ColumnAsk, text: str, lacking: tuple[str, ...]) -> None:
    record.values[f"{ask.name}_cell"] = text
    waits = record.values.get("waits", "")
    record.values["waits"] = f"{waits},{ask.name}" if waits else ask.name
    for field in lacking:
        if _missing(record, field):
            del record.doubts[field]


def _missing(record: Record, field: str) -> bool:
    doubt = record.doubts.get(field)
    return doubt is not None and not doubt.read


def _counts_on(texts: list[str]) -> bool:
    """Return whether a column counts 1, 2, 3: it numbers the lines."""
    numbers = [int(text) for text in texts if text.isdecimal() and len(text) < _SHORT]
    steps = {after - before for before, after in pairwise(numbers)}
    return len(numbers) == len(texts) > 1 and steps <= {1, 5, 10}


def _is_size(text: str) -> bool:
    try:
        parse_measure(text)
    except SizeError:
        return False
    return True
