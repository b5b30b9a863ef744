"""The constraint model of a problem, put together from its rules."""

from __future__ import annotations

from scheduler.sequence.exact.constraints.calendars import add_operation
from scheduler.sequence.exact.constraints.jobs import add_jobs
from scheduler.sequence.exact.constraints.people import add_people_and_cranes
from scheduler.sequence.exact.constraints.rows import Arcs, add_row, add_waits
from scheduler.sequence.exact.constraints.variables import Model
from scheduler.sequence.timing import Tables, Timed


def build(tables: Tables, hint: Timed | None, arcs: Arcs | None = None) -> Model:
    """Return the model of a problem with a warm start; with `arcs` only those followings are considered."""
    model = Model(tables, hint, narrow=arcs is not None)
    for i in range(tables.size):
        add_operation(model, i)
    for machine in range(len(tables.calendars)):
        add_row(model, machine, None if arcs is None else arcs[machine])
    add_waits(model)
    add_people_and_cranes(model)
    add_jobs(model)
    return model
