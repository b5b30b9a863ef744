"""Tells the rows under a header apart: parts, totals, notes and section titles."""

from __future__ import annotations

import re
from enum import StrEnum

from quoting.intake.layout.find_tables import OrderTable
from quoting.intake.layout.for_all import facts_in
from quoting.intake.layout.sheet_rules import SIZES
from quoting.tables import Cell, Sheet, is_empty, text_of

_TOTAL = re.compile(
    r"^\s*(?:to collection|carried (?:forward|over)|brought forward|c/f|b/f)\b"
    r"|^\s*(grand\s+|sub\s*-?\s*|(?:pcs|pieces|qty)\s+)?totals?\b(?!\s+(qty|length|width))"
    r"|^\s*sum\b",
    re.I,
)
_FEW = 3
_COSTLY = SIZES | {"quantity", "material", "gauge", "angle", "shape"}


class RowKind(StrEnum):
    """What a row under a header is."""

    PART = "part"
    TOTAL = "total"
    NOTE = "note"
    MORE = "more about the row above"


def row_kinds(sheet: Sheet, table: OrderTable) -> dict[int, RowKind]:
    """Return the kind of every row of a table."""
    fields = {column.index: column.meaning.field for column in table.columns}
    kinds: dict[int, RowKind] = {}
    running = 0.0
    for row in table.rows:
        if table.parts is not None:
            kinds[row] = RowKind.PART if row in table.parts else RowKind.NOTE
            continue
        kind, quantity = _kind(sheet.rows[row], fields, running)
        before = kinds.get(row - 1)
        if (
            kind is RowKind.NOTE
            and before in (RowKind.PART, RowKind.MORE)
            and _continues(sheet.rows[row], fields)
        ):
            kind = RowKind.MORE
        kinds[row] = kind
        running += quantity if kind is RowKind.PART else 0.0
    if (last := _said_for_all(sheet, kinds, fields)) is not None:
        kinds[last] = RowKind.NOTE
    return kinds


def _said_for_all(sheet: Sheet, kinds: dict[int, RowKind], fields: dict[int, str]) -> int | None:
    """Return the last row where it stands under the name of the last part, but says the grade or the side of
    the plate of all: no column gives it, and no other row goes on below itself.
    """
    more = [row for row, kind in kinds.items() if kind is RowKind.MORE]
    parts = [row for row, kind in kinds.items() if kind is RowKind.PART]
    if len(more) != 1 or more[0] != max(kinds) or len(parts) < 2:
        return None
    text = " ".join(text_of(cell) for cell in sheet.rows[more[0]] if not is_empty(cell))
    if "material" not in fields.values() and _OF_THE_GRADE.match(text):
        return more[0]
    return more[0] if facts_in(text).basis is not None else None


_NAMES_NO_SIZE = re.compile(
    r"(?!\W*(?:[io]\.?d|[io]/d|dia\w*|ø|r|rad\w*|d|t|s|l|lg|h|pl|plt|thk|ga|dn|nps|tb[acd]|ask|to|as)\b\W*\d?)"
    r"(?!\W*(?:ø|r|d|pl|dn)\d)[^\W\d_][^\d]*(?:\d+[^\d]*){0,2}",
    re.I,
)
"""Words, and at most two numbers behind them, that stand alone in a row: a grade or a note, and no size."""
_OF_THE_GRADE = re.compile(
    r"(?:all |in )*(?:mat(?:erial|l|'l|\.|\b)|grade|quality|(?:carbon |mild |stainless )?steel|plates?)\b",
    re.I,
)


def _kind(row: list[Cell], fields: dict[int, str], running: float) -> tuple[RowKind, float]:
    costly = sized = 0
    named = False
    filled = 0
    quantity = 0.0
    first = ""
    only_quantity = True
    for index, cell in enumerate(row):
        if cell.__class__ is str and is_empty(cell):
            continue
        filled += 1
        if not first:
            first = text_of(cell)
        field = fields.get(index, "")
        if field == "quantity":
            quantity = float(cell) if isinstance(cell, (int, float)) else _plain(cell)
        elif field in _COSTLY:
            only_quantity = False
        if field in _COSTLY:
            costly += 1
            sized += field in SIZES
        elif field in ("part_no", "description", "number", "drawing"):
            named = named or field != "number" or any(sign.isdecimal() for sign in text_of(cell)[:4])
    if filled == 1 and costly == 1 and len(fields) >= _FEW and _NAMES_NO_SIZE.fullmatch(first):
        return RowKind.NOTE, 0.0  # mat S235JR, below the first column
    few = costly <= _FEW and sized <= 1
    if _TOTAL.match(first) or (few and not _has_number(row, fields) and _says_total(row)):
        return RowKind.TOTAL, 0.0
    if costly == 1 and only_quantity and not named and quantity and quantity == running:
        return RowKind.TOTAL, 0.0
    if (
        costly == 1
        and not quantity
        and (_sentence(row, fields, figures=False) or (filled == 1 and _only_words(first)))
    ):
        return RowKind.NOTE, 0.0
    if costly >= 2 or (costly == 1 and (named or not _sentence(row, fields))):
        return RowKind.PART, quantity
    return (RowKind.PART, quantity) if _numbered(row, fields) else (RowKind.NOTE, 0.0)


def _continues(row: list[Cell], fields: dict[int, str]) -> bool:
    """Return whether a row holds only the rest of the description above it."""
    filled = [(fields.get(index, ""), text_of(cell)) for index, cell in enumerate(row) if not is_empty(cell)]
    return (
        len(filled) == 1
        and filled[0][0] in ("description", "remarks")
        and filled[0][1][:1] in "(+-&" + _SMALL
    )


_SMALL = "abcdefghijklmnopqrstuvwxyz"


def _says_total(row: list[Cell]) -> bool:
    return any(isinstance(cell, str) and _TOTAL.match(cell) for cell in row)


def _has_number(row: list[Cell], fields: dict[int, str]) -> bool:
    """Return whether the row has a line number or a part number."""
    return any(
        not is_empty(cell)
        for index, cell in enumerate(row)
        if fields.get(index) in ("number", "part_no", "drawing")
    )


def _plain(cell: Cell) -> float:
    text = text_of(cell)
    return float(text) if text.isdecimal() and len(text) < 7 else 0.0


def _sentence(row: list[Cell], fields: dict[int, str], *, figures: bool = True) -> bool:
    """Return whether the one costly cell of a row is rather a note that happens to stand in its column.

    With `figures` False a text with a figure in it does not count: it may be a size after all.
    """
    for index, cell in enumerate(row):
        if fields.get(index) in _COSTLY and not is_empty(cell):
            text = text_of(cell)
            plain = figures or not any(sign.isdecimal() for sign in text)
            return isinstance(cell, str) and len(text) > 12 and " " in text and plain
    return False


def _only_words(text: str) -> bool:
    """Return whether a cell that stands alone in its row holds words, two at least, and no figure."""
    return len(text.split()) > 1 and not any(sign.isdecimal() for sign in text)


def _numbered(row: list[Cell], fields: dict[int, str]) -> bool:
    """Return whether a row without sizes has a line number and a name, so that a part is meant."""
    number = name = False
    for index, cell in enumerate(row):
        if is_empty(cell):
            continue
        field = fields.get(index, "")
        text = text_of(cell)
        number = number or (field == "number" and len(text) <= 6 and text[:1].isdecimal())
        name = name or field in ("description", "part_no", "drawing")
    return number and name
