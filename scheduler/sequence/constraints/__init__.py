"""The rules of the constraint model, one idea a module: variables, calendars, rows, people, jobs."""

from __future__ import annotations

from ..tables import Tables
from ..timing import Timed
from .calendars import add_operation
from .jobs import add_jobs
from .model import Model
from .people import add_people_and_cranes
from .rows import Arcs, add_row, add_waits


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


__all__ = ["Arcs", "Model", "build"]
