"""What a drawing is made of, whatever it is written as: lines and arcs, circles, words.

A sketch has its own unit, x to the right and y upwards; `per_mm` says how many of them are one mm of paper.
Pens, letters and hatches are given in mm of paper. `quoting.drawings.sketch` writes a sketch as SVG, into a
PDF page, or as PNG.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan, ceil, cos, hypot, pi, sin
from typing import Literal, TypeAlias

from quoting.drawings.cut_path import Path, Vertex

Anchor = Literal["start", "middle", "end"]
INK, QUIET, PAPER = "#000000", "#5A5A5A", "#FFFFFF"
_ARC_STEP = pi / 60


@dataclass(frozen=True, slots=True)
class Pen:
    """A line: width in mm of paper, colour, and the lengths of dashes and gaps in mm of paper."""

    mm: float = 0.35
    ink: str = INK
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """A path of straight lines and arcs; `fill` is a colour, `hatch` the mm between slanting lines."""

    path: Path
    pen: Pen | None = Pen()
    closed: bool = True
    fill: str = ""
    hatch: float = 0.0


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle; with `mm` the radius is in mm of paper, else in the sketch's unit."""

    x: float
    y: float
    radius: float
    pen: Pen | None = Pen()
    fill: str = ""
    mm: bool = False


@dataclass(frozen=True, slots=True)
class Words:
    """One row of text, `mm` high, its base line at (x, y); `turn` is degrees counterclockwise.

    `behind` is the colour of a box behind the letters.
    """

    x: float
    y: float
    text: str
    mm: float = 3.0
    anchor: Anchor = "start"
    bold: bool = False
    turn: float = 0.0
    ink: str = INK
    behind: str = ""


@dataclass(frozen=True, slots=True)
class Blocks:
    """Many rectangles of one colour, without edges: low corner and extents of each."""

    boxes: tuple[tuple[float, float, float, float], ...]
    fill: str = INK


Item: TypeAlias = Line | Disc | Words | Blocks


@dataclass(frozen=True, slots=True)
class Sketch:
    """Items on a sheet from `x`, `y` (low corner), `width` and `height` in the sketch's unit.

    Nothing outside the sheet is shown. `title` says in words what is drawn.
    """

    x: float
    y: float
    width: float
    height: float
    per_mm: float
    items: tuple[Item, ...]
    title: str

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return width and height on paper."""
        return self.width / self.per_mm, self.height / self.per_mm


def open_line(*points: tuple[float, float], pen: Pen = Pen()) -> Line:
    """Return a line through points that is not closed."""
    return Line(tuple(Vertex(x, y) for x, y in points), pen, closed=False)


def corners(line: Line) -> list[tuple[float, float]]:
    """Return the points of a line with its arcs as chords of three degrees.

    >>> quarter = Line((Vertex(1, 0, 0.41421356), Vertex(0, 1)), closed=False)
    >>> max(abs(hypot(x, y) - 1) for x, y in corners(quarter)) < 1e-6
    True
    """
    path = line.path
    ends = (*path[1:], path[0]) if line.closed else path[1:]
    points = [(path[0].x, path[0].y)]
    for start, end in zip(path, ends, strict=False):
        bent = start.bulge and hypot(end.x - start.x, end.y - start.y) > 0
        points += _arc(start, end) if bent else [(end.x, end.y)]
    return points


def _arc(start: Vertex, end: Vertex) -> Iterator[tuple[float, float]]:
    x, y, turn = arc_centre(start, end)
    steps = max(2, ceil(abs(turn) / _ARC_STEP))
    off_x, off_y = start.x - x, start.y - y
    for step in range(1, steps + 1):
        a = turn * step / steps
        yield x + off_x * cos(a) - off_y * sin(a), y + off_x * sin(a) + off_y * cos(a)


def arc_centre(start: Vertex, end: Vertex) -> tuple[float, float, float]:
    """Return the centre of the arc between two corners, and the angle in rad that it turns through."""
    turn = 4 * atan(start.bulge)
    chord = hypot(end.x - start.x, end.y - start.y)
    up = chord / 2 * (1 - start.bulge**2) / (2 * start.bulge)
    x, y = (start.x + end.x) / 2, (start.y + end.y) / 2
    across, along = (end.y - start.y) / chord, (end.x - start.x) / chord
    return x - up * across, y + up * along, turn
