"""The week: the problem to solve, and the planned week as values."""

from scheduler.week.problem import WeekProblem, week_problem
from scheduler.week.record import schedule_record
from scheduler.week.week_plan import (
    Cure,
    Late,
    Later,
    MachineLoad,
    OpenTime,
    PlannedOperation,
    Unplanned,
    WeekPlan,
    begin_of,
    by_week,
)

__all__ = [
    "Cure",
    "Late",
    "Later",
    "MachineLoad",
    "OpenTime",
    "PlannedOperation",
    "Unplanned",
    "WeekPlan",
    "WeekProblem",
    "begin_of",
    "by_week",
    "schedule_record",
    "week_problem",
]
