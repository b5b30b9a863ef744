"""The boxes in which the floor writes what really happened: one letter a box, the same on every paper.

A traveller, a week sheet and the floor book name a box by the job's id and its letter, `B-10 b`.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FloorBox:
    """One box: its letter, what the program calls it, what the papers call it."""

    letter: str
    field: str
    words: str

    @property
    def label(self) -> str:
        """Return the box's name with its letter, as printed."""
        return f"{self.letter} {self.words}"


FLOOR_BOXES = (
    FloorBox("a", "setup", "set-up min"),
    FloorBox("b", "run", "rolling min"),
    FloorBox("c", "both", "or both together"),
    FloorBox("d", "good", "good"),
    FloorBox("e", "scrap", "scrap"),
    FloorBox("f", "passes", "passes"),
    FloorBox("g", "readout", "last reading"),
    FloorBox("h", "girth", "girth"),
    FloorBox("i", "diameter", "inside diameter"),
    FloorBox("j", "heat", "heat no."),
    FloorBox("k", "by", "name"),
    FloorBox("l", "remark", "remark"),
)


def box_label(field: str) -> str:
    """Return the label of a box by what the program calls it.

    >>> box_label("run")
    'b rolling min'
    """
    return next(box.label for box in FLOOR_BOXES if box.field == field)
