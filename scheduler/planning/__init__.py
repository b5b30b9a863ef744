"""From won lines to the planned week: asked, solved, split where it pays, put on the calendar."""

from scheduler.planning.on_calendar import on_calendar
from scheduler.planning.plan_week import plan_week
from scheduler.planning.solve_asked import PlanAsked

__all__ = [
    "PlanAsked",
    "on_calendar",
    "plan_week",
]
