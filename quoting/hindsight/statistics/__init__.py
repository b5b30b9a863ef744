"""Figures of few jobs, told honestly: intervals, shrinkage, fits that one wild figure does not move."""

from quoting.hindsight.statistics.robust_fit import (
    SET_ASIDE,
    Floats,
    LinearPrior,
    counted_in_full,
    robust_ridge,
)
from quoting.hindsight.statistics.shrinkage import Posterior, drawn_together
from quoting.hindsight.statistics.wilson import Share, wilson

__all__ = [
    "SET_ASIDE",
    "Floats",
    "LinearPrior",
    "Posterior",
    "Share",
    "counted_in_full",
    "drawn_together",
    "robust_ridge",
    "wilson",
]
