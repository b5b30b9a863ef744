"""What a customer asks for: shapes, order lines, and the questions that a doubtful cell turns into."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from typing import TypeAlias

from quoting.core.errors import Place, RangeError
from quoting.core.operations import EdgePrep, Extra, ToleranceAsked, WeldAsked


class Basis(StrEnum):
    """Which diameter (or radius) of the rolled part a dimension is taken on."""

    INSIDE = "inside"
    OUTSIDE = "outside"
    MEAN = "mean"


class Ends(StrEnum):
    """What happens to the two ends that a three-roll machine cannot bend to the very edge."""

    LEAVE_FLAT = "leave flat"
    PRE_BEND = "pre-bend"
    TRIM = "trim after rolling"


class State(StrEnum):
    """What became of a row of the customer's sheet."""

    PRICED = "priced"
    QUESTION = "question"
    NO_QUOTE = "no-quote"
    IGNORED = "ignored"


def mean_diameter(diameter_mm: float, basis: Basis, thickness_mm: float) -> float:
    """Return the mean diameter in mm: inside + t, outside - t, or the value itself.

    >>> round(mean_diameter(610, Basis.INSIDE, 25.4), 1)
    635.4
    """
    shift = {Basis.INSIDE: thickness_mm, Basis.OUTSIDE: -thickness_mm, Basis.MEAN: 0.0}[basis]
    return diameter_mm + shift


@dataclass(frozen=True, slots=True)
class Cylinder:
    """A closed cylinder; `length_mm` is the width across the roll."""

    diameter_mm: float
    basis: Basis
    length_mm: float

    def __post_init__(self) -> None:
        _positive(diameter_mm=self.diameter_mm, length_mm=self.length_mm)


@dataclass(frozen=True, slots=True)
class Arc:
    """A segment of a cylinder, `angle_deg` in (0, 360); a half shell is 180 degrees."""

    radius_mm: float
    basis: Basis
    angle_deg: float
    length_mm: float

    def __post_init__(self) -> None:
        _positive(radius_mm=self.radius_mm, length_mm=self.length_mm)
        if not 0 < self.angle_deg < 360:
            raise RangeError("arc angle", self.angle_deg, "more than 0 and less than 360 degrees")


@dataclass(frozen=True, slots=True)
class Cone:
    """A concentric cone frustum; both diameters on one basis, `height_mm` along the axis."""

    large_mm: float
    small_mm: float
    basis: Basis
    height_mm: float

    def __post_init__(self) -> None:
        _positive(large_mm=self.large_mm, small_mm=self.small_mm, height_mm=self.height_mm)
        if self.large_mm <= self.small_mm:
            raise RangeError(
                "cone large diameter", self.large_mm, f"more than the small one, {self.small_mm} mm"
            )


Shape: TypeAlias = Cylinder | Arc | Cone


@dataclass(frozen=True, slots=True)
class Reading:
    """One value as it was read: where it stands, the text in the cell, and what was made of it."""

    name: str
    place: Place
    text: str
    meaning: str

    def __init__(self, name: str, place: Place, text: str, meaning: str) -> None:
        """Fill the slots by their own setters, as a place does: long sheets have as many readings."""
        _NAME(self, name)
        _PLACE(self, place)
        _TEXT(self, text)
        _MEANING(self, meaning)


_NAME, _PLACE, _TEXT, _MEANING = (
    getattr(Reading, name).__set__ for name in ("name", "place", "text", "meaning")
)


@dataclass(frozen=True, slots=True)
class Choice:
    """One possible answer to a question; `fields` are the order-line fields it would set."""

    label: str
    fields: tuple[tuple[str, str], ...] = ()


_EXAMPLES = {
    "quantity": "4",
    "thickness": '1/4" or 6 mm',
    "size": '48" OD x 1/4" x 60" long',
    "line": '48" OD x 1/4" x 60" long',
    "angle": "180 degrees",
    "due": "14 April 2026",
    "material": "A36",
    "tolerance": "diameter +/- 1/8 in",
    "weld_gap": '1/8" or 3 mm',
}
"""An answer to each kind of question without choices; the others ask for a size."""
_FOR_SEVERAL = re.compile(r"^(?:same|told)_\d+_")
"""Begins the last part of the id of a question that is asked once for several lines."""


@dataclass(frozen=True, slots=True)
class Question:
    """One doubt about one line, for the customer to settle, or with `for_shop` for the shop itself.

    `blocking` questions keep the line from being priced; others only become assumptions. `refused` is an
    answer that was not understood.
    """

    id: str
    line: str
    place: Place
    read: str
    text: str
    choices: tuple[Choice, ...] = ()
    blocking: bool = True
    assumed: str = ""
    for_shop: bool = False
    refused: str = ""

    @property
    def told(self) -> str:
        """Return the text for the shop's own papers: whose it is, and which answer was not taken."""
        whose = " (for us to settle)" if self.for_shop else ""
        if not self.refused:
            return f"{self.text}{whose}"
        kind = _FOR_SEVERAL.sub("", self.id.rpartition("/")[2])
        example = _EXAMPLES.get(kind, '48" or 1200 mm')
        example = self.choices[0].label if self.choices else example
        refused = f' The answer "{self.refused}" was not understood; for example: {example}.'
        return f"{self.text}{whose}{refused}"


@dataclass(frozen=True, slots=True)
class Answer:
    """What was answered to a question, by its id: kept with the quote, and an assumption on its lines."""

    question: str
    line: str
    place: Place
    read: str
    text: str
    answer: str


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One line of a customer's order, fully understood, in mm.

    `number` is the customer's own line number; `id` is unique over all sheets of a run. `material` is a key
    of the shop's materials. `ends` and `weld_gap_mm` are None when the sheet does not say (the shop's rule
    decides). `yield_mpa` is a certificate value that replaces the grade's range. `edge_prep`, `weld` and
    `extras` are the work besides rolling that is wanted from us; `tolerances` are those read from the texts.
    """

    id: str
    number: str
    customer: str
    place: Place
    quantity: int
    shape: Shape
    thickness_mm: float
    material: str
    part_no: str = ""
    description: str = ""
    breaks: tuple[int, ...] = ()
    ends: Ends | None = None
    weld_gap_mm: float | None = None
    seam: str = ""
    re_round: bool = False
    grain_along: bool = False
    certificate: bool = False
    free_issue: bool = False
    drawn_revision: str = ""
    tolerance: str = ""
    yield_mpa: float | None = None
    due: date | None = None
    remarks: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    readings: tuple[Reading, ...] = ()
    edge_prep: EdgePrep | None = None
    weld: WeldAsked | None = None
    extras: tuple[Extra, ...] = ()
    tolerances: tuple[ToleranceAsked, ...] = ()

    def __post_init__(self) -> None:
        _positive(thickness_mm=self.thickness_mm, quantity=self.quantity)


@dataclass(frozen=True, slots=True)
class Alternative:
    """The order line that one choice, by its label, of one question, by its id, would give."""

    question: str
    choice: str
    line: OrderLine


@dataclass(frozen=True, slots=True)
class Draft:
    """A line as far as it was read: the field texts that an order line is built from.

    `values` are a field's name and its text, as in `Choice.fields`: lengths in mm, angles in degrees.
    """

    id: str
    number: str
    place: Place
    values: tuple[tuple[str, str], ...]
    remarks: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    readings: tuple[Reading, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetRow:
    """The account of one row of the customer's sheet: nothing is lost."""

    place: Place
    state: State
    number: str
    reason: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class Order:
    """All that was read from one customer's file.

    `lines` can be priced as they stand. `drafts` are the lines that a question is asked about, waiting
    or not, from which answers make order lines; `answers` are those already taken. A question whose `line`
    is empty is about the whole file. Every non-empty row of every sheet has one entry in `rows` (PRICED:
    "read, goes on to pricing"). An order that came by mail says whom to answer, and which message;
    `language` is the customer's for quote and mail, empty for English. `terms` are what the sheet says of
    mere business (payment, delivery, papers): read, priced nowhere, for the estimator to read.
    """

    file: str
    customer: str
    reference: str = ""
    contact: str = ""
    lines: tuple[OrderLine, ...] = ()
    questions: tuple[Question, ...] = ()
    rows: tuple[SheetRow, ...] = ()
    notes: tuple[str, ...] = field(default=())
    metric: bool = False
    drafts: tuple[Draft, ...] = ()
    answers: tuple[Answer, ...] = ()
    reply_to: str = ""
    message_id: str = ""
    language: str = ""
    terms: tuple[str, ...] = ()


def _positive(**values: float) -> None:
    for name, value in values.items():
        if not value > 0:
            raise RangeError(name, value, "more than 0")
