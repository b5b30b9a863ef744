"""Where a value of a record was read."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.record.schema.kinds import OneOrMore


@dataclass(frozen=True, slots=True)
class PlaceRecord:
    """File, sheet, 1-based row and column letter; `row` is None for a whole sheet."""

    file: str
    sheet: str
    row: OneOrMore | None
    column: str
