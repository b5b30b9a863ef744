"""A share with an honest interval: Wilson's score interval.

E. B. Wilson, "Probable inference, the law of succession, and statistical inference", Journal of the American
Statistical Association 22 (1927) 209-212. R. G. Newcombe, "Two-sided confidence intervals for the single
proportion", Statistics in Medicine 17 (1998) 857-872, compares seven methods and recommends it.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from quoting.core import RangeError

Z95 = 1.959964
"""The normal deviate that leaves 2.5 % above it."""


@dataclass(frozen=True, slots=True)
class Share:
    """So many of how many, with the interval in which the true share lies 95 times in a hundred."""

    hits: int
    of: int
    low: float
    high: float

    @property
    def value(self) -> float:
        """Return the share that was seen, 0 of nothing."""
        return self.hits / self.of if self.of else 0.0


def wilson(hits: int, of: int, z: float = Z95) -> Share:
    """Return a share with its interval; of nothing anything is possible, 0 to 1.

    >>> found = wilson(3, 10)
    >>> round(found.low, 3), round(found.high, 3)
    (0.108, 0.603)
    """
    if not 0 <= hits <= of:
        raise RangeError("hits", hits, f"0 to {of}")
    if of == 0:
        return Share(0, 0, 0.0, 1.0)
    seen, square = hits / of, z * z
    middle = (seen + square / (2 * of)) / (1 + square / of)
    reach = z * sqrt(seen * (1 - seen) / of + square / (4 * of * of)) / (1 + square / of)
    low = 0.0 if hits == 0 else max(0.0, middle - reach)
    high = 1.0 if hits == of else min(1.0, middle + reach)
    return Share(hits, of, low, high)
