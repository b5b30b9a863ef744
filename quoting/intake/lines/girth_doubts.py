"""Drops the doubt whether a length is the girth where the other rows show that the column is axial."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.intake import shapes
from quoting.intake.row_record import Record

_FEWEST = 4


def drop_girth_doubts(records: Sequence[Record]) -> None:
    """Drop it where fewer than half of the lengths of a table, of four at least, are near their girth."""
    sized = [record for record in records if shapes.has(record.values, "length")]
    doubted = [
        record
        for record in sized
        if "length" in record.doubts and "is about the girth" in record.doubts["length"].text
    ]
    if len(sized) < _FEWEST or 2 * len(doubted) >= len(sized):
        return
    for record in doubted:
        del record.doubts["length"]
        record.values["length_ok"] = "yes"
