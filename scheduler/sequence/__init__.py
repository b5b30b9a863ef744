"""Orders the operations of a plan."""

from .checker import check
from .compare import Saving, compare, plain_plan
from .finish import NoPlanError
from .model import (
    After,
    Aim,
    Job,
    Machine,
    Mode,
    MustShip,
    Operation,
    Pin,
    Rates,
    SequenceProblem,
    Staffing,
    Window,
    Wish,
    per_minute,
)
from .plan import Assignment, Conflict, Cost, OvertimeUsed, Plan, TracePoint
from .solve import Effort, solve
from .stop import Stop

__all__ = [
    "After",
    "Aim",
    "Assignment",
    "Conflict",
    "Cost",
    "Effort",
    "Job",
    "Machine",
    "Mode",
    "MustShip",
    "NoPlanError",
    "Operation",
    "OvertimeUsed",
    "Pin",
    "Plan",
    "Rates",
    "Saving",
    "SequenceProblem",
    "Staffing",
    "Stop",
    "TracePoint",
    "Window",
    "Wish",
    "check",
    "compare",
    "per_minute",
    "plain_plan",
    "solve",
]
