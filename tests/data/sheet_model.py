"""How a customer's sheet and its careful reading are written down in the second and the unseen corpus.

A sheet is rows of cells as a customer typed them. Beside each row that could be a part stands a `Want`: what
a careful estimator would make of it. Customers, parts and numbers are invented; the readings were stated from
outside, before the reader under test was looked at or run. Lengths in mm, angles in degrees; the day of
reading is `TODAY`. Constructors are in `sheet_parts`, the kinds of doubt in `sheet_doubts`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import StrEnum
from typing import TypeAlias

TODAY = date(2026, 11, 30)
IN = 25.4
FT = 304.8
ID, OD, MEAN = "ID", "OD", "mean"
FLATS, PRE_BENT, TRIMMED = "leave flat", "pre-bend", "trim after rolling"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of rolled work: a cylinder has `d`, an arc `radius` and `angle`, a cone `large`, `small`.

    `length` is the width across the roll (a cone's height along its axis). `mat` lists spellings that are
    right, with | between. What is left empty or None is not compared. `say` names doubts that a reading must
    mention although the line can be priced.
    """

    shape: str
    t: float
    basis: str
    length: float
    d: float = 0.0
    radius: float = 0.0
    angle: float = 0.0
    large: float = 0.0
    small: float = 0.0
    n: int = 1
    mat: str = ""
    ends: str = ""
    due: date | None = None
    part: str = ""
    rev: str = ""
    free: bool | None = None
    cert: bool | None = None
    say: tuple[str, ...] = ()


class Expect(StrEnum):
    """What a careful estimator does with a row."""

    LINE = "line"
    ASK = "ask"
    IGNORE = "ignore"
    LINE_OR_ASK = "line or ask"


@dataclass(frozen=True, slots=True)
class Want:
    """The careful reading of a row: each of `readings` is a whole one (mostly one reading of one line).

    `doubts` are keys of `SHEET_DOUBTS`, any of which a good question is about; `or_left_out` says that a row
    left out with a reason is as good as a question (work that no plate roll does).
    """

    kind: Expect
    readings: tuple[tuple[Line, ...], ...] = ()
    doubts: tuple[str, ...] = ()
    why: str = ""
    or_left_out: bool = False


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell with a look of its own; `struck` is crossed-out text before the value."""

    value: str | float | date | None
    fmt: str = ""
    strike: bool = False
    bold: bool = False
    struck: str = ""
    comment: str = ""


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula and the value that the customer's spreadsheet had worked out."""

    text: str
    value: float | str


CellValue: TypeAlias = str | int | float | date | datetime | Cell | Formula | None


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a tab; without `want` it is no part (title, heading, note, blank) and must not be priced."""

    cells: tuple[CellValue, ...]
    want: Want | None = None
    strike: bool = False
    bold: bool = False
    hidden: bool = False


@dataclass(frozen=True, slots=True)
class Part:
    """Where a part stands: rows (from 1) of a tab, and the column (from 1) when a row holds several parts."""

    want: Want
    first: int
    last: int
    column: int = 0
    number: str = ""
    tab: str = ""


@dataclass(frozen=True, slots=True)
class Tab:
    """One page of a book; `parts` are those that are not one row each (transposed, a data sheet)."""

    name: str
    rows: tuple[Row, ...]
    merged: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
    hidden: bool = False
    hidden_columns: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """One customer's file: `kind` is xlsx, ods, csv, tsv or txt; `about` says what is odd in it."""

    name: str
    kind: str
    language: str
    about: str
    tabs: tuple[Tab, ...]
    encoding: str = "utf-8"
    separator: str = ","
    may_refuse: bool = False

    def parts(self) -> tuple[Part, ...]:
        """Return every part with its place, in the order of the file."""
        found: list[Part] = []
        for tab in self.tabs:
            rows = (
                Part(row.want, number, number, tab=tab.name)
                for number, row in enumerate(tab.rows, 1)
                if row.want is not None
            )
            found += rows
            found += [replace(part, tab=tab.name) for part in tab.parts]
        return tuple(found)
