"""Figures of few jobs, told honestly: intervals, shrinkage, fits that one wild figure does not move."""

from quoting.hindsight.statistics.robust_fit import Floats, LinearPrior, robust_ridge
from quoting.hindsight.statistics.shrinkage import Posterior, drawn_together

__all__ = ["Floats", "LinearPrior", "Posterior", "drawn_together", "robust_ridge"]
