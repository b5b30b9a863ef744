"""Marks on the lines of a chart, told apart by their shape: for pictures that are printed in grey."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin
from typing import Literal

from quoting.drawings.cut_path import Vertex
from quoting.drawings.sketch import PAPER, Disc, Item, Line, Pen, open_line

Mark = Literal["disc", "square", "up", "diamond", "down", "cross"]
MARKS: tuple[Mark, ...] = ("disc", "square", "up", "diamond", "down", "cross")
_SIZE, _STAR = 0.75, 2.4
_CORNERS: dict[Mark, tuple[tuple[float, float], ...]] = {
    "square": ((-1, -1), (1, -1), (1, 1), (-1, 1)),
    "up": ((-1.1, -0.9), (1.1, -0.9), (0, 1.2)),
    "diamond": ((0, -1.3), (1.1, 0), (0, 1.3), (-1.1, 0)),
    "down": ((-1.1, 0.9), (0, -1.2), (1.1, 0.9)),
}


def mark(kind: Mark, x: float, y: float, ink: str) -> Iterator[Item]:
    """Yield a mark at a point, in a sketch whose unit is the mm."""
    if kind == "disc":
        yield Disc(x, y, _SIZE, None, fill=ink)
    elif kind == "cross":
        yield open_line((x - _SIZE, y - _SIZE), (x + _SIZE, y + _SIZE), pen=Pen(0.35, ink))
        yield open_line((x - _SIZE, y + _SIZE), (x + _SIZE, y - _SIZE), pen=Pen(0.35, ink))
    else:
        yield _filled(tuple((x + _SIZE * a, y + _SIZE * b) for a, b in _CORNERS[kind]), ink)


def star(x: float, y: float) -> Line:
    """Return an open star with five points."""
    radii = (_STAR, 0.42 * _STAR)
    corners = ((radii[n % 2], pi / 2 + n * pi / 5) for n in range(10))
    path = tuple(Vertex(x + r * cos(a), y + r * sin(a)) for r, a in corners)
    return Line(path, Pen(0.3), fill=PAPER)


def _filled(corners: tuple[tuple[float, float], ...], ink: str) -> Line:
    return Line(tuple(Vertex(*corner) for corner in corners), None, fill=ink)
