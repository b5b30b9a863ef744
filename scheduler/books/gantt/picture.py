"""The week as a picture: machines in rows, days side by side, every job with its set-up; clear in grey."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from typing import Any

from quoting.shop import Family
from scheduler.books.cutting_sheet import cut_numbers
from scheduler.books.gantt.look import (
    CLOSED,
    INK,
    LOOKS,
    OVERTIME,
    OVERTIME_INK,
    SETUP,
    BlockLook,
    block,
    legend,
)
from scheduler.books.gantt.time_axis import DayAxis
from scheduler.calendar import day_short
from scheduler.week import PlannedOperation, WeekPlan

DOTS_PER_INCH = 220
_BAR, _ROOM = 0.72, 0.94
"""Height of a bar and of a machine's row, as shares of the step between two machines."""

_POINTS_PER_INCH = 72
_LETTER = 0.62
"""Width of a letter of the picture's font, as a share of its size."""


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
    import matplotlib as mpl  # noqa: PLC0415 - slow to import
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # noqa: PLC0415
    from matplotlib.figure import Figure  # noqa: PLC0415

    with mpl.rc_context({"hatch.linewidth": 0.5, "font.family": "DejaVu Sans", "text.color": INK}):
        figure = Figure(figsize=(width_in, height_in), dpi=DOTS_PER_INCH)
        FigureCanvasAgg(figure)
        label_in, head_in, foot_in = 1.15, 0.28, 0.5
        axes = figure.add_axes(
            (
                label_in / width_in,
                foot_in / height_in,
                1 - (label_in + 0.05) / width_in,
                1 - (head_in + foot_in) / height_in,
            )
        )
        machines = (*week.rolls, *week.stations)
        bars = tuple(_bars(week, machines))
        inch_per_minute = (width_in - label_in - 0.05) / axis.length
        row_in = (height_in - head_in - foot_in) / len(machines)
        _grid(axes, week, machines, axis)
        for bar in bars:
            _draw(axes, week, bar, axis, inch_per_minute, row_in)
        legend(
            figure,
            families={bar.family for bar in bars},
            overtime=any(stretch.overtime for times in week.open_times.values() for stretch in times),
            late=any(bar.late for bar in bars),
            cutting=bool(week.stations),
        )
        made = BytesIO()
        figure.savefig(made, format="png", metadata={"Software": None})
    return made.getvalue()


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


def _grid(axes: Any, week: WeekPlan, machines: tuple[str, ...], axis: DayAxis) -> None:
    axes.set_xlim(0, axis.length)
    axes.set_ylim(len(machines) - 0.5, -0.5)
    axes.set_yticks(range(len(machines)), machines, fontsize=8, fontweight="bold")
    axes.tick_params(length=0, pad=3)
    for side in axes.spines.values():
        side.set_visible(False)
    ticks = []
    for index, day in enumerate(axis.days):
        left = axis.left(index)
        middle = left + axis.span / 2
        axes.text(middle, -0.56, day_short(day), ha="center", va="bottom", fontsize=8.5, fontweight="bold")
        for row in range(len(machines)):
            block(axes, row, _ROOM, (left, axis.span), BlockLook(CLOSED), zorder=0)
        ticks += [(left + hour * 60 - axis.first, str(hour)) for hour in _hours(axis)]
    for row, machine in enumerate(machines):
        for stretch in week.open_times.get(machine, ()):
            look = BlockLook("white", OVERTIME if stretch.overtime else "", OVERTIME_INK)
            for piece in axis.pieces(stretch.start, stretch.end):
                block(axes, row, _ROOM, piece, look, zorder=1)
    axes.set_xticks([place for place, _ in ticks], [name for _, name in ticks], fontsize=6.5)
    for place, _ in ticks:
        axes.axvline(place, color="#C9CED1", linewidth=0.4, zorder=1.5)
    for index in range(len(axis.days)):
        for edge in (axis.left(index), axis.left(index) + axis.span):
            axes.axvline(edge, color=INK, linewidth=0.6, zorder=1.6)


def _hours(axis: DayAxis) -> range:
    hours = (axis.last - axis.first) // 60
    step = 1 if len(axis.days) * hours <= 60 else 2 if len(axis.days) * hours <= 100 else 4
    return range(-(-axis.first // 60), axis.last // 60 + (1 if len(axis.days) == 1 else 0), step)


def _draw(axes: Any, week: WeekPlan, bar: Bar, axis: DayAxis, inch_per_minute: float, row_in: float) -> None:
    slot = bar.slot
    if slot.setup_minutes:
        for piece in _worked(week, slot.machine, slot.setup_start, slot.setup_end, axis):
            block(axes, bar.row, _BAR, piece, BlockLook("white", SETUP, line=0.4), zorder=3)
    fill, hatch = LOOKS[bar.family]
    pieces = list(_worked(week, slot.machine, slot.start, slot.end, axis))
    for piece in pieces:
        line, zorder = (1.8, 4) if bar.late else (0.6, 3)
        block(axes, bar.row, _BAR, piece, BlockLook(fill, hatch, line=line), zorder=zorder)
    if pieces:
        left, width = max(pieces, key=lambda piece: piece[1])
        _label(axes, bar, left, width, inch_per_minute, row_in)
        if bar.late:
            _late_mark(axes, bar, *pieces[-1])


def _worked(
    week: WeekPlan, machine: str, start: datetime, end: datetime, axis: DayAxis
) -> Iterator[tuple[float, float]]:
    """Yield the pieces of a stretch in which the machine is worked, joined where they meet."""
    joined: list[tuple[float, float]] = []
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


def _label(axes: Any, bar: Bar, left: float, width: float, inch_per_minute: float, row_in: float) -> None:
    room = width * inch_per_minute * _POINTS_PER_INCH
    high = _BAR * row_in * _POINTS_PER_INCH
    letters = len(bar.label)
    sizes = (7.5, 7.0, 6.5, 6.0, 5.5, 5.0)
    fits = [(size, 0) for size in sizes if letters * size * _LETTER + 3 <= room and size <= high]
    fits += [(size, 90) for size in sizes if letters * size * _LETTER <= high and size + 1 <= room]
    if not fits:
        return
    size, turn = max(fits, key=lambda fit: (fit[0], -fit[1]))
    behind = None
    if LOOKS[bar.family][1]:
        behind = {"facecolor": "white", "edgecolor": "none", "pad": 0.6}
    axes.text(
        left + width / 2,
        bar.row,
        bar.label,
        ha="center",
        va="center_baseline" if not turn else "center",
        rotation=turn,
        fontsize=size,
        fontweight="bold" if bar.late else "normal",
        bbox=behind,
        zorder=6,
    )


def _late_mark(axes: Any, bar: Bar, left: float, width: float) -> None:
    """Put a black flag over the end of a bar that is late."""
    axes.plot(
        [left + width],
        [bar.row - _BAR / 2],
        marker="v",
        markersize=5.5,
        color="black",
        clip_on=False,
        zorder=7,
    )
