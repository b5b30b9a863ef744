"""What stands in a row of the floor book, and under which headings it is found again."""

from __future__ import annotations

import re
from dataclasses import dataclass

from quoting.ledger import FloorReport, FloorTask
from scheduler.jobs import FLOOR_BOXES

SET_STATE = "set state"
PLAN_WORD = "plan"
"""The word before the plan's name in the head of each sheet."""


def _plain(text: str) -> str:
    """Return a heading as tables are found by: small letters without punctuation."""
    return " ".join(re.sub(r"[^a-z0-9/]+", " ", text.casefold()).split())


HEADINGS: dict[str, tuple[str, ...]] = {
    "task": ("job",),
    "day": ("day",),
    "state": (SET_STATE,),
    **{box.field: (_plain(box.label), _plain(box.words)) for box in FLOOR_BOXES},
}
"""The words of each heading; a box is known with its letter and without."""


@dataclass(frozen=True, slots=True)
class FloorRow:
    """One task as the book prints it: what it is, where the job stands, and what was written down so far."""

    task: FloorTask
    customer: str
    part: str
    state: str
    known: FloorReport | None = None
