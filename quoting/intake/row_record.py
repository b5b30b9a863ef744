"""What one row of an order sheet gave so far: values, doubts and where they came from."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass

from quoting.core import Basis, Choice, Place, Question, Reading


@dataclass(frozen=True, slots=True)
class Doubt:
    """Something that must not be guessed, before it has a line to belong to.

    `for_many` asks the same of several lines, where `text` names a size of this one.
    """

    field: str
    place: Place
    read: str
    text: str
    choices: tuple[Choice, ...] = ()
    blocking: bool = True
    assumed: str = ""
    for_shop: bool = False
    refused: str = ""
    for_many: str = ""

    def question(self, line: str) -> Question:
        """Return the doubt as a question about a line; its id stays the same over runs of the same sheet."""
        return Question(
            f"{line}/{self.field}",
            line,
            self.place,
            self.read,
            self.text,
            self.choices,
            self.blocking,
            self.assumed,
            self.for_shop,
            self.refused,
        )


@dataclass(slots=True, eq=False)
class RowText:
    """A text of a row that is read word by word.

    `kind` is size (a column of sizes), description, remark or heading; `field` what a lone number in it is,
    `unit` that of its header, `order` the fields that its header lists (t x width x girth) with the sides
    in `bases`; `flat` tells of plate sizes before rolling, `free` of a column of remarks. Nothing changes
    one; it is not frozen because long sheets make nine of them a row, which then takes three times as long.
    """

    kind: str
    text: str
    place: Place
    header: str = ""
    field: str = ""
    unit: str = ""
    order: tuple[str, ...] = ()
    bases: dict[str, Basis] = dataclasses.field(default_factory=dict)
    flat: bool = False
    free: bool = False

    def at(self, place: Place) -> RowText:
        """Return the same text of another row."""
        return RowText(
            self.kind,
            self.text,
            place,
            self.header,
            self.field,
            self.unit,
            self.order,
            self.bases,
            self.flat,
            self.free,
        )


@dataclass(slots=True)
class Record:
    """The working state of one row.

    `values` holds field texts: lengths in mm as plain numbers, or `48u` while the unit is not known.
    """

    place: Place
    values: dict[str, str] = dataclasses.field(default_factory=dict)
    doubts: dict[str, Doubt] = dataclasses.field(default_factory=dict)
    readings: list[Reading] = dataclasses.field(default_factory=list)
    remarks: list[str] = dataclasses.field(default_factory=list)
    assumptions: list[str] = dataclasses.field(default_factory=list)
    places: dict[str, tuple[Place, str]] = dataclasses.field(default_factory=dict)
    work: list[tuple[str, str, str]] = dataclasses.field(default_factory=list)
    texts: list[RowText] = dataclasses.field(default_factory=list)

    def doubt(self, doubt: Doubt) -> None:
        """Keep the first doubt about a field."""
        self.doubts.setdefault(doubt.field, doubt)

    def where(self, *fields: str) -> tuple[Place, str]:
        """Return the cell (and its text) that the first of these fields was read from, or the row."""
        for name in fields:
            if name in self.places:
                return self.places[name]
        return self.place, ""


def number_text(value: float) -> str:
    """Return a number as `values` keep it: shortest text, rounded to a millionth.

    >>> number_text(48 * 25.4)
    '1219.2'
    """
    return f"{round(value, 6):.12g}"
