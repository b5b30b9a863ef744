"""What a route can promise: physical limits, the chance that a roll is too weak, tolerances."""

from quoting.estimating.judging.freight import freight_of
from quoting.estimating.judging.physical_limits import (
    physical_problem,
    route_flags,
    springback_band,
)
from quoting.estimating.judging.tolerances import (
    Held,
    expected_contour,
    expected_out_of_round,
    judge_tolerances,
)
from quoting.estimating.judging.trouble import thickness_ratio, trouble, yield_ratio

__all__ = [
    "Held",
    "expected_contour",
    "expected_out_of_round",
    "freight_of",
    "judge_tolerances",
    "physical_problem",
    "route_flags",
    "springback_band",
    "thickness_ratio",
    "trouble",
    "yield_ratio",
]
