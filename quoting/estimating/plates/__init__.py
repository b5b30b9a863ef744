"""Plates of a run: which sizes, nested in groups, and what of them each line pays."""

from quoting.estimating.plates.nest_groups import (
    GroupFound,
    NestedGroups,
    all_by_weight,
    nest_each,
    nest_groups,
)
from quoting.estimating.plates.plate_shares import (
    PlateShare,
    by_weight,
    cutting_minutes_of,
    own_plate,
    plate_name,
    share_costs,
)
from quoting.estimating.plates.stocking import (
    SAME_THICKNESS_MM,
    RoutedLine,
    here_on,
    lead_days_of,
    line_problem,
    nest_problems,
    sides_to_grain,
    stock_for,
)

__all__ = [
    "SAME_THICKNESS_MM",
    "GroupFound",
    "NestedGroups",
    "PlateShare",
    "RoutedLine",
    "all_by_weight",
    "by_weight",
    "cutting_minutes_of",
    "here_on",
    "lead_days_of",
    "line_problem",
    "nest_each",
    "nest_groups",
    "nest_problems",
    "own_plate",
    "plate_name",
    "share_costs",
    "sides_to_grain",
    "stock_for",
]
