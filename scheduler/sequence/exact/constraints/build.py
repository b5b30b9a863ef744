"""The constraint model of a problem, put together from its rules."""

from __future__ import annotations

from scheduler.sequence.exact.constraints.calendars import add_operation
from scheduler.sequence.exact.constraints.jobs import add_jobs
from scheduler.sequence.exact.constraints.people import add_people_and_cranes
from scheduler.sequence.exact.constraints.rows import add_row, add_waits
from scheduler.sequence.exact.constraints.variables import Model
from scheduler.sequence.timing import Tables, Timed


def build(tables: Tables, hint: Timed | None) -> Model:
    """Return the model of a problem with a warm start."""
    model = Model(tables, hint)
    for i in range(tables.size):
        add_operation(model, i)
    for machine in range(len(tables.calendars)):
        add_row(model, machine)
    add_waits(model)
    add_people_and_cranes(model)
    add_jobs(model)
    return model
