"""What a drawing of one cut plate shows, worded by whoever knows the shop; the drawings only place it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quoting.core import Outline
from quoting.nesting import CutPlate, NestPlate, NestProblem, Placement

_EM = 0.56
"""Width of an average letter over its height."""
_ROW = 1.25
"""Height of a row of text over that of its letters."""
_TURN_GAIN = 1.2
"""Text is turned upright when that makes it larger by this: one reads it without turning the head else."""


@dataclass(frozen=True, slots=True)
class PieceText:
    """What stands in a piece: its job's id as on all shop paper, and its size; `name` is what the customer
    calls it, for the list below the drawing."""

    label: str
    size: str
    name: str = ""


@dataclass(frozen=True, slots=True)
class PlateSheet:
    """One layout to draw: `heading` stands above it, `pieces` by piece id, `drops` in the order of the cut
    plate's drops, each as the rows of its text; `grain` is what stands at the grain arrow."""

    problem: NestProblem
    cut: CutPlate
    heading: tuple[str, ...]
    pieces: Mapping[str, PieceText]
    drops: tuple[tuple[str, ...], ...]
    grain: str = "grain"

    @property
    def plate(self) -> NestPlate:
        """Return the stock plate that is cut."""
        return self.problem.plate(self.cut.plate)

    def outline(self, placed: Placement) -> Outline:
        """Return the outline of a placed piece."""
        return self.problem.piece(placed.piece).outline

    def text(self, placed: Placement) -> PieceText:
        """Return the text of a placed piece, its bare id when none was given."""
        return self.pieces.get(placed.piece, PieceText(placed.piece, ""))

    def notes(self, placed: Placement) -> tuple[str, ...]:
        """Return what to mind with a piece: its grain, the heat number to mark on it."""
        piece = self.problem.piece(placed.piece)
        grain = "" if piece.turn else "keep to the grain"
        number = f"heat {self.plate.heat}" if self.plate.heat else "the heat number"
        return tuple(filter(None, (grain, f"mark {number} on it" if piece.needs_heat else "")))


def one_line(text: str) -> str:
    """Return text without line ends, control characters and halves of characters.

    >>> one_line("Tank\\r\\n 1\\x00")
    'Tank 1'
    """
    if not text.isprintable():
        text = "".join(letter if letter.isprintable() else " " for letter in text)
    return " ".join(text.split())


def letter_height(rows: tuple[str, ...], room: tuple[float, float], most: float) -> tuple[float, bool]:
    """Return the letter height at which rows of text fit into a room, and whether they stand upright.

    `room` is the extents along x and y, `most` the largest height, all in one unit.

    >>> letter_height(("1234567890",), (56.0, 20.0), 5.0)
    (5.0, False)
    >>> letter_height(("1234567890",), (20.0, 56.0), 5.0)
    (5.0, True)
    """
    flat, upright = (_fitting(rows, along, across, most) for along, across in (room, room[::-1]))
    return (upright, True) if upright > _TURN_GAIN * flat else (flat, False)


def _fitting(rows: tuple[str, ...], along: float, across: float, most: float) -> float:
    longest = max((len(row) for row in rows), default=1)
    return min(most, 0.9 * along / (_EM * max(longest, 1)), 0.9 * across / (_ROW * max(len(rows), 1)))


def legible_rows(text: PieceText, room: tuple[float, float], most: float, least: float) -> tuple[str, ...]:
    """Return what of a piece's text is legible in its room: id over size, both in a row, the id, or nothing.

    `most` and `least` are the largest and the smallest height of letters that will do, in the room's unit.

    >>> legible_rows(PieceText("A-1", "60 x 900"), (900.0, 60.0), 60.0, 20.0)
    ('A-1: 60 x 900',)
    """
    label, size = one_line(text.label), one_line(text.size)
    both = tuple(filter(None, (label, size)))
    ways = [both, (": ".join(both),)]
    best = max(ways, key=lambda rows: letter_height(rows, room, most)[0])
    for rows in (best, (label,)):
        if letter_height(rows, room, most)[0] >= least:
            return rows
    return ()
