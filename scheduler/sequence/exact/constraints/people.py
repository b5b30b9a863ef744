"""People and cranes as cumulatives over clock time."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from scheduler.sequence.exact.constraints.variables import Model


def add_people_and_cranes(model: Model) -> None:
    """Add that no minute needs more people or cranes than are there; set-ups are left out."""
    t = model.t
    crane = [i for i in range(t.size) if t.crane[i]]
    if len(crane) > t.problem.cranes:
        model.m.add_cumulative([_busy(model, i) for i in crane], [1] * len(crane), t.problem.cranes)
    if t.people is None:
        return
    crew = [i for i in range(t.size) if t.crew[i]]
    levels = _levels(t.people, _nobody_works(model))
    most = max((p for _, _, p in levels), default=0)
    intervals = [_busy(model, i) for i in crew]
    demands = [t.crew[i] for i in crew]
    for a, b, people in levels:
        if people < most:
            intervals.append(model.m.new_fixed_size_interval_var(a, b - a, ""))
            demands.append(most - people)
    model.m.add_cumulative(intervals, demands, most)


def _nobody_works(model: Model) -> list[bool]:
    """For each minute whether every machine is closed: then a paused operation may seem to hold
    people."""
    befores = [c.before for c in model.calendars]
    return [all(b[t + 1] == b[t] for b in befores) for t in range(model.horizon)]


def _busy(model: Model, i: int) -> Any:
    """The interval in which an operation surely holds its people: to its first pause when others may
    work on."""
    if i not in model.busy_of:
        end = model.end[i]
        if model.t.may_pause[i] and len(model.calendars) > 1:
            end = _first_pause(model, i)
        size = model.m.new_int_var(0, model.horizon, "")
        model.busy_of[i] = model.m.new_interval_var(model.start[i], size, end, "")
    return model.busy_of[i]


def _first_pause(model: Model, i: int) -> Any:
    """End of the work before its first pause: min(end, end of the window it starts in)."""
    window_end = sum(stop * x for stop, x in model.starts_in[i])
    end = model.m.new_int_var(0, model.horizon, "")
    model.m.add_min_equality(end, [model.end[i], window_end])
    return end


def _levels(people: Sequence[int], ignore: Sequence[bool]) -> list[tuple[int, int, int]]:
    """Stretches of equal staffing, minutes in which nobody works left out."""
    found: list[tuple[int, int, int]] = []
    for t, skip in enumerate(ignore):
        if skip:
            continue
        if found and found[-1][1] == t and found[-1][2] == people[t]:
            found[-1] = (found[-1][0], t + 1, people[t])
        else:
            found.append((t, t + 1, people[t]))
    return found
