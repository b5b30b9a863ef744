"""Learning curves in both forms; the form must always be said, since the totals differ.

Wright, "Factors affecting the cost of airplanes", J. Aeronautical Sciences 3 (1936), set the constant
percentage on the cumulative average; the unit form sets it on the single unit. A 90 % curve in unit form
needs 7.99 times the first unit for ten, in cumulative-average form 7.05 times.
"""

from __future__ import annotations

from functools import lru_cache
from math import log2

from quoting.core import RangeError


def learning_exponent(rate: float) -> float:
    """Return b of y = a x^b: log2 of the rate, 0 or negative. `rate` is what each doubling leaves, in (0, 1].

    >>> round(learning_exponent(0.9), 4)
    -0.152
    """
    if not 0 < rate <= 1:
        raise RangeError("learning rate", rate, "more than 0 and up to 1")
    return log2(rate)


def unit_factor(piece: int, rate: float, floor_piece: int | None = None) -> float:
    """Return the time of a piece over that of the first, unit form; constant from `floor_piece` on.

    >>> [round(1000 * unit_factor(n, 0.9)) for n in (1, 2, 4, 8, 25)]
    [1000, 900, 810, 729, 613]
    """
    _whole("piece", piece)
    if floor_piece is not None:
        _whole("learning floor piece", floor_piece)
        piece = min(piece, floor_piece)
    return float(piece ** learning_exponent(rate))


@lru_cache(maxsize=4096)
def unit_total(pieces: int, rate: float, floor_piece: int | None = None) -> float:
    """Return the time of `pieces` over that of the first, unit form, with the floor of `unit_factor`.

    >>> round(unit_total(10, 0.9), 2)
    7.99
    """
    _whole("pieces", pieces)
    falling = pieces if floor_piece is None else min(pieces, floor_piece)
    total = sum(unit_factor(piece, rate, floor_piece) for piece in range(1, falling + 1))
    return total + (pieces - falling) * unit_factor(pieces, rate, floor_piece)


def cumulative_average_factor(pieces: int, rate: float) -> float:
    """Return the average time of the first `pieces` over that of the first, cumulative-average form.

    >>> round(cumulative_average_factor(2, 0.8), 2)
    0.8
    """
    _whole("pieces", pieces)
    return float(pieces ** learning_exponent(rate))


def cumulative_average_total(pieces: int, rate: float) -> float:
    """Return the time of `pieces` over that of the first, cumulative-average form.

    >>> round(cumulative_average_total(10, 0.9), 2)
    7.05
    """
    return pieces * cumulative_average_factor(pieces, rate)


def _whole(name: str, value: int) -> None:
    if value < 1:
        raise RangeError(name, value, "1 or more")
