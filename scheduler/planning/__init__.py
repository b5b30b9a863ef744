"""From won lines to the planned week: asked, solved, split where it pays, put on the calendar."""

from scheduler.planning.plan_week import plan_week

__all__ = [
    "plan_week",
]
