"""The three rolls from the end, to scale with the plate: for a pre-bend, and for a rolling pass.

The picture is worked out from the positions that the set-up prints, not from the drawing board: top, pinch
and bending roll stand where the shop's book and the readout put them, and the plate is integrated from the
nip to its contact with the bending roll. Its free length and the tilt in the nip are the two unknowns; the
contact must lie on the bending roll, which gives two equations. Past the contact a rolled plate keeps its
free radius; a plate that comes in for its pre-bend is flat there.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import cos, hypot, pi, sin, sqrt

from quoting.drawings.cut_path import Vertex
from quoting.drawings.sketch import PAPER, QUIET, Disc, Item, Line, Pen, Sketch, Words

Point = tuple[float, float]
_STEPS = 24
_TURNS = 30
_LONGEST_TURN = 1.55 * pi
_PLATE = "#B9B9B9"
_WORDS_MM = 3.4
"""The row under the rolls that says which way the plate runs."""


@dataclass(frozen=True, slots=True)
class RollsAt:
    """Radii of the three rolls and the centre of the bending roll, mm; the origin is as in the forming room.

    The underside of the top roll is the origin, x runs back from the nip to the bending roll, y upwards.
    """

    top_mm: float
    pinch_mm: float
    bending_mm: float
    bending_at: Point


@dataclass(frozen=True, slots=True)
class RolledPlate:
    """The plate in the rolls: thickness, mean radius in the nip and after springback, mm.

    `reverse` is a pre-bend: flat plate comes in over the bending roll. `girth_mm` is how long it is.
    """

    thickness_mm: float
    loaded_mm: float
    final_mm: float
    girth_mm: float
    reverse: bool = False


@dataclass(frozen=True, slots=True)
class PlateLine:
    """The middle line of the plate: from the nip to the contact, and what lies before and behind.

    `miss_mm` is how far the contact lies from the bending roll; nothing is drawn that misses by more than
    a tenth of the thickness.
    """

    free: tuple[Point, ...]
    before: tuple[Point, ...]
    behind: tuple[Point, ...]
    free_length_mm: float
    tilt_rad: float
    miss_mm: float


@lru_cache(maxsize=1_000)
def plate_line(rolls: RollsAt, plate: RolledPlate) -> PlateLine | None:
    """Return where the plate lies in the rolls, None when no plate of these radii touches all three.

    Traveller and board draw the same one.
    """
    bend = _loading(plate) if plate.reverse else _unloading(plate)
    solved = _solve(rolls, plate, bend)
    if solved is None:
        return None
    length, tilt, miss = solved
    points, end = _integrate(rolls, plate, bend, length, tilt)
    straight = 1.5 * (rolls.top_mm + rolls.pinch_mm)
    start = points[0]
    before: Sequence[Point]
    behind: Sequence[Point]
    if plate.reverse:
        behind = (points[-1], (points[-1][0] + straight * cos(end), points[-1][1] + straight * sin(end)))
        before = _bow(start, tilt, plate.final_mm, min(length, plate.girth_mm / 4), -1)
    else:
        behind = _bow(points[-1], end, plate.final_mm, _rolled(plate), 1)
        before = (start, (start[0] - straight * cos(tilt), start[1] - straight * sin(tilt)))
    return PlateLine(tuple(points), tuple(before), tuple(behind), length, tilt, miss)


def rolls_sketch(
    rolls: RollsAt, plate: RolledPlate, title: str, *, size_mm: tuple[float, float] = (44.0, 50.0)
) -> Sketch:
    """Return the picture on `size_mm` of paper, rolls and plate to one scale."""
    left, right, low, high = _window(rolls, plate)
    per_mm = max((right - left) / size_mm[0], (high - low) / (size_mm[1] - _WORDS_MM))
    width, height = size_mm[0] * per_mm, size_mm[1] * per_mm
    x = (left + right - width) / 2
    y = low - _WORDS_MM * per_mm
    bx, by = rolls.bending_at
    items: list[Item] = [
        Disc(0, rolls.top_mm, rolls.top_mm, Pen(0.4)),
        Disc(0, -plate.thickness_mm - rolls.pinch_mm, rolls.pinch_mm, Pen(0.4)),
        Disc(bx, by, rolls.bending_mm, Pen(0.4)),
    ]
    line = plate_line(rolls, plate)
    if line is not None and line.miss_mm < 0.1 * plate.thickness_mm:
        items += _plate(line, plate.thickness_mm, per_mm)
    for words, at in (
        ("top", (0, rolls.top_mm)),
        ("pinch", (0, -plate.thickness_mm - rolls.pinch_mm)),
        ("bend", (bx, by)),
    ):
        items.append(Words(at[0], at[1] - 0.9 * per_mm, words, 2.85, "middle", behind=PAPER))
    way = "plate runs to the left" if plate.reverse else "plate runs to the right"
    items.append(Words(x + 0.5 * per_mm, y + 0.9 * per_mm, way, 2.85, ink=QUIET, behind=PAPER))
    items.append(
        Words(x + 0.5 * per_mm, y + height - 3.6 * per_mm, title, 3.2, bold=True, behind=PAPER),
    )
    return Sketch(
        x, y, width, height, per_mm, tuple(items), f"{title}: the three rolls from the end, to scale"
    )


def _window(rolls: RollsAt, plate: RolledPlate) -> tuple[float, float, float, float]:
    bx, by = rolls.bending_at
    edge = 0.12 * (rolls.top_mm + rolls.bending_mm)
    left = -max(rolls.top_mm, rolls.pinch_mm) - 2.5 * edge
    right = bx + rolls.bending_mm + 2.5 * edge
    low = min(-plate.thickness_mm - 2 * rolls.pinch_mm, by - rolls.bending_mm) - edge
    return left, right, low, 2 * rolls.top_mm + 3 * edge


def _plate(line: PlateLine, thickness: float, per_mm: float) -> list[Item]:
    """Draw the plate with its thickness, no thinner than can be seen."""
    middle = [*reversed(line.before), *line.free[1:], *line.behind[1:]]
    half = max(thickness / 2, 0.2 * per_mm)
    upper, under = _offset(middle, half), _offset(middle, -half)
    ring = tuple(Vertex(*point) for point in (*upper, *reversed(under)))
    return [Line(ring, Pen(0.2), fill=_PLATE)]


def _offset(points: Sequence[Point], by: float) -> list[Point]:
    out = []
    for i, (x, y) in enumerate(points):
        (x0, y0), (x1, y1) = points[max(i - 1, 0)], points[min(i + 1, len(points) - 1)]
        long = hypot(x1 - x0, y1 - y0) or 1.0
        out.append((x - by * (y1 - y0) / long, y + by * (x1 - x0) / long))
    return out


def _rolled(plate: RolledPlate) -> float:
    return min(0.85 * plate.girth_mm, _LONGEST_TURN * plate.final_mm)


def _bow(start: Point, angle: float, radius: float, length: float, way: int) -> list[Point]:
    """Return an arc that curls upwards from a point, to the right (way 1) or to the left (-1)."""
    steps = max(8, round(length / radius / 0.05))
    centre = start[0] - radius * sin(angle), start[1] + radius * cos(angle)
    angles = [angle + way * length / radius * step / steps for step in range(steps + 1)]
    return [(centre[0] + radius * sin(a), centre[1] - radius * cos(a)) for a in angles]


def _unloading(plate: RolledPlate) -> Callable[[float], float]:
    """Return the curvature over the share of the free length when the plate unloads: a straight line."""
    k, end = 1 / plate.loaded_mm, 1 / plate.final_mm
    return lambda u: k + (end - k) * u


def _loading(plate: RolledPlate) -> Callable[[float], float]:
    """Return the curvature over the share of the free length when flat plate is loaded up to the nip.

    Elastic and perfectly plastic, with the moment that springs back from the loaded to the final radius.
    """
    k = 1 / plate.loaded_mm
    top = k - 1 / plate.final_mm
    low, high = 0.0, k
    for _ in range(50):
        yields = (low + high) / 2
        if 1.5 * yields * (1 - (yields / k) ** 2 / 3) < top:
            low = yields
        else:
            high = yields

    def curvature(u: float) -> float:
        moment = top * (1 - u)
        if moment <= yields:
            return moment
        return yields / sqrt(max(3 * (1 - moment / (1.5 * yields)), (yields / k) ** 2))

    return curvature


def _integrate(
    rolls: RollsAt, plate: RolledPlate, bend: Callable[[float], float], length: float, tilt: float
) -> tuple[list[Point], float]:
    """Return the middle line from the nip to the contact, and its slope there (Simpson's rule)."""
    start = rolls.top_mm + plate.thickness_mm / 2
    x, y, angle = start * sin(tilt), rolls.top_mm - start * cos(tilt), tilt
    points, step = [(x, y)], length / _STEPS
    for i in range(_STEPS):
        u = i / _STEPS
        k0, k1, k2 = (bend(u + part / _STEPS) for part in (0.0, 0.5, 1.0))
        middle = angle + step * (5 * k0 + 8 * k1 - k2) / 24
        end = angle + step * (k0 + 4 * k1 + k2) / 6
        x += step * (cos(angle) + 4 * cos(middle) + cos(end)) / 6
        y += step * (sin(angle) + 4 * sin(middle) + sin(end)) / 6
        points.append((x, y))
        angle = end
    return points, angle


def _solve(
    rolls: RollsAt, plate: RolledPlate, bend: Callable[[float], float]
) -> tuple[float, float, float] | None:
    """Return free length, tilt, and how far the contact then misses: Newton with differences."""
    reach = rolls.bending_mm + plate.thickness_mm / 2
    bx, by = rolls.bending_at

    def off(length: float, tilt: float) -> Point:
        points, end = _integrate(rolls, plate, bend, length, tilt)
        return points[-1][0] + reach * sin(end) - bx, points[-1][1] - reach * cos(end) - by

    length, tilt = max(0.6 * hypot(bx, by), plate.thickness_mm), 0.02
    for _ in range(_TURNS):
        x, y = off(length, tilt)
        if hypot(x, y) < 1e-7:
            break
        dl, dt = 1e-5 * length, 1e-7
        a, b = off(length + dl, tilt), off(length, tilt + dt)
        xl, yl, xt, yt = (a[0] - x) / dl, (a[1] - y) / dl, (b[0] - x) / dt, (b[1] - y) / dt
        det = xl * yt - xt * yl
        if not abs(det) > 1e-9:
            return None
        step = (-x * yt + y * xt) / det, (-y * xl + x * yl) / det
        length = min(max(length + step[0], 0.3 * length), 2 * length)
        tilt = min(max(tilt + step[1], -0.6), 0.6)
    miss = hypot(*off(length, tilt))
    return (length, tilt, miss) if miss < plate.thickness_mm else None
