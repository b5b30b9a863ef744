"""Rows: each machine is a circuit over its operations, with set-ups between neighbours; and what waits for
what."""

from __future__ import annotations

from typing import Any

from scheduler.sequence.exact.constraints.variables import Model
from scheduler.sequence.timing import Tables


def add_row(model: Model, machine: int) -> None:
    """Add the order of one machine: a circuit over its operations and one of them at a time."""
    t, m = model.t, model.m
    c = model.calendar_of[machine]
    able = [i for i in range(t.size) if machine in t.minutes[i]]
    if not able:
        return
    follows = _hinted_row(model, machine)
    never = _cannot_follow(t, able)
    empty = m.new_bool_var("")
    m.add_hint(empty, int(model.hint is not None and not follows))
    circuit = [(0, 0, empty)]
    for i in able:
        circuit.append((i + 1, i + 1, ~model.on[i][machine]))
    for i, j in ((i, j) for i in [-1, *able] for j in [*able, -1]):
        if i == j or (i, j) in never:
            continue
        literal = m.new_bool_var(f"a{machine},{i},{j}")
        if model.hint is not None:
            m.add_hint(literal, int((i, j) in follows))
        circuit.append((i + 1, j + 1, literal))
        if j >= 0:
            _follows(model, machine, c, i, j, literal)
    m.add_circuit(circuit)
    m.add_no_overlap(
        [
            m.new_optional_fixed_size_interval_var(
                model.work[i][c], t.minutes[i][machine], model.on[i][machine], ""
            )
            for i in able
        ]
    )


def _follows(model: Model, machine: int, c: int, i: int, j: int, literal: Any) -> None:
    t = model.t
    setup = t.setup(machine, i, j)
    ready = model.work[i][c] + t.minutes[i][machine] if i >= 0 else 0
    if i >= 0 or setup:
        model.m.add(model.work[j][c] >= ready + setup).only_enforce_if(literal)
    if setup and t.setup_rate:
        model.setup_terms.append(setup * t.setup_rate * literal)


def _hinted_row(model: Model, machine: int) -> set[tuple[int, int]]:
    if model.hint is None:
        return set()
    row = [i for i in model.hint.order() if model.hint.machine[i] == machine]
    return set(zip([-1, *row], [*row, -1], strict=True)) if row else set()


def add_waits(model: Model) -> None:
    """Add what waits for what, and that what runs already comes first."""
    for i, waits in enumerate(model.t.before):
        for j, lag in waits:
            model.m.add(model.start[i] >= model.end[j] + lag)
        if model.t.running[i]:
            for k, on in model.on[i].items():
                for j in range(model.t.size):
                    if j != i and k in model.on[j]:
                        model.m.add(model.start[j] >= model.end[i]).only_enforce_if(on, model.on[j][k])


def _cannot_follow(t: Tables, able: list[int]) -> set[tuple[int, int]]:
    """Arcs that the process order rules out, and those before an operation that runs already."""
    never = set()
    for j in able:
        for i, _ in t.before[j]:
            never.add((j, i))
        if t.running[j]:
            never.update((i, j) for i in able)
    return never
