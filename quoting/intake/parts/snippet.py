"""One piece of a text about a part."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from quoting.intake.parts.marks import Sense

FILLERS = frozenset((
    "of", "to", "is", "at", "on", "in", "the", "a", "an", "with", "w", "be", "approx", "nom", "nominal",
    "finished", "as", "and", "mm",
))  # fmt: skip
"""Words that may stand between a mark and its number."""
GRADE = "grade"
"""The sign of a stretch that names a grade."""


class Kind(StrEnum):
    """What a piece is: OTHER is a number that is no size, UNCLEAR one that can be read in two ways."""

    NUMBER = "number"
    MARK = "mark"
    TIMES = "times"
    BREAK = "break"
    WORD = "word"
    OTHER = "other"
    UNCLEAR = "unclear"


@dataclass(frozen=True, slots=True)
class Snippet:
    """One piece of a text: where it stands, and whether a space is before it.

    A number has its `value` in `unit`: mm, in, deg, ga, NPS, DN, sch (of a pipe, the schedule is its `sign`),
    or nothing where none is written. A share of the circle that is no size by itself (1/3 of a ring) is OTHER
    with its degrees. A mark has what it may mean, a sign of the text itself.
    """

    kind: Kind
    start: int
    end: int
    value: float = 0.0
    unit: str = ""
    means: tuple[Sense, ...] = ()
    sign: str = ""
    spaced: bool = False
