"""The contour of a closed shell with flats at its seam, and how far out of round it is.

The shell is a curve of its mean length, straight over the flats and of the wanted curvature elsewhere. Two
forces pull its ends together at the seam without turning them; their moment, and with it the change of
curvature, grows with the distance from the seam (thin elastic ring, small changes). What angle is left
between the two ends stays as the peak at the seam. Statics and geometry, no measured factor.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import pi

import numpy as np

from quoting.core import RangeError
from quoting.forming.range_checks import Floats, positive

_POINTS = 1440
_NEWTON_STEPS = 8
_CLOSED = 1e-12
"""A gap of this share of the girth is none: sums of so many steps are no more exact."""


@dataclass(frozen=True, slots=True)
class Contour:
    """The mean line of a closed shell, x and y in mm from its middle, the seam at the first point.

    `out_of_round_mm` is the largest less the least width between two parallel jaws.
    """

    x_mm: Floats
    y_mm: Floats
    out_of_round_mm: float


@lru_cache(maxsize=1024)
def shell_contour(mean_diameter_mm: float, lead_mm: float, tail_mm: float) -> Contour:
    """Return the contour with flats of these lengths on the two sides of the seam.

    Raises RangeError for flats that leave less than half of the girth to bend.

    >>> round(shell_contour(600, 0, 0).out_of_round_mm, 3)
    0.0
    """
    positive(mean_diameter_mm=mean_diameter_mm)
    length = pi * mean_diameter_mm
    if not 0 <= lead_mm + tail_mm <= length / 2 or min(lead_mm, tail_mm) < 0:
        raise RangeError("flats of a shell", (lead_mm, tail_mm), "0 or more, half of the girth at most")
    step = length / _POINTS
    s = (np.arange(_POINTS) + 0.5) * step
    bent = np.clip(np.minimum(s - lead_mm, length - tail_mm - s) / step + 0.5, 0.0, 1.0)
    arms = np.stack([1 - np.cos(2 * pi * s / length), np.sin(2 * pi * s / length)])
    turns = bent * step / (mean_diameter_mm / 2)
    force = np.zeros(2)
    for _ in range(_NEWTON_STEPS):
        miss = _gap(turns, arms, force, step)
        if np.abs(miss).max() < _CLOSED * length:
            break
        slope = np.stack(
            [(_gap(turns, arms, force + h, step) - miss) / _TURN for h in np.eye(2) * _TURN], axis=1
        )
        force = force - np.linalg.solve(slope, miss)
    x, y = _points(turns, arms, force, step)
    return Contour(x - x.mean(), y - y.mean(), _out_of_round(x - x.mean(), y - y.mean()))


def _out_of_round(x: Floats, y: Floats) -> float:
    angles = np.arange(0, 180) * pi / 180
    across = np.stack([np.cos(angles), np.sin(angles)], axis=1) @ np.stack([x, y])
    widths = across.max(axis=1) - across.min(axis=1)
    return float(widths.max() - widths.min())


_TURN = 1e-7
"""A small curvature, 1/mm, to measure slopes by."""


def _angles(turns: Floats, arms: Floats, force: Floats, step: float) -> Floats:
    """Return the slope at the middle of each step."""
    turn = turns + force @ arms * step
    return np.asarray(np.cumsum(turn) - turn / 2)


def _gap(turns: Floats, arms: Floats, force: Floats, step: float) -> Floats:
    angle = _angles(turns, arms, force, step)
    return np.array([np.cos(angle).sum(), np.sin(angle).sum()]) * step


def _points(turns: Floats, arms: Floats, force: Floats, step: float) -> tuple[Floats, Floats]:
    angle = _angles(turns, arms, force, step)
    return np.cumsum(np.cos(angle)) * step, np.cumsum(np.sin(angle)) * step


def scatter_out_of_round(mean_diameter_mm: float, springback_share: float, yield_scatter: float) -> float:
    """Return what an uneven yield adds, mm: a curvature that varies twice round by e makes it 2/3 e D.

    For an inextensible ring with curvature k (1 + e cos 2a) the radius varies by e R / 3 each way, four times
    that between the largest and the least diameter. e is the springback's share of the final curvature times
    the scatter of the yield.
    """
    return 2 / 3 * springback_share * yield_scatter * mean_diameter_mm
