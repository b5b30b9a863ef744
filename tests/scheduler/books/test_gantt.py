"""The picture of the week: a bar begins and ends at its hours, whatever the paper's size."""

from __future__ import annotations

from datetime import datetime, time

import pytest

from quoting.drawings import Line, Words
from scheduler.books.gantt.picture import _BAR, _Gantt, gantt_picture
from scheduler.books.gantt.time_axis import axes_of
from tests.scheduler.books.sample import sample_week


@pytest.mark.parametrize(("wide", "high"), [(250.0, 120.0), (180.0, 90.0)])
def test_a_bar_of_a_job_lies_between_its_hours(wide: float, high: float) -> None:
    week = sample_week()
    axis = axes_of(week)[0]
    picture = _Gantt(week, axis, wide, high)
    items = list(picture.items())
    slot = next(slot for slot in week.slots if slot.line is not None and slot.start.date() == slot.end.date())
    midnight = datetime.combine(slot.start.date(), time())
    left = axis.left(axis.days.index(slot.start.date()))
    ends = [
        picture._x(left + (moment - midnight).total_seconds() / 60 - axis.first)
        for moment in (slot.start, slot.end)
    ]
    row = (*week.rolls, *week.stations).index(slot.machine)
    tall = _BAR * picture._step
    bars = [
        (min(v.x for v in item.path), max(v.x for v in item.path))
        for item in items
        if isinstance(item, Line)
        and item.closed
        and item.pen
        and _high(item) == pytest.approx(tall)
        and item.path[0].y == pytest.approx(picture._middle(row) - tall / 2)
    ]
    inside = [bar for bar in bars if ends[0] - 1e-6 <= bar[0] and bar[1] <= ends[1] + 1e-6]
    assert min(bar[0] for bar in inside) == pytest.approx(ends[0])
    assert max(bar[1] for bar in inside) == pytest.approx(ends[1])
    hours = {item.text: item.x for item in items if isinstance(item, Words) and item.text.isdigit()}
    assert hours  # the scale below


def _high(item: Line) -> float:
    return max(v.y for v in item.path) - min(v.y for v in item.path)


def test_the_same_week_gives_the_same_picture() -> None:
    week = sample_week()
    axis = axes_of(week)[0]
    first, second = (gantt_picture(week, axis, width_in=8, height_in=4) for _ in range(2))
    assert first == second
    assert first.startswith(b"\x89PNG")
