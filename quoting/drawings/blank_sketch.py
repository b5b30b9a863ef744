"""A blank laid flat with the sizes that it is checked by, inside face up, end A to the left.

Rectangles carry width, length and the one length that both diagonals must have; sectors of cones both radii,
the angle, both chords and the straight edge. A blank too slim to be read true to scale is drawn with its long
side broken, and the drawing says so.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, hypot, radians, sin, tan

from quoting.core import Outline, Rectangle, Sector
from quoting.drawings.cut_path import Vertex, box_path
from quoting.drawings.edge_marks import (
    SECTION_MM,
    BlankExtras,
    edge_lines,
    edge_section,
    seam_mark,
    sector_edge_lines,
    sector_edge_words,
)
from quoting.drawings.sketch import PAPER, QUIET, Item, Line, Pen, Sketch, Words, open_line

LengthWords = Callable[[float], str]
_NO_EXTRAS = BlankExtras()
_THICK, _THIN, _DASHED = Pen(0.5), Pen(0.2), Pen(0.2, QUIET, (2.5, 1.2))
_LEAST_SIDE_MM, _LEAST_BROKEN_MM = 9.0, 14.0
_SIZE_MM, _NAME_MM = 4.4, 3.2
_ARROW_MM = 2.2
_LEAST_MM = 2.85
"""8 points."""
TO_SCALE, NOT_TO_SCALE = "true to scale", "not to scale"


@dataclass(frozen=True, slots=True)
class SectorSizes:
    """What a sector is marked out by: chords across both arcs, the straight edge, all in mm."""

    outer_chord_mm: float
    inner_chord_mm: float
    edge_mm: float


def sector_sizes(sector: Sector) -> SectorSizes:
    """Return chords and straight edge of a sector.

    >>> sizes = sector_sizes(Sector(1000, 400, 60))
    >>> round(sizes.outer_chord_mm, 6), round(sizes.inner_chord_mm, 6), sizes.edge_mm
    (1000.0, 400.0, 600)
    """
    reach = 2 * sin(radians(sector.angle_deg) / 2)
    return SectorSizes(
        sector.outer_radius_mm * reach,
        sector.inner_radius_mm * reach,
        sector.outer_radius_mm - sector.inner_radius_mm,
    )


def diagonal_mm(blank: Rectangle) -> float:
    """Return the length of both diagonals of a blank that is square.

    >>> diagonal_mm(Rectangle(300, 400))
    500.0
    """
    return hypot(blank.width_mm, blank.length_mm)


def blank_sketch(
    outline: Outline,
    length: LengthWords,
    *,
    grain: str = "",
    size_mm: tuple[float, float] = (96.0, 58.0),
    extras: BlankExtras = _NO_EXTRAS,
) -> Sketch:
    """Return the drawing of a blank on `size_mm` of paper; `grain` is `along`, `across` or empty."""
    if isinstance(outline, Rectangle):
        items, scale = _rectangle(outline, length, grain, size_mm, extras)
    else:
        items, scale = _sector(outline, length, grain, size_mm, extras)
    right = size_mm[0] - (SECTION_MM if extras.prep and isinstance(outline, Rectangle) else 0.0)
    items += [
        Words(right - 24, 0.9, "INSIDE FACE UP", 3.0, "end", bold=True),
        Words(right - 1, 0.9, scale, 2.9, "end", ink=QUIET),
    ]
    return Sketch(0, 0, *size_mm, 1.0, tuple(items), f"flat blank, inside face up, {scale}")


def _rectangle(
    blank: Rectangle, length: LengthWords, grain: str, size_mm: tuple[float, float], extras: BlankExtras
) -> tuple[list[Item], str]:
    prep, offset = extras.prep, extras.seam_offset_mm
    left, right, low, high = 15.0, 7.0, 13.0, 12.0 if offset else 6.5
    right += SECTION_MM if prep else 0.0
    room = size_mm[0] - left - right, size_mm[1] - low - high
    scale = min(room[0] / blank.length_mm, room[1] / blank.width_mm)
    dx, dy = blank.length_mm * scale, blank.width_mm * scale
    true = min(dx, dy) >= _LEAST_SIDE_MM
    if not true:
        dx, dy = (dx, _LEAST_BROKEN_MM) if dx > dy else (_LEAST_BROKEN_MM * 1.5, dy)
    x, y = left + (room[0] - dx) / 2, low + (room[1] - dy) / 2
    items: list[Item] = [Line(box_path(x, y, dx, dy), _THICK)]
    items += _diagonals(x, y, dx, dy, length(diagonal_mm(blank)))
    if not true:
        items += _break(x, y, dx, dy)
    items += _across(x - 5.5, y, y + dy, length(blank.width_mm), x)
    items += _along(y - 7.5, x, x + dx, length(blank.length_mm), y)
    items += [
        Words(x - 1.6, y + dy / 2 - 1, "A", 4.2, "end", bold=True, behind=PAPER),
        Words(x + dx + 1.6, y + dy / 2 - 1, "B", 4.2, bold=True),
    ]
    items += _grain(grain, x, y, dx, dy)
    if prep:
        items += edge_lines(prep, x, y, dx, dy)
        items += edge_section(
            prep, length, size_mm[0] - SECTION_MM + 1.5, size_mm[1] - (9.0 if offset else 6.5)
        )
    if offset:
        words = f"next seam {length(offset)} off, least"
        items += seam_mark(x, y + dy, dx, offset * dx / blank.length_mm, words)
    return items, TO_SCALE if true else NOT_TO_SCALE


def _diagonals(x: float, y: float, dx: float, dy: float, words: str) -> list[Item]:
    lines: list[Item] = [
        open_line((x, y), (x + dx, y + dy), pen=_DASHED),
        open_line((x, y + dy), (x + dx, y), pen=_DASHED),
    ]
    one, two = ((dx - 4) / (0.54 * letters) for letters in (len(words) + 10, max(len(words), 9)))
    middle = x + dx / 2, y + dy / 2
    if one >= _LEAST_MM and dy >= 8:
        size = min(3.2, one)
        return [*lines, Words(middle[0], middle[1] - 1, f"diagonals {words}", size, "middle", behind=PAPER)]
    if two >= _LEAST_MM and dy >= 14:
        size = min(3.2, two)
        rows = zip((0.6, -1.3 * size), ("diagonals", words), strict=True)
        return [
            *lines,
            *(Words(middle[0], middle[1] + up, row, size, "middle", behind=PAPER) for up, row in rows),
        ]
    return [*lines, Words(x, y + dy + 0.8, f"both diagonals {words}", _LEAST_MM)]


def _break(x: float, y: float, dx: float, dy: float) -> list[Item]:
    """Break the long side with two zigzag lines and white between them."""
    flat = dx > dy
    start, across, at = (y, dy, x + 0.78 * dx) if flat else (x, dx, y + 0.78 * dy)
    middle = ((0.4 * across, 0.0), (0.5 * across, 1.2), (0.55 * across, -1.2), (0.65 * across, 0.0))
    zigzag = ((-1.0, 0.0), *middle, (across + 1.0, 0.0))
    sides = [
        [(at + off + by, start + over) if flat else (start + over, at + off + by) for over, by in zigzag]
        for off in (0.0, 2.0)
    ]
    ring = tuple(Vertex(*point) for point in (*sides[0], *reversed(sides[1])))
    return [Line(ring, None, fill=PAPER), *(open_line(*side, pen=_THIN) for side in sides)]


def _along(y: float, x: float, x2: float, words: str, edge: float) -> list[Item]:
    """Draw a dimension line from x to x2 under an edge, its value above it."""
    items: list[Item] = [open_line((at, edge - 0.8), (at, y - 1.2), pen=_THIN) for at in (x, x2)]
    items += [open_line((x, y), (x2, y), pen=_THIN), _arrow((x, y), (1, 0)), _arrow((x2, y), (-1, 0))]
    size = _fitting(words, x2 - x)
    return [*items, Words((x + x2) / 2, y + 0.9, words, size, "middle", bold=True, behind=PAPER)]


def _across(x: float, y: float, y2: float, words: str, edge: float) -> list[Item]:
    """Draw a dimension line from y to y2 left of an edge, its value beside it, read from the right."""
    items: list[Item] = [open_line((edge - 0.8, at), (x - 1.2, at), pen=_THIN) for at in (y, y2)]
    items += [open_line((x, y), (x, y2), pen=_THIN), _arrow((x, y), (0, 1)), _arrow((x, y2), (0, -1))]
    return [
        *items,
        Words(x - 0.9, (y + y2) / 2, words, _fitting(words, y2 - y), "middle", bold=True, turn=90),
        Words(x - 5.9, (y + y2) / 2, "across the roll", _NAME_MM, "middle", turn=90, ink=QUIET),
    ]


def _fitting(words: str, room: float) -> float:
    """Return the size of letters at which a value stands within its line, else the least that is read."""
    return max(_LEAST_MM, min(_SIZE_MM, 0.95 * room / (0.56 * len(words))))


def _arrow(at: tuple[float, float], into: tuple[int, int]) -> Line:
    """Return a filled arrow head at a point, its body towards `into`."""
    (x, y), (a, b) = at, into
    back = x + a * _ARROW_MM, y + b * _ARROW_MM
    side = b * _ARROW_MM / 6, a * _ARROW_MM / 6
    tips = ((x, y), (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1]))
    return Line(tuple(Vertex(*tip) for tip in tips), None, fill="#000000")


def _grain(grain: str, x: float, y: float, dx: float, dy: float) -> list[Item]:
    """Draw the grain as a double arrow in a corner of the blank."""
    if grain not in ("along", "across") or min(dx, dy) < 8:
        return []
    x0, y0 = x + 2.5, y + 2.5
    to = (x0 + min(12.0, dx / 3), y0) if grain == "along" else (x0, y0 + min(12.0, dy / 2))
    way = (1, 0) if grain == "along" else (0, 1)
    items: list[Item] = [open_line((x0, y0), to, pen=Pen(0.35))]
    items += [_arrow((x0, y0), way), _arrow(to, (-way[0], -way[1]))]
    return [*items, Words(x0 + 1, y0 + 0.9, "grain", 2.85)]


def _sector(
    blank: Sector, length: LengthWords, grain: str, size_mm: tuple[float, float], extras: BlankExtras
) -> tuple[list[Item], str]:
    """Draw a sector with its axis upright; its sizes stand beside it, by name."""
    room = 0.46 * size_mm[0], size_mm[1] - 12.0
    half = radians(blank.angle_deg) / 2
    outer, inner = blank.outer_radius_mm, blank.inner_radius_mm
    wide = 2 * outer * (sin(half) if half < radians(90) else 1.0)
    low = min(inner * cos(half), outer * cos(half), inner)
    scale = min(room[0] / wide, room[1] / (outer - low))
    cx, cy = 4 + room[0] / 2, 6 - low * scale + (room[1] - (outer - low) * scale) / 2
    r_out, r_in = outer * scale, inner * scale
    ring = _ring(cx, cy, r_out, r_in, half)
    items: list[Item] = [Line(ring, _THICK)]
    tips = [(cx + side * r_out * sin(half), cy + r_out * cos(half)) for side in (-1, 1)]
    roots = [(cx + side * r_in * sin(half), cy + r_in * cos(half)) for side in (-1, 1)]
    items += [open_line(*tips, pen=_DASHED), open_line(*roots, pen=_DASHED)]
    for name, tip, root in zip("AB", tips, roots, strict=True):
        middle = (tip[0] + root[0]) / 2, (tip[1] + root[1]) / 2
        items.append(Words(middle[0], middle[1] - 1.4, name, 4.2, "middle", bold=True, behind=PAPER))
    items += _sector_names(cx, cy, (r_out, r_in), half)
    if extras.prep:
        items += sector_edge_lines(extras.prep, cx, cy, (r_out, r_in), half)
    return items + _sector_list(blank, length, grain, size_mm, extras), TO_SCALE


def _ring(x: float, y: float, outer: float, inner: float, half: float) -> tuple[Vertex, ...]:
    """Return the outline of a sector about its apex, its axis upright, counterclockwise."""
    bulge = tan(half / 2)
    right, left = (
        (x + outer * sin(half), y + outer * cos(half)),
        (x - outer * sin(half), y + outer * cos(half)),
    )
    if not inner:
        return Vertex(*right, bulge), Vertex(*left), Vertex(x, y)
    in_left, in_right = (
        (x - inner * sin(half), y + inner * cos(half)),
        (x + inner * sin(half), y + inner * cos(half)),
    )
    return Vertex(*right, bulge), Vertex(*left), Vertex(*in_left, -bulge), Vertex(*in_right)


def _sector_names(x: float, y: float, radii: tuple[float, float], half: float) -> list[Item]:
    outer, inner = radii
    names = [Words(x, y + outer - 4.2, "R", 3.6, "middle", bold=True)]
    if inner > 4:
        names.append(Words(x, y + inner + 0.9, "r", 3.6, "middle", bold=True))
    chord = y + outer * cos(half)
    if outer - outer * cos(half) > 9 and not inner * 0.99 < chord - y < inner + 4.5:
        names.append(Words(x, chord - 1, "C", 3.4, "middle", bold=True, behind=PAPER))
    return list(names)


def _sector_list(
    blank: Sector, length: LengthWords, grain: str, size_mm: tuple[float, float], extras: BlankExtras
) -> list[Item]:
    sizes = sector_sizes(blank)
    rows = [
        ("R outer", length(blank.outer_radius_mm)),
        ("r inner", length(blank.inner_radius_mm) if blank.inner_radius_mm else "0, a point"),
        ("angle", f"{blank.angle_deg:.2f}°"),
        ("C chord", length(sizes.outer_chord_mm)),
        ("c chord", length(sizes.inner_chord_mm)),
        ("edge", length(sizes.edge_mm)),
    ]
    if grain:
        rows.append(("grain", f"{grain} the axis"))
    if extras.seam_offset_mm:
        rows.append(("next seam off", length(extras.seam_offset_mm)))
    x, right, y = 0.51 * size_mm[0], size_mm[0] - 1, size_mm[1] - 9.0
    step = min(8.0, (size_mm[1] - 12) / (len(rows) + bool(extras.prep)))
    items: list[Item] = []
    for row, (name, value) in enumerate(rows):
        at = y - row * step
        size = _fitting(value, right - x - 0.55 * _NAME_MM * len(name) - 1)
        items += [
            Words(x, at, name, _NAME_MM, ink=QUIET),
            Words(right, at, value, min(size, _SIZE_MM - 0.6, 0.85 * step), "end", bold=True),
        ]
    if extras.prep:
        items += sector_edge_words(extras.prep, length, right, y - len(rows) * step)
    return items
