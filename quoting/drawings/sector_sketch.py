"""A sector of a cone laid flat, its axis upright, with the sizes that it is marked out by beside it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, radians, sin, tan

from quoting.core import Sector
from quoting.drawings.cut_path import Vertex
from quoting.drawings.dimension_lines import DASHED, NAME_MM, SIZE_MM, THICK, fitting
from quoting.drawings.edge_marks import BlankExtras, sector_edge_lines, sector_edge_words
from quoting.drawings.sketch import PAPER, QUIET, Item, Line, Words, open_line

LengthWords = Callable[[float], str]


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


def sector_items(
    blank: Sector, length: LengthWords, grain: str, size_mm: tuple[float, float], extras: BlankExtras
) -> list[Item]:
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
    items: list[Item] = [Line(ring, THICK)]
    tips = [(cx + side * r_out * sin(half), cy + r_out * cos(half)) for side in (-1, 1)]
    roots = [(cx + side * r_in * sin(half), cy + r_in * cos(half)) for side in (-1, 1)]
    items += [open_line(*tips, pen=DASHED), open_line(*roots, pen=DASHED)]
    for name, tip, root in zip("AB", tips, roots, strict=True):
        middle = (tip[0] + root[0]) / 2, (tip[1] + root[1]) / 2
        items.append(Words(middle[0], middle[1] - 1.4, name, 4.2, "middle", bold=True, behind=PAPER))
    items += _sector_names(cx, cy, (r_out, r_in), half)
    if extras.prep:
        items += sector_edge_lines(extras.prep, cx, cy, (r_out, r_in), half)
    return items + _sector_list(blank, length, grain, size_mm, extras)


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
        size = fitting(value, right - x - 0.55 * NAME_MM * len(name) - 1)
        items += [
            Words(x, at, name, NAME_MM, ink=QUIET),
            Words(right, at, value, min(size, SIZE_MM - 0.6, 0.85 * step), "end", bold=True),
        ]
    if extras.prep:
        items += sector_edge_words(extras.prep, length, right, y - len(rows) * step)
    return items
