"""The week as a picture."""

from scheduler.books.gantt.sheet import gantt_sheets, put_gantt, width_in
from scheduler.books.gantt.time_axis import axes_of

__all__ = [
    "axes_of",
    "gantt_sheets",
    "put_gantt",
    "width_in",
]
