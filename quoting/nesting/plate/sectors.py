"""Cone sectors as true shapes: rows of nested sectors, and the corners beside their arcs left free for
others.

Two kinds of row are tried, each with the closest pitch that keeps the gap: sectors of one direction behind
each other along their axis (arc into hollow), and sectors side by side, every other one turned end for
end. The densest row of each length becomes one variant, so that a packer of boxes still nests true shapes.
Imports shapely: import this module lazily.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from math import acos, ceil, cos, nextafter, radians, sin

from shapely import affinity, prepare
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from quoting.core import Sector
from quoting.nesting.nest_problem import Piece
from quoting.nesting.plate.lengths import micrometres
from quoting.nesting.plate.variants import Member, Variant

_SAGITTA_MM = 0.01
_SAFETY_MM = 0.02
_PITCH_MM = 0.05
LONGEST_ROW = 12
STRIPS = 10

Pose = tuple[float, float, float]  # apex x, apex y, angle in degrees


@dataclass(frozen=True, slots=True)
class _Row:
    """Poses of a row and its exact bounding box (low x, low y, high x, high y), mm."""

    poses: tuple[Pose, ...]
    bounds: tuple[float, float, float, float]

    @property
    def area(self) -> float:
        return (self.bounds[2] - self.bounds[0]) * (self.bounds[3] - self.bounds[1])


def sector_variants(piece: Piece, gap_mm: float, room: tuple[float, float]) -> tuple[Variant, ...]:
    """Return the ways to lay down one or more copies, most copies first.

    `room` is the largest usable length and width of the plates, mm. Angles are quarter turns only, and
    half turns only when the grain must run along the plate.
    """
    sector = piece.outline
    assert isinstance(sector, Sector)
    most = min(piece.quantity, LONGEST_ROW)
    rows = [_Row((pose,), _bounds(sector, [pose])) for pose in [(0.0, 0.0, 0.0)]]
    if most > 1:
        for row_of in _rows(sector, gap_mm):
            rows += [_Row(row_of[:k], _bounds(sector, row_of[:k])) for k in range(2, most + 1)]
    turned = [_turned(sector, row) for row in rows] if piece.turn else []
    fitting = [row for row in rows + turned if _inside(row, room)]
    best = {len(row.poses): min(r.area for r in fitting if len(r.poses) == len(row.poses)) for row in fitting}
    kept = [row for row in fitting if row.area <= 1.02 * best[len(row.poses)] or len(row.poses) == 1]
    kept.sort(key=lambda row: (-len(row.poses), row.area, row.bounds))
    variants = tuple(_variant(sector, row, gap_mm) for row in kept)
    return variants or (_variant(sector, rows[0], gap_mm),)


@lru_cache(maxsize=256)
def sector_polygon(sector: Sector, angle_deg: float = 0.0) -> Polygon:
    """Return a polygon that contains the sector (arcs at most 0.01 mm off), its apex at the origin."""
    half = radians(sector.angle_deg) / 2
    big, small = sector.outer_radius_mm, sector.inner_radius_mm
    n = max(6, ceil(half / acos(1 - _SAGITTA_MM / big)))
    step = 2 * half / n
    outside = [(big * cos(half), -big * sin(half))]
    outside += [_polar(big / cos(step / 2), -half + (k + 0.5) * step) for k in range(n)]
    outside.append(_polar(big, half))
    inside = [_polar(small, half - k * step) for k in range(n + 1)] if small else [(0.0, 0.0)]
    return affinity.rotate(Polygon(outside + inside), angle_deg, origin=(0, 0))


def _polar(radius: float, angle: float) -> tuple[float, float]:
    return radius * cos(angle), radius * sin(angle)


@lru_cache(maxsize=256)
def _rows(sector: Sector, gap_mm: float) -> tuple[tuple[Pose, ...], ...]:
    """Return one long row of each kind; kept, since a blank is nested again for every break quantity."""
    least = gap_mm + _SAFETY_MM
    plain, other = sector_polygon(sector), sector_polygon(sector, 180)
    prepare([plain, other])  # their distance to hundreds of places of another is asked
    dx, dy = sector.box()
    pitch = _closest(lambda p: _clear(plain, plain, p, 0, least=least), dx + least)
    rows = [[(k * pitch, 0.0, 0.0) for k in range(LONGEST_ROW)]]
    low = _bounds(sector, [(0.0, 0.0, 0.0)])[0]
    level = 2 * low + dx  # the apex of the turned one, so that the boxes are level
    best: list[Pose] = []
    for shift in (0.0, 0.25 * dx, -0.25 * dx, 0.5 * dx, -0.5 * dx):
        side = level + shift
        up = _closest(partial(_clear, plain, other, side, least=least), 2 * dy + least)
        back = _closest(partial(_clear, other, plain, -side, least=least), 2 * dy + least)
        if up + back < dy / 2 or not _clear(plain, plain, 0, up + back, least=least):
            continue
        poses = _alternating(side, up, back)
        if not best or _box_area(sector, poses[:4]) < _box_area(sector, best[:4]):
            best = poses
    return tuple(tuple(row) for row in ([*rows, best] if best else rows))


def _alternating(side: float, up: float, back: float) -> list[Pose]:
    poses: list[Pose] = []
    for k in range(LONGEST_ROW):
        y = (k // 2) * (up + back) + (up if k % 2 else 0.0)
        poses.append((side if k % 2 else 0.0, y, 180.0 if k % 2 else 0.0))
    return poses


def _closest(clear: Callable[[float], bool], far: float) -> float:
    """Return the least shift, to `_PITCH_MM`, from which every larger one tried is clear."""
    low, high = 0.0, far
    steps = 24
    for k in range(steps - 1, -1, -1):
        if not clear(far * k / steps):
            low, high = far * k / steps, far * (k + 1) / steps
            break
    while high - low > _PITCH_MM:
        middle = (low + high) / 2
        low, high = (low, middle) if clear(middle) else (middle, high)
    return high


def _clear(one: Polygon, two: Polygon, dx: float, dy: float, *, least: float) -> bool:
    return not one.dwithin(affinity.translate(two, dx, dy), nextafter(least, 0.0))


def _bounds(sector: Sector, poses: Sequence[Pose]) -> tuple[float, float, float, float]:
    """Return the exact box round the sectors."""
    boxes = [_box(sector, pose) for pose in poses]
    return (
        min(one[0] for one in boxes),
        min(one[1] for one in boxes),
        max(one[2] for one in boxes),
        max(one[3] for one in boxes),
    )


def _box(sector: Sector, pose: Pose) -> tuple[float, float, float, float]:
    x, y, angle = pose
    dx, dy = sector.box()
    far, side = sector.outer_radius_mm, dy / 2
    flat = {0: (far - dx, -side, far, side), 90: (-side, far - dx, side, far)}
    flat |= {180: (-far, -side, dx - far, side), 270: (-side, -far, side, dx - far)}
    a, b, c, d = flat[round(angle) % 360]
    return a + x, b + y, c + x, d + y


def _box_area(sector: Sector, poses: Sequence[Pose]) -> float:
    a, b, c, d = _bounds(sector, poses)
    return (c - a) * (d - b)


def _turned(sector: Sector, row: _Row) -> _Row:
    poses = [(-y, x, angle + 90) for x, y, angle in row.poses]
    return _Row(tuple(poses), _bounds(sector, poses))


def _inside(row: _Row, room: tuple[float, float]) -> bool:
    a, b, c, d = row.bounds
    return c - a <= room[0] + 0.001 and d - b <= room[1] + 0.001


def _variant(sector: Sector, row: _Row, gap_mm: float) -> Variant:
    a, b, c, d = row.bounds
    gap = micrometres(gap_mm)
    members = []
    for pose in row.poses:
        x0, y0, x1, y1 = _box(sector, pose)
        members.append(
            Member(
                micrometres(x0 - a),
                micrometres(y0 - b),
                micrometres(x1 - x0),
                micrometres(y1 - y0),
                pose[2] % 360,
            )
        )
    w, h = micrometres(c - a) + gap, micrometres(d - b) + gap
    return Variant(w, h, tuple(members), _covers(sector, row, gap))


@lru_cache(maxsize=1024)
def _covers(sector: Sector, row: _Row, gap: int) -> tuple[tuple[int, int, int, int], ...]:
    """Return boxes (x0, y0, x1, y1, gap included) that together contain the row: slices across its long
    side; kept, as the rows are."""
    a, b, c, d = row.bounds
    shape = unary_union(
        [affinity.translate(sector_polygon(sector, t), x - a, y - b) for x, y, t in row.poses]
    )
    w, h = c - a, d - b
    across = w >= h
    pieces = STRIPS * (1 + len(row.poses)) // 2
    covers = []
    for k in range(pieces):
        low, high = (w if across else h) * k / pieces, (w if across else h) * (k + 1) / pieces
        slab = box(low, -1, high, h + 1) if across else box(-1, low, w + 1, high)
        for part in getattr(cut := shape.intersection(slab), "geoms", [cut]):
            if part.area > 0:
                x0, y0, x1, y1 = part.bounds
                covers.append(_grown(x0, y0, x1, y1, gap))
    return tuple(covers)


def _grown(x0: float, y0: float, x1: float, y1: float, gap: int) -> tuple[int, int, int, int]:
    low_x, low_y = max(micrometres(x0) - 1, 0), max(micrometres(y0) - 1, 0)
    return low_x, low_y, micrometres(x1) + 1 + gap, micrometres(y1) + 1 + gap
