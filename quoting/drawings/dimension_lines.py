"""Dimension lines of a drawing on paper, in mm: arrows, values above the line, letters that fit it."""

from __future__ import annotations

from quoting.drawings.cut_path import Vertex
from quoting.drawings.sketch import PAPER, QUIET, Item, Line, Pen, Words, open_line

THICK, THIN, DASHED = Pen(0.5), Pen(0.2), Pen(0.2, QUIET, (2.5, 1.2))
SIZE_MM, NAME_MM, LEAST_MM = 4.4, 3.2, 2.85
"""Letters of a value, of its name, and the least that are read: 8 points."""
_ARROW_MM = 2.2


def below_edge(y: float, x: float, x2: float, words: str, edge: float) -> list[Item]:
    """Draw a dimension line from x to x2 under an edge, its value above it."""
    items: list[Item] = [open_line((at, edge - 0.8), (at, y - 1.2), pen=THIN) for at in (x, x2)]
    items += [open_line((x, y), (x2, y), pen=THIN), arrow((x, y), (1, 0)), arrow((x2, y), (-1, 0))]
    size = fitting(words, x2 - x)
    return [*items, Words((x + x2) / 2, y + 0.9, words, size, "middle", bold=True, behind=PAPER)]


def beside_edge(x: float, y: float, y2: float, words: str, edge: float) -> list[Item]:
    """Draw a dimension line from y to y2 left of an edge, its value beside it, read from the right."""
    items: list[Item] = [open_line((edge - 0.8, at), (x - 1.2, at), pen=THIN) for at in (y, y2)]
    items += [open_line((x, y), (x, y2), pen=THIN), arrow((x, y), (0, 1)), arrow((x, y2), (0, -1))]
    return [
        *items,
        Words(x - 0.9, (y + y2) / 2, words, fitting(words, y2 - y), "middle", bold=True, turn=90),
        Words(x - 5.9, (y + y2) / 2, "across the roll", NAME_MM, "middle", turn=90, ink=QUIET),
    ]


def fitting(words: str, room: float) -> float:
    """Return the size of letters at which a value stands within its line, else the least that is read."""
    return max(LEAST_MM, min(SIZE_MM, 0.95 * room / (0.56 * len(words))))


def arrow(at: tuple[float, float], into: tuple[int, int]) -> Line:
    """Return a filled arrow head at a point, its body towards `into`."""
    (x, y), (a, b) = at, into
    back = x + a * _ARROW_MM, y + b * _ARROW_MM
    side = b * _ARROW_MM / 6, a * _ARROW_MM / 6
    tips = ((x, y), (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1]))
    return Line(tuple(Vertex(*tip) for tip in tips), None, fill="#000000")
