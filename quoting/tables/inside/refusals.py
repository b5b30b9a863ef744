"""Why the inside of a file is refused, and what would do."""

from __future__ import annotations

from dataclasses import dataclass, field

RESAVE = "open it in a spreadsheet program and save it as .xlsx"
SMALLER = "send the order lines alone, in a new workbook"
SUSPECT = "do not open it; ask the sender what it is"
UNLOCK = "ask for a copy without the password"
DAMAGED = "it is cut off or damaged"


class RefusedError(Exception):
    """The inside of the file breaks a rule; the text says which, and `would_do` what would do."""

    def __init__(self, reason: str, would_do: str = RESAVE) -> None:
        self.would_do = would_do
        super().__init__(reason)


def reaches_too_far(rows: int, columns: int) -> str:
    """Return why a sheet of this many rows and columns, counted from A1, is refused."""
    return f"a sheet reaches over {rows:,} rows x {columns:,} columns, more than the limit"


@dataclass(slots=True)
class SheetFacts:
    """What a file says of one sheet beyond its values; rows and columns count from 0."""

    hidden_rows: set[int] = field(default_factory=set)
    hidden_columns: set[int] = field(default_factory=set)
    errors: dict[tuple[int, int], str] = field(default_factory=dict)
    units: dict[tuple[int, int], str] = field(default_factory=dict)
    struck: set[tuple[int, int]] = field(default_factory=set)
    merged: list[tuple[int, int, int, int]] = field(default_factory=list)
    merged_cells: int = 0
    comments: dict[tuple[int, int], str] = field(default_factory=dict)
    boxes: list[str] = field(default_factory=list)
    asides: tuple[str, ...] = ()
    cells: int = 0
