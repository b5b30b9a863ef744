"""The rules of the constraint model, one idea a module: variables, calendars, rows, people, jobs."""

from scheduler.sequence.exact.constraints.build import build
from scheduler.sequence.exact.constraints.variables import Model

__all__ = [
    "Model",
    "build",
]
