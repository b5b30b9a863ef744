"""A blank laid flat with the sizes that it is checked by, inside face up, end A to the left.

Rectangles carry width, length and the one length that both diagonals must have; sectors of cones both radii,
the angle, both chords and the straight edge. A blank too slim to be read true to scale is drawn with its long
side broken, and the drawing says so.
"""

from __future__ import annotations

from collections.abc import Callable
from math import hypot

from quoting.core import Outline, Rectangle
from quoting.drawings.cut_path import Vertex, box_path
from quoting.drawings.dimension_lines import DASHED, LEAST_MM, THICK, THIN, arrow, below_edge, beside_edge
from quoting.drawings.edge_marks import SECTION_MM, BlankExtras, edge_lines, edge_section, seam_mark
from quoting.drawings.sector_sketch import sector_items
from quoting.drawings.sketch import PAPER, QUIET, Item, Line, Pen, Sketch, Words, open_line

LengthWords = Callable[[float], str]
_LEAST_SIDE_MM, _LEAST_BROKEN_MM = 9.0, 14.0
_NO_EXTRAS = BlankExtras()
TO_SCALE, NOT_TO_SCALE = "true to scale", "not to scale"


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
        items, scale = sector_items(outline, length, grain, size_mm, extras), TO_SCALE
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
    items: list[Item] = [Line(box_path(x, y, dx, dy), THICK)]
    items += _diagonals(x, y, dx, dy, length(diagonal_mm(blank)))
    if not true:
        items += _break(x, y, dx, dy)
    items += beside_edge(x - 5.5, y, y + dy, length(blank.width_mm), x)
    items += below_edge(y - 7.5, x, x + dx, length(blank.length_mm), y)
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
        open_line((x, y), (x + dx, y + dy), pen=DASHED),
        open_line((x, y + dy), (x + dx, y), pen=DASHED),
    ]
    one, two = ((dx - 4) / (0.54 * letters) for letters in (len(words) + 10, max(len(words), 9)))
    middle = x + dx / 2, y + dy / 2
    if one >= LEAST_MM and dy >= 8:
        size = min(3.2, one)
        return [*lines, Words(middle[0], middle[1] - 1, f"diagonals {words}", size, "middle", behind=PAPER)]
    if two >= LEAST_MM and dy >= 14:
        size = min(3.2, two)
        rows = zip((0.6, -1.3 * size), ("diagonals", words), strict=True)
        return [
            *lines,
            *(Words(middle[0], middle[1] + up, row, size, "middle", behind=PAPER) for up, row in rows),
        ]
    return [*lines, Words(x, y + dy + 0.8, f"both diagonals {words}", LEAST_MM)]


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
    return [Line(ring, None, fill=PAPER), *(open_line(*side, pen=THIN) for side in sides)]


def _grain(grain: str, x: float, y: float, dx: float, dy: float) -> list[Item]:
    """Draw the grain as a double arrow in a corner of the blank."""
    if grain not in ("along", "across") or min(dx, dy) < 8:
        return []
    x0, y0 = x + 2.5, y + 2.5
    to = (x0 + min(12.0, dx / 3), y0) if grain == "along" else (x0, y0 + min(12.0, dy / 2))
    way = (1, 0) if grain == "along" else (0, 1)
    items: list[Item] = [open_line((x0, y0), to, pen=Pen(0.35))]
    items += [arrow((x0, y0), way), arrow(to, (-way[0], -way[1]))]
    return [*items, Words(x0 + 1, y0 + 0.9, "grain", 2.85)]
