"""Ways out of a "no", found by solving for the one size that would make it a "yes"."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, floor, log
from typing import TypeAlias

import numpy as np

from quoting.forming.judging.demands import LOAD_ROWS, DemandRow, demands
from quoting.forming.judging.rating import rating_of, used_shares
from quoting.forming.range_checks import Floats
from quoting.forming.task_arrays import Bools, Lines
from quoting.forming.verdict import WayOut, stress_words
from quoting.shop import PassRules, Roll

_ROW = 64
"""Lines that are worked out at once when few are given (measured: a call costs the same up to about here)."""
_RESOLUTION = 4096
THIN_SECTIONS = 16
"""Sections of the first round over thickness: very thin plate may fail where thicker plate does not, since it
springs back so far that the top roll is too big for it."""

Change: TypeAlias = Callable[[Lines, Floats], Lines]
_MOST_PIECES = 6
_LEAST_YIELD_SHARE = 0.5


def fits(lines: Lines, roll: Roll, rules: PassRules) -> Bools:
    """Return which lines are within every limit of a roll."""
    used = used_shares(demands(lines, roll, rules), rating_of(roll, rules).rated(lines))
    return np.asarray(~np.any(used > 1 + 1e-9, axis=0))


def largest(
    lines: Lines, change: Change, low: Floats, high: Floats, ok: Callable[[Lines], Bools], first: int = 1
) -> Floats:
    """Return for every line the largest value between low and high at which it is ok, NaN where there is
    none.

    `change(lines, values)` puts the values into lines. Section search on the logarithm to a few parts in
    ten thousand of the range, all lines at once: the fewer the lines, the more sections a round (a call
    costs much the same for one line as for fifty). The first round has at least `first` sections, for a
    quantity that may fail at low and fit further up.
    """
    sections = max(2, _ROW // max(len(lines), 1))
    first = max(sections, first)
    a, b = np.log(low), np.log(high)
    good = _tried(lines, change, a + (b - a) * (np.arange(first + 1)[:, None] / first), ok)
    all_of_it, good = good[-1], good[:-1]
    possible = good.any(axis=0) | all_of_it
    last = first - 1 - np.argmax(good[::-1], axis=0)
    width = (b - a) / first
    a = a + width * last
    for _ in range(ceil(log(_RESOLUTION / first) / log(sections))):
        width = width / sections
        good = _tried(lines, change, a + width * np.arange(1, sections)[:, None], ok)
        a = a + width * np.cumprod(good, axis=0).sum(axis=0)
    return np.where(possible, np.where(all_of_it, high, np.exp(a)), np.nan)


def _tried(lines: Lines, change: Change, logarithms: Floats, ok: Callable[[Lines], Bools]) -> Bools:
    """Return which of some values (rows) fit which line (columns)."""
    many = lines.take(np.tile(np.arange(len(lines)), len(logarithms)))
    return ok(change(many, np.exp(logarithms).ravel())).reshape(logarithms.shape)


def solve_ways(
    lines: Lines, used: Floats, roll: Roll, rules: PassRules, certified: Bools
) -> list[list[WayOut]]:
    """Return the ways out of every line, all of which failed; `used` holds their used shares.

    Softer plate is a way out for a certified line only: others are judged at their grade's least yield, and
    nobody can buy softer.
    """
    found: list[list[WayOut]] = [[] for _ in range(len(lines))]
    _no_pre_bend(found, lines, roll, rules)
    _width(found, lines, roll, rules)
    _thickness(found, lines, roll, rules)
    _diameter(found, lines, roll, rules)
    _yield(found, lines, used, roll, rules, certified)
    _segments(found, lines, used, roll, rules)
    return found


def _down(size_mm: float, per_mm: int = 10) -> float:
    """Return a largest size to a tenth (or other part) of a millimetre, on the safe side."""
    return floor(size_mm * per_mm + 1e-6) / per_mm


def _up(size_mm: float) -> float:
    """Return a least size to a tenth of a millimetre, on the safe side."""
    return ceil(size_mm * 10 - 1e-6) / 10


def _no_pre_bend(found: list[list[WayOut]], lines: Lines, roll: Roll, rules: PassRules) -> None:
    plain = lines.pre_bend & fits(lines.without_pre_bend(), roll, rules)
    for i in np.flatnonzero(plain):
        found[i].append(WayOut("no pre-bend", "without pre-bend: ends left flat, or trimmed after rolling"))


def _width(found: list[list[WayOut]], lines: Lines, roll: Roll, rules: PassRules) -> None:
    widest = np.minimum(lines.width_mm, roll.working_length_mm)
    least = widest / _MOST_PIECES
    size = largest(lines, Lines.with_width, least, widest, lambda x: fits(x, roll, rules))
    for i in np.flatnonzero(np.isfinite(size)):
        pieces = ceil(lines.width_mm[i] / size[i])
        found[i].append(
            WayOut("width", f"up to {{size}} wide in one piece: {pieces} courses", _down(size[i]), pieces)
        )


def _thickness(found: list[list[WayOut]], lines: Lines, roll: Roll, rules: PassRules) -> None:
    thick = np.maximum(lines.thickness_mm, roll.least_thickness_mm * 1.001)
    low = np.full(len(lines), roll.least_thickness_mm)
    size = largest(lines, Lines.with_thickness, low, thick, lambda x: fits(x, roll, rules), THIN_SECTIONS)
    for i in np.flatnonzero(
        np.isfinite(size) & (size < lines.thickness_mm) & (size > lines.thickness_mm / 4)
    ):
        found[i].append(
            WayOut("thickness", "up to {size} thick at this width and diameter", _down(size[i], 100))
        )


def _diameter(found: list[list[WayOut]], lines: Lines, roll: Roll, rules: PassRules) -> None:
    now = 1 / lines.inside_diameter_mm
    size = 1 / largest(
        lines, lambda x, k: x.with_inside_diameter(1 / k), now / 8, now, lambda x: fits(x, roll, rules)
    )
    for i in np.flatnonzero(np.isfinite(size)):
        found[i].append(WayOut("diameter", "from {size} inside diameter up", _up(size[i])))


def _yield(
    found: list[list[WayOut]], lines: Lines, used: Floats, roll: Roll, rules: PassRules, certified: Bools
) -> None:
    loaded = np.any(used[list(LOAD_ROWS)] > 1, axis=0) & certified
    if not loaded.any():
        return
    low = lines.yield_mpa * _LEAST_YIELD_SHARE
    size = largest(lines, Lines.with_yield, low, lines.yield_mpa, lambda x: fits(x, roll, rules))
    for i in np.flatnonzero(np.isfinite(size) & loaded):
        text = f"plate with a certified yield of {stress_words(size[i])} or less"
        found[i].append(WayOut("yield", text))


def _segments(found: list[list[WayOut]], lines: Lines, used: Floats, roll: Roll, rules: PassRules) -> None:
    tight = lines.closed & ((used[DemandRow.LEAST_DIAMETER] > 1) | (used[DemandRow.WEIGHT] > 1))
    for i in np.flatnonzero(tight):
        halves = lines.take([i]).as_segments(2)
        if fits(halves, roll, rules)[0]:
            found[i].append(WayOut("segments", "as 2 half shells with 2 long seams", pieces=2))
