"""The one path that strings the rooms together: routes, stock, costs, prices, risk and what-ifs."""

from quoting.estimating.costing import at_minutes_of, price_of
from quoting.estimating.estimate import estimate, priced, with_worths
from quoting.estimating.judging import (
    expected_contour,
    expected_out_of_round,
    freight_of,
    judge_tolerances,
    physical_problem,
    springback_band,
)
from quoting.estimating.large_totals import large_totals
from quoting.estimating.line_work import edge_words, weld_words
from quoting.estimating.plates import cutting_minutes_of, here_on, lead_days_of, plate_name
from quoting.estimating.result import (
    Change,
    ChoiceWorth,
    Estimate,
    GroupNest,
    LineResult,
    OrderEstimate,
    Revision,
    Rolling,
    Route,
    WorkItem,
)
from quoting.estimating.revising import Edits, LineEdit, first_day, line_rules, revise
from quoting.estimating.route_words import ends_words
from quoting.estimating.routes import NOT_IN_RACK
from quoting.estimating.what_if import with_sensitivities
from quoting.estimating.with_alone import priced_alone, with_alone
from quoting.estimating.with_risk import with_risk
from quoting.estimating.won_only import WonOnly, won_only

__all__ = [
    "NOT_IN_RACK",
    "Change",
    "ChoiceWorth",
    "Edits",
    "Estimate",
    "GroupNest",
    "LineEdit",
    "LineResult",
    "OrderEstimate",
    "Revision",
    "Rolling",
    "Route",
    "WonOnly",
    "WorkItem",
    "at_minutes_of",
    "cutting_minutes_of",
    "edge_words",
    "ends_words",
    "estimate",
    "expected_contour",
    "expected_out_of_round",
    "first_day",
    "freight_of",
    "here_on",
    "judge_tolerances",
    "large_totals",
    "lead_days_of",
    "line_rules",
    "physical_problem",
    "plate_name",
    "price_of",
    "priced",
    "priced_alone",
    "revise",
    "springback_band",
    "weld_words",
    "with_alone",
    "with_risk",
    "with_sensitivities",
    "with_worths",
    "won_only",
]
