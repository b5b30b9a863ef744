"""Each operation on its machines' axis of working minutes: in which stretch it starts and ends, and what that
costs in overtime."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from scheduler.sequence.exact.constraints.variables import Model


def add_operation(model: Model, i: int) -> None:
    """Add start, end and machine of one operation, and its place on the axis of each of its calendars."""
    t, m = model.t, model.m
    fixed = t.fixed_start[i]
    low, high = (model.earliest[i], model.latest[i]) if fixed is None else (fixed, fixed)
    start = m.new_int_var(min(low, high), high, f"s{i}")
    end = m.new_int_var(min(low, high), max(high, model.latest[i]), f"e{i}")
    model.start.append(start)
    model.end.append(end)
    on = {k: m.new_bool_var(f"on{i},{k}") for k in t.minutes[i]}
    m.add_exactly_one(on.values())
    model.on.append(on)
    model.running_terms += [t.running_cost[i][k] * x for k, x in on.items() if t.running_cost[i][k]]
    model.work.append({})
    model.starts_in.append([])
    if model.hint is not None:
        m.add_hint(start, model.hint.start[i])
        m.add_hint(end, model.hint.end[i])
        for k, literal in on.items():
            m.add_hint(literal, int(model.hint.machine[i] == k))
    for c in sorted({model.calendar_of[k] for k in on}):
        _on_calendar(model, i, c)


def _on_calendar(model: Model, i: int, c: int) -> None:
    t, m, calendar = model.t, model.m, model.calendars[c]
    machines = {k: x for k, x in model.on[i].items() if model.calendar_of[k] == c}
    here = sum(machines.values())
    size = sum(t.minutes[i][k] * x for k, x in machines.items())
    shortest = min(t.minutes[i][k] for k in machines)
    near = _near(model, i, c)
    if not near:
        m.add(here == 0)
        model.work[i][c] = m.new_constant(0)
        return
    v = m.new_int_var(near[0][0], near[-1][1], f"v{i},{c}")
    model.work[i][c] = v
    if _hinted_on(model, i, c) and model.hint is not None:
        m.add_hint(v, calendar.before[min(model.hint.start[i], model.horizon)])
    first = _starts(model, i, c, v, shortest, here, near)
    model.starts_in[i] += [(b + g, x) for (_, b, g), x in zip(near, first, strict=True)]
    whole = not t.may_pause[i] or shortest == 0 or len(near) == 1
    if whole:
        last = first
        for (_, b, _), x in zip(near, first, strict=True):
            for k, on in machines.items():
                m.add(v <= b - t.minutes[i][k]).only_enforce_if(x, on)
    else:
        last = _ends(model, i, c, v, machines, near)
    closed = [gap for _, _, gap in near]
    begin = v + sum(g * x for g, x in zip(closed, first, strict=True))
    finish = v + size + sum(g * x for g, x in zip(closed, last, strict=True))
    if len(model.work[i]) == 1 and {model.calendar_of[k] for k in model.on[i]} == {c}:
        m.add(model.start[i] == begin)
        m.add(model.end[i] == finish)
    else:
        for on in machines.values():
            m.add(model.start[i] == begin).only_enforce_if(on)
            m.add(model.end[i] == finish).only_enforce_if(on)
    if calendar.has_overtime:
        _overtime(model, i, c, v, machines, shortest)


def _near(model: Model, i: int, c: int) -> list[tuple[int, int, int]]:
    """The stretches in which the operation may be worked on."""
    low, high = model.earliest[i], model.latest[i]
    return [(a, b, g) for a, b, g in model.stretches[c] if b + g >= low and a + g <= high]


def _hinted_on(model: Model, i: int, c: int) -> bool:
    return model.hint is not None and model.calendar_of[model.hint.machine[i]] == c


def _starts(
    model: Model, i: int, c: int, v: Any, shortest: int, here: Any, near: list[tuple[int, int, int]]
) -> list[Any]:
    """Literals x: the first working minute lies in this stretch."""
    literals = [model.m.new_bool_var(f"x{i},{c},{k}") for k in range(len(near))]
    model.m.add(sum(literals) == here)
    spare = 1 if model.t.may_pause[i] and shortest else shortest
    for (a, b, _), x in zip(near, literals, strict=True):
        if b - spare < a:
            model.m.add(x == 0)
        elif len(near) > 1:
            model.m.add_linear_constraint(v, a, b - spare).only_enforce_if(x)
        if _hinted_on(model, i, c) and model.hint is not None:
            model.m.add_hint(x, int(a <= model.calendars[c].before[model.hint.start[i]] < b))
    return literals


def _ends(
    model: Model, i: int, c: int, v: Any, machines: dict[int, Any], near: list[tuple[int, int, int]]
) -> list[Any]:
    """Literals y: the last working minute lies in this stretch."""
    literals = [model.m.new_bool_var(f"y{i},{c},{k}") for k in range(len(near))]
    model.m.add(sum(literals) == sum(machines.values()))
    for (a, b, _), y in zip(near, literals, strict=True):
        for k, on in machines.items():
            p = model.t.minutes[i][k]
            when = (y,) if len(machines) == 1 else (y, on)
            model.m.add_linear_constraint(v, a + 1 - p, b - p).only_enforce_if(*when)
        if _hinted_on(model, i, c) and model.hint is not None:
            model.m.add_hint(y, int(a <= model.calendars[c].before[model.hint.end[i]] - 1 < b))
    return literals


def _overtime(model: Model, i: int, c: int, v: Any, machines: dict[int, Any], shortest: int) -> None:
    """Money for the minutes worked in overtime: exact through the table of paid minutes, by start
    minute."""
    paid = model.calendars[c].paid
    for k, on in machines.items():
        p = model.t.minutes[i][k]
        costs = [paid[w + p] - paid[w] for w in range(len(paid) - p)]
        if not costs or max(costs) == 0:
            continue
        money = model.m.new_int_var(0, max(costs), f"ot{i},{k}")
        pieces = []
        for low, high, base, slope in _pieces(costs):
            piece = model.m.new_bool_var("")
            model.m.add_linear_constraint(v, low, high).only_enforce_if(piece)
            model.m.add(money >= base + slope * (v - low)).only_enforce_if(piece)
            pieces.append(piece)
        model.m.add(sum(pieces) == on)
        model.overtime_terms.append(money)


def _pieces(costs: Sequence[int]) -> list[tuple[int, int, int, int]]:
    """Cut a table into pieces of constant slope: first index, last index, first value, slope."""
    found: list[tuple[int, int, int, int]] = []
    a = 0
    while a < len(costs):
        b = a
        slope = costs[a + 1] - costs[a] if a + 1 < len(costs) else 0
        while b + 1 < len(costs) and costs[b + 1] - costs[b] == slope:
            b += 1
        found.append((a, b, costs[a], slope))
        a = b + 1
    return found
