"""The variables of the constraint model and its objective; the other modules of this room add the rules."""

from __future__ import annotations

from typing import Any

from scheduler.sequence.exact.constraints.time_frame import stretches_of, time_frame
from scheduler.sequence.timing import Calendar, Tables, Timed


class Model:
    """The CP-SAT model of one problem while it is built; variables are named as in `cpsat`."""

    def __init__(self, tables: Tables, hint: Timed | None) -> None:
        from ortools.sat.python import cp_model  # noqa: PLC0415 - slow to load, so only when used

        self.cp: Any = cp_model
        self.m: Any = cp_model.CpModel()
        self.t = tables
        self.hint = hint
        self.horizon = tables.problem.horizon
        self.earliest, self.latest = time_frame(tables, hint)
        self.start: list[Any] = []
        self.end: list[Any] = []
        self.on: list[dict[int, Any]] = []
        self.work: list[dict[int, Any]] = []  # by calendar number
        self.calendars: list[Calendar] = []
        self.calendar_of: list[int] = []
        self.setup_terms: list[Any] = []
        self.overtime_terms: list[Any] = []
        # last minute + 1 of a window, literal "starts in it"
        self.starts_in: list[list[tuple[int, Any]]] = []
        self.late: list[Any] = []
        self.unfinished: list[Any] = []
        self.running_terms: list[Any] = []
        self.busy_of: dict[int, Any] = {}
        self._number_calendars()
        known = self.horizon if hint is None else max(hint.end, default=0)
        self.stretches = [stretches_of(c, known) for c in self.calendars]

    def _number_calendars(self) -> None:
        for calendar in self.t.calendars:
            known = next((k for k, c in enumerate(self.calendars) if c is calendar), None)
            if known is None:
                known = len(self.calendars)
                self.calendars.append(calendar)
            self.calendar_of.append(known)

    def lateness(self) -> Any:
        """Weighted late minutes, ticks."""
        return sum(self.late)

    def rest(self) -> Any:
        """Set-ups, overtime, unfinished work and dearer machines, ticks."""
        return (
            sum(self.setup_terms) + sum(self.overtime_terms) + sum(self.unfinished) + sum(self.running_terms)
        )

    def minimise(self, objective: Any) -> None:
        """Set the objective."""
        self.has_objective = not isinstance(objective, int)
        if self.has_objective:
            self.m.minimize(objective)

    def cap(self, expression: Any, most: int) -> None:
        """Keep an expression at or below a value."""
        if not isinstance(expression, int):
            self.m.add(expression <= most)
