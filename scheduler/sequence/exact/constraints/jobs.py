"""Jobs: hard dates, late minutes, and the time a job is unfinished."""

from __future__ import annotations

from scheduler.sequence.exact.constraints.variables import Model


def add_jobs(model: Model) -> None:
    """Add each job's hard date, its late money and what it costs while it is unfinished."""
    t = model.t
    last: list[list[int]] = [[] for _ in t.due]
    for i, k in enumerate(t.job):
        last[k].append(i)
    for k, own in enumerate(last):
        if not own:
            continue
        hard = t.must_ship[k]
        if hard is not None:
            for i in own:
                model.m.add(model.end[i] <= hard)
        if t.weight[k]:
            late = model.m.new_int_var(0, max(0, model.horizon - t.due[k]), f"late{k}")
            for i in own:
                model.m.add(late >= model.end[i] - t.due[k])
            if model.hint is not None:
                model.m.add_hint(late, max(0, *(model.hint.end[i] - t.due[k] for i in own), 0))
            model.late.append(t.weight[k] * late)
        if t.wip_rate:
            _unfinished(model, own)


def _unfinished(model: Model, own: list[int]) -> None:
    first = model.m.new_int_var(0, model.horizon, "")
    done = model.m.new_int_var(0, model.horizon, "")
    model.m.add_min_equality(first, [model.start[i] for i in own])
    model.m.add_max_equality(done, [model.end[i] for i in own])
    if model.hint is not None:
        model.m.add_hint(first, min(model.hint.start[i] for i in own))
        model.m.add_hint(done, max(model.hint.end[i] for i in own))
    model.unfinished.append(model.t.wip_rate * (done - first))
