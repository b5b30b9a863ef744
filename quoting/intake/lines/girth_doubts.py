"""Drops the doubt whether a length is the girth where the other rows show that the column is axial."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.intake import shapes
from quoting.intake.row_record import Record

_FEWEST = 3


def drop_girth_doubts(records: Sequence[Record]) -> None:
    """Drop it where at most half of the lengths of a table, of three at least, are near their girth.

    So it is where another row has the same length and another girth: a column of lengths round has none.
    """
    sized = [
        record
        for record in records
        if shapes.has(record.values, "length") and not shapes.has(record.values, "width")
    ]
    doubted = [
        record
        for record in sized
        if "length" in record.doubts and "is about the girth" in record.doubts["length"].text
    ]
    if not doubted:
        return
    few = len(sized) >= _FEWEST and 2 * len(doubted) <= len(sized)
    axial = {record.values["length"] for record in sized if _far_from_girth(record)}
    for record in doubted:
        if few or record.values["length"] in axial:
            del record.doubts["length"]
            record.values["length_ok"] = "yes"


def _far_from_girth(record: Record) -> bool:
    """Return whether the length of a cylinder, or of so many degrees, is known and not its way round."""
    values = record.values
    girth, long = shapes.girth_of(values, 0.0), shapes.length(values, "length")
    kind = shapes.kind_of(values)
    told = kind == "cylinder" or (kind == "arc" and bool(values.get("angle")))
    return (
        told
        and "length" not in record.doubts
        and bool(girth and long)
        and not shapes.near(long or 0.0, girth or 0.0)
    )
