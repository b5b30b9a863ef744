"""Sheets that are no table of one part a row, turned into one: a part a column, a form, a mail."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from quoting.core import NumberStyle, Place, column_letters
from quoting.intake.layout.columns import Meaning
from quoting.intake.layout.find_tables import Layout, OrderTable, TableColumn, layout_of
from quoting.intake.texts import part_text
from quoting.shop import Materials
from quoting.tables import Cell, Sheet, is_empty, text_of

_FEWEST_LABELS = 3
_SIZES = frozenset((
    "thickness", "gauge", "diameter", "radius", "width", "length", "girth", "large", "small", "size",
    "height", "chord",
))  # fmt: skip
_RUN = re.compile(r"\s{2,}|\t")
_QUOTED = re.compile(r"^\s*[>|]")
_BULLET = re.compile(r"^\s*(?:\d{1,2}[.)]|[-–—•*·])\s+")

Recognise = Callable[[str], Meaning]


@dataclass(frozen=True, slots=True)
class ReshapedSheet(Sheet):
    """A sheet whose rows stand elsewhere in the file: `origin` holds the row, and the column or -1."""

    origin: tuple[tuple[int, int], ...] = ()

    def place(self, row: int, column: int | None = None, header: str = "") -> Place:
        """Return the address in the customer's file."""
        at, along = self.origin[row]
        return Place(self.file, self.name, at + 1, column_letters(along) if along >= 0 else "", header)


def reshaped(sheet: Sheet, recognise: Recognise, materials: Materials) -> tuple[Sheet, Layout]:
    """Return the sheet and its layout, turned into a table of one part a row if it can be."""
    layout = layout_of(sheet, recognise)
    if layout.tables or sheet.hidden:
        return sheet, layout
    spread = _spread_blanks(sheet)
    if spread is not None and (found := layout_of(spread, recognise)).tables:
        return spread, found
    labelled = _labelled(sheet, recognise)
    if labelled is not None:
        return labelled
    return _lines(sheet, materials) or (sheet, layout)


def _spread_blanks(sheet: Sheet) -> Sheet | None:
    """Return a sheet whose lines were pasted as text, its columns apart by runs of blanks."""
    rows: list[list[Cell]] = []
    split = 0
    for row in sheet.rows:
        filled = [cell for cell in row if not is_empty(cell)]
        parts = (
            [part for part in _RUN.split(filled[0].strip()) if part]
            if len(filled) == 1 and isinstance(filled[0], str)
            else []
        )
        split += len(parts) >= _FEWEST_LABELS
        rows.append([*parts] if len(parts) >= _FEWEST_LABELS else row)
    return replace(sheet, rows=rows) if split > 1 else None


def _labelled(sheet: Sheet, recognise: Recognise) -> tuple[Sheet, Layout] | None:
    """Return a table of the parts that stand along columns, or of the one part of a form."""
    labels: list[tuple[int, int, str, Meaning]] = []
    for at, row in enumerate(sheet.rows[:200]):
        column = 0
        while column < len(row) - 1:
            text = text_of(row[column])
            meaning = recognise(text) if text and not any(sign.isdecimal() for sign in text) else Meaning()
            if meaning.field and any(not is_empty(cell) for cell in row[column + 1 :]):
                labels.append((at, column, text, meaning))
                column += 1
            column += 1
    fields = {meaning.field for *_, meaning in labels}
    if len(fields) < _FEWEST_LABELS or len(fields & _SIZES) < 2:
        return None
    first = min(column for _, column, _, _ in labels)
    form = any(column > first + 1 for _, column, _, _ in labels)
    labels = labels if form else [one for one in labels if one[1] == first]
    ends = (first + 2,) if form else range(first + 2, max(len(row) for row in sheet.rows) + 1)
    columns = tuple(TableColumn(index, text, meaning) for index, (_, _, text, meaning) in enumerate(labels))
    rows: list[list[Cell]] = []
    origin: list[tuple[int, int]] = []
    for end in ends:
        cells: list[Cell] = []
        for at, column, _, _ in labels:
            value = column + 1 if form else end - 1
            cells.append(sheet.rows[at][value] if value < len(sheet.rows[at]) else "")
        if sum(not is_empty(cell) for cell in cells) >= max(_FEWEST_LABELS, len(labels) // 2):
            rows.append(cells)
            origin.append((labels[0][0], -1 if len(ends) == 1 else end - 1))
    used = {at for at, *_ in labels}
    rest = [
        at for at, row in enumerate(sheet.rows) if at not in used and any(not is_empty(cell) for cell in row)
    ]
    body = tuple(range(len(rows)))
    rows += [sheet.rows[at] for at in rest]
    origin += [(at, -1) for at in rest]
    table = OrderTable(columns, (), None, body, body)
    new = ReshapedSheet(sheet.file, sheet.name, rows, source=sheet.source, origin=tuple(origin))
    return new, Layout(tuple(range(len(body), len(rows))), (table,))


def _lines(sheet: Sheet, materials: Materials) -> tuple[Sheet, Layout] | None:
    """Return a table of one text column: a mail with a part a line, or cells that say what they are."""
    rows: list[list[Cell]] = []
    for row in sheet.rows:
        texts = [text_of(cell) for cell in row if not is_empty(cell)]
        rows.append([", ".join(texts)] if texts else [])
    parts = [at for at, row in enumerate(rows) if row and _is_part(str(row[0]), materials)]
    if not parts:
        return None
    first = parts[0]
    bullets = {at for at in parts if _BULLET.match(str(rows[at][0]))}
    if bullets:
        parts += [
            at
            for at in range(first, len(rows))
            if at not in parts and rows[at] and _BULLET.match(str(rows[at][0]))
        ]
    filled = [at for at, row in enumerate(rows) if row]
    above = tuple(at for at in filled if at < first)
    body = tuple(at for at in filled if at >= first)
    column = TableColumn(0, "", Meaning("description"))
    table = OrderTable((column,), (), None, body, tuple(sorted(parts)))
    return replace(sheet, rows=rows), Layout(above, (table,))


def _is_part(text: str, materials: Materials) -> bool:
    if _QUOTED.match(text):
        return False
    part = part_text(text, NumberStyle.POINT, materials)
    marked = [
        one
        for one in part.sizes
        if one.clear and (one.measure.mark or one.joined or one.measure.basis or one.measure.unit)
    ]
    return len(marked) >= 2 or (part.count is not None and bool(marked or (part.materials and part.sizes)))
