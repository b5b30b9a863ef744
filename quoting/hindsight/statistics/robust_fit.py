"""Least squares with a prior, in which a wild figure has no say.

The posterior of a linear model with a normal prior: A. E. Hoerl and R. W. Kennard, "Ridge regression",
Technometrics 12 (1970) 55-67; D. V. Lindley and A. F. M. Smith, "Bayes estimates for the linear model",
Journal of the Royal Statistical Society B 34 (1972) 1-41. Weights of figures: Huber's (t = 1.345) first, then
Tukey's biweight (c = 4.685), scale by the median absolute deviation / 0.6745 (P. J. Huber, Robust Statistics,
1981; the constants are the defaults of the statsmodels library). `counted_in_full` is the
reweighted least squares of P. J. Rousseeuw and A. M. Leroy, Robust Regression and Outlier Detection, 1987:
minutes scatter further up than down, and a robust middle lies below the mean that has to be paid.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Floats: TypeAlias = NDArray[np.float64]

_HUBER, _BIWEIGHT, _TO_SD = 1.345, 4.685, 0.6745
_ROUNDS_HUBER, _ROUNDS_BIWEIGHT = 12, 24
SET_ASIDE = 0.1
"""A figure with less weight than this is set aside: one some four times the scatter off."""
_LEAST_SCATTER = 0.01
"""No figure is trusted to less than this of its size: people round."""


@dataclass(frozen=True, slots=True)
class LinearPrior:
    """What is known before: means (k,), covariance (k, k), the scatter of a figure, worth so many figures."""

    mean: Floats
    covariance: Floats
    scatter: float
    worth: int


@dataclass(frozen=True, slots=True)
class LinearFit:
    """The posterior: means (k,), covariance (k, k), weight of every figure (n,), scatter of one figure."""

    mean: Floats
    covariance: Floats
    weights: Floats
    scatter: float


def ridge(x: Floats, y: Floats, variance: Floats, prior: LinearPrior) -> tuple[Floats, Floats]:
    """Return mean and covariance of b in y = x b + e, e ~ N(0, variance), b ~ N(prior).

    Shapes: x (n, k), y and variance (n,).
    """
    known = np.linalg.inv(prior.covariance)
    weighted = x / variance[:, None]
    covariance: Floats = np.asarray(np.linalg.inv(known + x.T @ weighted), dtype=np.float64)
    return covariance @ (known @ prior.mean + weighted.T @ y), covariance


def robust_ridge(x: Floats, y: Floats, size: Floats, evidence: Floats, prior: LinearPrior) -> LinearFit:
    """Return the posterior with wild figures set aside.

    `size` (n,) is how a figure scatters against the others, `evidence` (n,) in (0, 1] what its age leaves of
    it. The scatter is learnt too; the prior one counts as `prior.worth` figures.
    """
    mean, scatter = prior.mean, prior.scatter
    weights = np.ones(len(y))
    covariance = prior.covariance
    for turn in range(_ROUNDS_HUBER + _ROUNDS_BIWEIGHT):
        off = (y - x @ mean) / size
        scatter = _scatter(off, evidence, prior)
        ratio = np.abs(off) / scatter
        if turn < _ROUNDS_HUBER:
            weights = np.minimum(1.0, _HUBER / np.maximum(ratio, 1e-12))
        else:
            weights = np.where(ratio < _BIWEIGHT, (1 - np.minimum(ratio / _BIWEIGHT, 1.0) ** 2) ** 2, 0.0)
        say = np.maximum(weights * evidence, 1e-12)
        mean, covariance = ridge(x, y, (scatter * size) ** 2 / say, prior)
    return LinearFit(mean, covariance, weights, scatter)


def counted_in_full(
    fit: LinearFit, x: Floats, y: Floats, size: Floats, evidence: Floats, prior: LinearPrior
) -> LinearFit:
    """Return the posterior in which what a robust fit did not set aside counts in full, the rest not at all.

    Weights and scatter are still those of the robust fit.
    """
    say = np.maximum(np.where(fit.weights >= SET_ASIDE, evidence, 0.0), 1e-12)
    mean, covariance = ridge(x, y, (fit.scatter * size) ** 2 / say, prior)
    return LinearFit(mean, covariance, fit.weights, fit.scatter)


def _scatter(off: Floats, evidence: Floats, prior: LinearPrior) -> float:
    """Return the robust scatter; the prior one stands among the figures so often as it is worth.

    The median is that of the evidence: half of it lies below.
    """
    sizes = np.concatenate([np.abs(off), np.full(prior.worth, _TO_SD * prior.scatter)])
    say = np.concatenate([evidence, np.ones(prior.worth)])
    order = np.argsort(sizes, kind="stable")
    below = np.cumsum(say[order])
    middle = sizes[order][np.searchsorted(below, below[-1] / 2)]
    return max(float(middle) / _TO_SD, _LEAST_SCATTER)
