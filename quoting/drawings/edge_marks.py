"""What a blank carries beside its sizes: prepared edges in plan and section, where the next seam may stand.

A prepared edge has a thin second line inside it; the section beside the blank shows angle and land. Nobody's
order says which face a single bevel opens to unless by drawing, so that is a box to tick, never a guess.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, radians, sin, tan

from quoting.core import EdgeKind, EdgePlace, EdgePrep
from quoting.drawings.cut_path import Vertex, box_path
from quoting.drawings.sketch import PAPER, Item, Line, Pen, Words, open_line

_MARK = Pen(0.25)
_IN_MM = 1.3
_PLATE_MM, _BODY_MM = 8.0, 15.0
_TEXT_MM = 3.0
_TICK = "opens to: ask, tick"
SECTION_MM = 29.0
"""Room on paper that the section beside a blank takes."""


@dataclass(frozen=True, slots=True)
class BlankExtras:
    """Edges to prepare, and how far off along the girth the next course's seam must be, in mm (0: none)."""

    prep: EdgePrep | None = None
    seam_offset_mm: float = 0.0


def edge_rows(prep: EdgePrep, length: Callable[[float], str]) -> tuple[str, ...]:
    """Return a preparation in short rows: what, angle, land, which edges as the drawing names them.

    >>> edge_rows(EdgePrep(EdgeKind.BEVEL, EdgePlace.SEAM, 2, 37.5, 1.5), lambda mm: f"{mm:g} mm")
    ('single bevel', '37.5°', 'land 1.5 mm', 'edges A and B')
    """
    form = f"{prep.angle_deg:g}°" if prep.angle_deg else ""
    land = f"land {length(prep.land_mm)}" if prep.land_mm else ""
    kind = "ground square" if prep.kind is EdgeKind.SQUARE else prep.kind.value
    return tuple(filter(None, (kind, form, land, _which(prep))))


def _which(prep: EdgePrep) -> str:
    if prep.place is EdgePlace.ALL:
        return "all edges" if prep.edges == 4 else f"{prep.edges} edges of 4"
    if prep.place is EdgePlace.SEAM:
        return "edges A and B" if prep.edges == 2 else "A or B: circle it"
    return "both shell ends" if prep.edges == 2 else "one shell end: mark"


def one_sided(prep: EdgePrep) -> bool:
    """Return whether a preparation opens to one face only."""
    return prep.kind in (EdgeKind.BEVEL, EdgeKind.J)


def edge_lines(prep: EdgePrep, x: float, y: float, dx: float, dy: float) -> list[Item]:
    """Return the second lines inside the prepared edges of a rectangle; dashed where it may be either."""
    pen = _MARK if prep.edges in (2, 4) else Pen(0.25, dash=(2.0, 1.0))
    found: list[Item] = []
    if prep.place in (EdgePlace.SEAM, EdgePlace.ALL):
        found += [open_line((at, y), (at, y + dy), pen=pen) for at in (x + _IN_MM, x + dx - _IN_MM)]
    if prep.place in (EdgePlace.ENDS, EdgePlace.ALL):
        found += [open_line((x, at), (x + dx, at), pen=pen) for at in (y + _IN_MM, y + dy - _IN_MM)]
    return found


def sector_edge_lines(
    prep: EdgePrep, x: float, y: float, radii: tuple[float, float], half: float
) -> list[Item]:
    """Return the same inside the edges of a sector about its apex, its axis upright."""
    outer, inner = radii
    pen = _MARK if prep.edges in (2, 4) else Pen(0.25, dash=(2.0, 1.0))
    found: list[Item] = []
    if prep.place in (EdgePlace.SEAM, EdgePlace.ALL):
        for side in (-1, 1):
            off_x, off_y = x - side * _IN_MM * cos(half), y + _IN_MM * sin(half)
            ends = [(off_x + side * r * sin(half), off_y + r * cos(half)) for r in (inner, outer)]
            found.append(open_line(*ends, pen=pen))
    if prep.place in (EdgePlace.ENDS, EdgePlace.ALL):
        for radius in filter(None, (inner and inner + _IN_MM, outer - _IN_MM)):
            path = tuple(
                Vertex(x + side * radius * sin(half), y + radius * cos(half), bulge)
                for side, bulge in ((1, tan(half / 2)), (-1, 0.0))
            )
            found.append(Line(path, pen, closed=False))
    return found


def edge_section(prep: EdgePrep, length: Callable[[float], str], x: float, top: float) -> list[Item]:
    """Return the prepared edge in section from its top left corner, what it is, and the box for its face.

    The picture is not to scale; a J preparation is shown as the bevel that it opens like.
    """
    y = top - _PLATE_MM - 4.0
    items: list[Item] = [
        Words(x, top - 2.4, "edge, section", _TEXT_MM, bold=True),
        Line(_profile(prep, x, y), Pen(0.4), hatch=1.6, fill=PAPER),
    ]
    rows = list(edge_rows(prep, length))
    for row, words in enumerate(rows):
        items.append(Words(x, y - 4.0 - 3.9 * row, words, _TEXT_MM, bold=row > 0))
    if one_sided(prep):
        items.append(Words(x, y - 4.2 - 3.9 * len(rows), _TICK, _TEXT_MM))
        items += face_boxes(x, y - 8.8 - 3.9 * len(rows))
    return items


def sector_edge_words(prep: EdgePrep, length: Callable[[float], str], right: float, y: float) -> list[Item]:
    """Return the preparation of a sector in one row that ends at `right`, and the boxes in its low corner."""
    items: list[Item] = [Words(right, y, ", ".join(edge_rows(prep, length)), 2.9, "end", bold=True)]
    if one_sided(prep):
        items += [Words(1, 0.9, _TICK, _TEXT_MM), *face_boxes(29, 0.9)]
    return items


def face_boxes(x: float, y: float) -> list[Item]:
    """Return boxes to tick for the face that a bevel opens to, on a base line."""
    items: list[Item] = []
    for left, words in ((x, "in"), (x + 9, "out")):
        items.append(Line(box_path(left, y - 0.5, 3.2, 3.2), Pen(0.3)))
        items.append(Words(left + 4.0, y, words, _TEXT_MM, bold=True))
    return items


def _profile(prep: EdgePrep, x: float, y: float) -> tuple[Vertex, ...]:
    """Return the section of the plate; the edge is at the right, the land as a fifth of the thickness."""
    body, high = x + _BODY_MM, y + _PLATE_MM
    slope = tan(radians(prep.angle_deg or 30.0))
    land = 0.2 * _PLATE_MM if prep.land_mm else 0.0
    if prep.kind is EdgeKind.SQUARE:
        edge = [(body, y), (body, high)]
    elif prep.kind is EdgeKind.DOUBLE_BEVEL:
        cut = (_PLATE_MM - land) / 2
        edge = [(body - cut * slope, y), (body, y + cut), (body, high - cut), (body - cut * slope, high)]
    else:
        edge = [(body, y), (body, y + land), (body - (_PLATE_MM - land) * slope, high)]
    corners = [(x, y), *edge, (x, high)]
    return tuple(Vertex(*at) for at in dict.fromkeys(corners))


def seam_mark(x: float, top: float, dx: float, along: float, words: str) -> list[Item]:
    """Return the nearest that the neighbour course's seam may stand to edge A, dimensioned above the blank.

    `along` is the offset on the drawing; one too short to see is drawn 3 mm long.
    """
    at = x + min(max(along, 3.0), 0.6 * dx)
    return [
        open_line((x, top + 0.8), (x, top + 4.6), pen=Pen(0.2)),
        open_line((at, top + 0.3), (at, top + 5.4), pen=Pen(0.5)),
        open_line((x, top + 2.6), (at, top + 2.6), pen=Pen(0.2)),
        *(open_line((end - 0.7, top + 1.9), (end + 0.7, top + 3.3), pen=Pen(0.35)) for end in (x, at)),
        Words(at + 1.4, top + 1.6, words, _TEXT_MM, bold=True),
    ]
