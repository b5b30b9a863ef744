"""How a low / likely / high band spreads: triangular, or the beta of PERT."""

from __future__ import annotations

from enum import StrEnum
from math import sqrt
from typing import TYPE_CHECKING, TypeAlias

from quoting.shop import Band

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Draws: TypeAlias = NDArray[np.float64]


class Spread(StrEnum):
    """The shape of a band.

    Triangular is the default: it needs nothing but the three values that an estimator can give, while the
    shape parameters of a beta "usually cannot be collected from interviewees" (U.S. Government
    Accountability Office, Cost Estimating and Assessment Guide, appendix X, table 48; the report number
    GAO-20-195G is from memory), and its fatter tails hide less risk.
    """

    TRIANGULAR = "triangular"
    PERT = "PERT"


def mean(band: Band, spread: Spread = Spread.TRIANGULAR) -> float:
    """Return the mean: (low + likely + high) / 3, or by PERT (low + 4 likely + high) / 6.

    Source of both: Goodpasture, Quantitative Methods in Project Management, table 2-5.

    >>> mean(Band(3, 8, 17), Spread.PERT)
    8.666666666666666
    """
    weight = 4 if spread is Spread.PERT else 1
    return (band.low + weight * band.likely + band.high) / (weight + 2)


def deviation(band: Band, spread: Spread = Spread.TRIANGULAR) -> float:
    """Return the standard deviation, in the band's own unit.

    Triangular: variance ((high - low)^2 + (likely - low)(likely - high)) / 18 (same table 2-5). PERT:
    (mean - low)(high - mean) / 7, the variance of the beta that is drawn from; the (high - low) / 6 of
    handbooks is its rule-of-thumb stand-in.

    >>> round(deviation(Band(3, 8, 17)), 3)
    2.896
    """
    low, likely, high = band.low, band.likely, band.high
    if spread is Spread.PERT:
        middle = mean(band, spread)
        return sqrt((middle - low) * (high - middle) / 7)
    return sqrt(((high - low) ** 2 + (likely - low) * (likely - high)) / 18)


def draw(band: Band, spread: Spread, rng: np.random.Generator, draws: int) -> Draws:
    """Return that many independent draws from the band."""
    import numpy as np  # noqa: PLC0415 - kept out of the start of the command

    width = band.high - band.low
    if width <= 0:
        return np.full(draws, float(band.likely))
    if spread is Spread.TRIANGULAR:
        return rng.triangular(band.low, band.likely, band.high, draws)
    towards_high = 1 + 4 * (band.likely - band.low) / width
    towards_low = 1 + 4 * (band.high - band.likely) / width
    return band.low + width * rng.beta(towards_high, towards_low, draws)
