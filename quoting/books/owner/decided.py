"""Lines under the floor or priced by hand: by how much, why, and who allowed it."""

from __future__ import annotations

from decimal import Decimal

from quoting.books.look import BookColumn, BookSheet
from quoting.books.owner.tables import COLUMNS
from quoting.record import OwnersFigures, QuotedLine

_HEADS = (
    BookColumn("Under the floor, or priced by hand", 0),
    BookColumn("Floor", 0, "line"),
    BookColumn("Quoted, each", 0, "money"),
    BookColumn("Floor, each", 0, "money"),
    BookColumn("Short of the floor", 0, "money"),
)
_WHY, _WHO = 5, 8


def decided_table(sheet: BookSheet, row: int, found: OwnersFigures) -> int:
    """Write the table, or one sentence when there is nothing to say; return the row after it."""
    last = len(COLUMNS) - 1
    if not found.decided:
        sheet.wide(row, 0, last, "No line is under the floor, and none is priced by hand.", "bold")
        return row + 1
    sheet.heads(row, _HEADS)
    sheet.wide(row, _WHY, _WHO - 1, "Why", "head inset")
    sheet.wide(row, _WHO, last, "Allowed by", "head inset")
    for line in found.decided:
        row += 1
        _line(sheet, row, line, last)
    return row + 1


def _line(sheet: BookSheet, row: int, line: QuotedLine, last: int) -> None:
    sheet.text(row, 0, f"{line.customer} {line.number}")
    sheet.text(row, 1, "UNDER" if line.under_floor else "kept", "bold" if line.under_floor else "line")
    sheet.number(row, 2, line.unit, "money")
    sheet.number(row, 3, line.floor_unit, "money")
    sheet.number(row, 4, max(line.floor_unit - line.unit, Decimal(0)), "money")
    sheet.wide(row, _WHY, _WHO - 1, line.reason or "no reason is written", "text inset")
    sheet.wide(row, _WHO, last, line.by or "nobody named", "text inset")
