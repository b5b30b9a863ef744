"""Few figures are drawn towards what is known: the normal-normal posterior, for one group and for many.

C. N. Morris, "Parametric empirical Bayes inference", Journal of the American Statistical Association 78
(1983) 47-65; B. Efron and C. Morris, "Data analysis using Stein's estimator and its generalizations", same
journal 70 (1975) 311-319, for the factor (k - 3).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from quoting.core import RangeError


@dataclass(frozen=True, slots=True)
class Posterior:
    """A mean with its standard deviation."""

    mean: float
    sd: float

    def interval(self, z: float = 1.959964) -> tuple[float, float]:
        """Return where the true mean lies 95 times in a hundred."""
        return self.mean - z * self.sd, self.mean + z * self.sd


def normal_normal(prior: Posterior, mean: float, sd: float, n: float) -> Posterior:
    """Return the posterior after `n` figures with this mean, each scattering by `sd`.

    The prior is worth (sd / prior.sd)^2 figures.

    >>> found = normal_normal(Posterior(1.0, 0.15), mean=1.2, sd=0.3, n=6)
    >>> round(found.mean, 4), round(found.sd, 6)
    (1.12, 0.094868)
    """
    if not (prior.sd > 0 and sd > 0 and n >= 0):
        raise RangeError("spread", (prior.sd, sd, n), "more than 0")
    worth = (sd / prior.sd) ** 2
    return Posterior((worth * prior.mean + n * mean) / (worth + n), sqrt(sd * sd / (worth + n)))


def drawn_together(
    means: Sequence[float], sds: Sequence[float], least_between: float = 0.0
) -> tuple[Posterior, ...]:
    """Return groups drawn towards their common mean, each by how little is known of it.

    How far groups truly differ is told by the method of moments (DerSimonian and Laird, Controlled Clinical
    Trials 7 (1986) 177-188), but never less than `least_between`: with few groups it is often 0 by chance.
    """
    weights = [1 / sd**2 for sd in sds]
    whole = sum(weights)
    common = sum(w * y for w, y in zip(weights, means, strict=True)) / whole
    excess = sum(w * (y - common) ** 2 for w, y in zip(weights, means, strict=True)) - (len(means) - 1)
    scale = whole - sum(w * w for w in weights) / whole
    between = max(excess / scale if scale > 0 else 0.0, least_between**2)
    again = [1 / (sd**2 + between) for sd in sds]
    middle = sum(w * y for w, y in zip(again, means, strict=True)) / sum(again)
    if between == 0:
        return tuple(Posterior(middle, sqrt(1 / whole)) for _ in means)
    prior = Posterior(middle, sqrt(between))
    return tuple(normal_normal(prior, y, sd, 1) for y, sd in zip(means, sds, strict=True))


def james_stein(values: Sequence[float], variance: float) -> tuple[float, ...]:
    """Return values of one known variance drawn towards their mean by the factor of James and Stein.

    The factor 1 - (k - 3) variance / S, S the sum of squares about the mean, is never negative.
    """
    k = len(values)
    mean = sum(values) / k
    squares = sum((value - mean) ** 2 for value in values)
    factor = max(0.0, 1 - (k - 3) * variance / squares) if squares else 0.0
    return tuple(mean + factor * (value - mean) for value in values)
