"""The week as a picture: machines in rows, days side by side, every job with its set-up; clear in grey."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from quoting.core import MM_PER_INCH
from quoting.drawings import Item, Pen, Sketch, Words, open_line, sketch_png
from quoting.shop import Family
from scheduler.books.cutting_sheet import cut_numbers
from scheduler.books.gantt.look import (
    INK,
    LOOKS,
    OPEN,
    OVERTIME,
    SETUP,
    SHUT,
    WHITE,
    BlockLook,
    Box,
    block,
    flag,
    legend,
)
from scheduler.books.gantt.time_axis import DayAxis
from scheduler.calendar import day_short
from scheduler.week import PlannedOperation, WeekPlan

Piece = tuple[float, float]
"""Left edge and width on the axis, in minutes."""

DOTS_PER_INCH = 180
_BAR, _ROOM = 0.72, 0.94
"""Height of a bar and of a machine's row, as shares of the step between two machines."""
_LEFT, _RIGHT, _HEAD, _FOOT = 29.2, 1.3, 7.1, 12.7
"""Margins in mm: names of the machines, days above, hours and key below."""
_POINT = MM_PER_INCH / 72
_LETTER = 0.62
"""Width of a letter of the picture's font, as a share of its size."""
_LATE_LINE = 0.64


@dataclass(frozen=True, slots=True)
class Bar:
    """One operation on the picture: its row, what is written on it, and how it looks."""

    slot: PlannedOperation
    row: int
    label: str
    family: Family
    late: bool


def gantt_picture(week: WeekPlan, axis: DayAxis, *, width_in: float, height_in: float) -> bytes:
    """Return the picture of some days of a plan as PNG of that size; the same plan gives the same bytes."""
    wide, high = width_in * MM_PER_INCH, height_in * MM_PER_INCH
    picture = _Gantt(week, axis, wide, high)
    sketch = Sketch(0, 0, wide, high, 1.0, tuple(picture.items()), "Gantt of the week")
    return sketch_png(sketch, dots_per_inch=DOTS_PER_INCH)


def _bars(week: WeekPlan, machines: tuple[str, ...]) -> Iterator[Bar]:
    numbers = cut_numbers(week)
    late = {item.line.id for item in week.late}
    families = {plate: line.family for line in week.lines for plate in line.plates}
    for slot in week.slots:
        row = machines.index(slot.machine)
        plate = slot.work.plate
        if slot.line is not None:
            yield Bar(slot, row, slot.line.name, slot.line.family, slot.line.id in late)
        elif plate is not None:
            yield Bar(slot, row, str(numbers[plate.id]), families.get(plate.id, Family.CARBON), False)


class _Gantt:
    """Places the plan on paper: mm from the low left corner."""

    def __init__(self, week: WeekPlan, axis: DayAxis, wide: float, high: float) -> None:
        self._week, self._axis = week, axis
        self._wide, self._high = wide, high
        self._machines = (*week.rolls, *week.stations)
        self._minute = (wide - _LEFT - _RIGHT) / axis.length
        self._step = (high - _HEAD - _FOOT) / len(self._machines)

    def items(self) -> Iterator[Item]:
        """Yield all of it, what stands in front last."""
        bars = tuple(_bars(self._week, self._machines))
        yield from self._rows()
        yield from self._hours()
        for bar in bars:
            yield from self._setup(bar)
        for bar in sorted(bars, key=lambda bar: bar.late):
            yield from self._work(bar)
        times = self._week.open_times.values()
        yield from legend(
            self._wide,
            2.2,
            families={bar.family for bar in bars},
            overtime=any(stretch.overtime for stretches in times for stretch in stretches),
            late=any(bar.late for bar in bars),
            cutting=bool(self._week.stations),
        )

    def _x(self, minute: float) -> float:
        return _LEFT + minute * self._minute

    def _middle(self, row: int) -> float:
        return self._high - _HEAD - (row + 0.5) * self._step

    def _box(self, row: int, share: float, piece: Piece) -> Box:
        left, width = piece
        high = share * self._step
        return self._x(left), self._middle(row) - high / 2, width * self._minute, high

    def _rows(self) -> Iterator[Item]:
        """Yield the days, and for each machine its name and when it is open."""
        axis = self._axis
        for index, day in enumerate(axis.days):
            left = axis.left(index)
            at = self._x(left + axis.span / 2), self._high - _HEAD + 1.0
            yield Words(*at, day_short(day), 8.5 * _POINT, "middle", bold=True, ink=INK)
            for row in range(len(self._machines)):
                yield from block(self._box(row, _ROOM, (left, axis.span)), SHUT)
        for row, machine in enumerate(self._machines):
            size = min(8 * _POINT, (_LEFT - 2) / (_LETTER * 1.08 * len(machine)))
            at = _LEFT - 1.2, self._middle(row) - 0.36 * size
            yield Words(*at, machine, size, "end", bold=True, ink=INK)
            for stretch in self._week.open_times.get(machine, ()):
                for piece in axis.pieces(stretch.start, stretch.end):
                    yield from block(self._box(row, _ROOM, piece), OVERTIME if stretch.overtime else OPEN)

    def _hours(self) -> Iterator[Item]:
        axis = self._axis
        low, top = _FOOT, self._high - _HEAD
        for index in range(len(axis.days)):
            left = axis.left(index)
            for hour in _hours(axis):
                x = self._x(left + hour * 60 - axis.first)
                yield open_line((x, low), (x, top), pen=Pen(0.14, "#C9CED1"))
                yield Words(x, low - 3.2, str(hour), 6.5 * _POINT, "middle", ink=INK)
            for edge in (left, left + axis.span):
                yield open_line((self._x(edge), low), (self._x(edge), top), pen=Pen(0.21, INK))

    def _setup(self, bar: Bar) -> Iterator[Item]:
        slot = bar.slot
        if slot.setup_minutes:
            for piece in self._worked(slot, slot.setup_start, slot.setup_end):
                yield from block(self._box(bar.row, _BAR, piece), SETUP)

    def _work(self, bar: Bar) -> Iterator[Item]:
        """Yield the pieces of a bar, its label on the longest, a flag at its end when it is late."""
        look = LOOKS[bar.family]
        if bar.late:
            look = replace(look, line=_LATE_LINE)
        pieces = list(self._worked(bar.slot, bar.slot.start, bar.slot.end))
        for piece in pieces:
            yield from block(self._box(bar.row, _BAR, piece), look)
        if not pieces:
            return
        yield from _label(bar, self._box(bar.row, _BAR, max(pieces, key=lambda piece: piece[1])), look)
        if bar.late:
            x, y, width, high = self._box(bar.row, _BAR, pieces[-1])
            yield flag(x + width, y + high - 0.8)

    def _worked(self, slot: PlannedOperation, start: datetime, end: datetime) -> Iterator[Piece]:
        return _worked(self._week, slot.machine, start, end, self._axis)


def _label(bar: Bar, box: Box, look: BlockLook) -> Iterator[Item]:
    """Yield a bar's label in the largest letters that fit, turned where that lets them be larger."""
    x, y, wide, high = box
    letters = len(bar.label)
    sizes = [points * _POINT for points in (7.5, 7.0, 6.5, 6.0, 5.5, 5.0)]
    fits = [(size, 0) for size in sizes if letters * size * _LETTER + 1 <= wide and size <= high]
    fits += [(size, 90) for size in sizes if letters * size * _LETTER <= high and size + 0.4 <= wide]
    if not fits:
        return
    size, turn = max(fits, key=lambda fit: (fit[0], -fit[1]))
    middle, down = (x + wide / 2, y + high / 2), 0.36 * size
    at = (middle[0] + down, middle[1]) if turn else (middle[0], middle[1] - down)
    behind = WHITE if look.pattern else ""
    yield Words(*at, bar.label, size, "middle", bold=bar.late, turn=turn, ink=INK, behind=behind)


def _hours(axis: DayAxis) -> range:
    hours = (axis.last - axis.first) // 60
    step = 1 if len(axis.days) * hours <= 60 else 2 if len(axis.days) * hours <= 100 else 4
    return range(-(-axis.first // 60), axis.last // 60 + (1 if len(axis.days) == 1 else 0), step)


def _worked(week: WeekPlan, machine: str, start: datetime, end: datetime, axis: DayAxis) -> Iterator[Piece]:
    """Yield the pieces of a stretch in which the machine is worked, joined where they meet."""
    joined: list[Piece] = []
    for stretch in week.open_times.get(machine, ()):
        begin, finish = max(start, stretch.start), min(end, stretch.end)
        if begin >= finish:
            continue
        for left, width in axis.pieces(begin, finish):
            if joined and abs(joined[-1][0] + joined[-1][1] - left) < 1e-6:
                joined[-1] = (joined[-1][0], joined[-1][1] + width)
            else:
                joined.append((left, width))
    yield from joined
