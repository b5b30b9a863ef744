"""The owner's month: margin quoted and made, hours, late jobs, what is won and lost."""

from quoting.hindsight.month.facts import JobDone, LineDecided, PlateLeft
from quoting.hindsight.month.figures import (
    MarginGroup,
    MonthFacts,
    MonthFigures,
    margin_group,
    month_figures,
)

__all__ = [
    "JobDone",
    "LineDecided",
    "MarginGroup",
    "MonthFacts",
    "MonthFigures",
    "PlateLeft",
    "margin_group",
    "month_figures",
]
