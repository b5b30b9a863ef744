"""The week sheet of every roll as PDF, on its side: a roll's days in order, with clock times.

A day stands on one page where a page holds it.

Set-up steps stand in words between the jobs; where a job waits after its set-up, the sheet says so. Crane
and second person are told by word. Spare lines are for what comes in between.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import groupby
from pathlib import Path

from quoting.drawings import QUIET, PageForm, PdfPages, Pen, letters_for, lost
from quoting.shop import Shop
from scheduler.calendar import day_short, hours_words
from scheduler.jobs import RE_ROUND, WonLine, box_label, floor_id
from scheduler.papers.sizes import Sizes
from scheduler.week import PlannedOperation, WeekPlan, begin_of

_HEADS = ("start", "job", "off", "part", "plate", "run", "until", "due", "lift", "a, b min")
_ENDS = (0.0, 17.0, 44.0, 54.0, 128.0, 167.0, 181.0, 199.0, 219.0, 244.0)
_BAND = "#E4E4E4"
_JOB_H, _SETUP_H, _TEXT, _SMALL = 9.6, 5.6, 4.2, 3.4
_DAY_H = 8.5
_WAITED_MIN = 1
_SPARE = 3
"""Lines to write on below a roll's last day, beside the one below each day."""
_LETTERS = [box_label(name)[0] for name in ("setup", "run")]


def write_week_sheets(week: WeekPlan, shop: Shop, path: Path) -> None:
    """Write the sheets of all rolls to `path` (.pdf); every roll begins a new page."""
    texts = [
        shop.name,
        *(text for slot in week.slots if slot.line for text in (slot.line.customer, slot.line.part)),
    ]
    paper = PageForm(shop.paper, landscape=True)
    pages = PdfPages(path, paper, letters_for(texts), title="Week by roll", made=week.start)
    sizes = Sizes(shop.inch)
    late = frozenset(item.line.id for item in week.late)
    begun = False
    for roll in week.rolls:
        slots = [slot for slot in week.on(roll) if slot.line is not None]
        if not slots:
            continue
        if begun:
            pages.turn()
        begun = True
        _roll(pages, week, roll, slots, sizes, late)
    if not begun:
        pages.text(0, 10, "Nothing is planned on the rolls.", 6, bold=True)
    pages.save()


def _roll(
    pages: PdfPages,
    week: WeekPlan,
    roll: str,
    slots: Sequence[PlannedOperation],
    sizes: Sizes,
    late: frozenset[str],
) -> None:
    """Write the days of one roll, each kept together where a page holds it."""
    y = top = _heads(pages, week, roll)
    for day, group in groupby(slots, key=lambda slot: begin_of(slot).date()):
        jobs = tuple(group)
        need = _DAY_H + sum(_high(slot) for slot in jobs)
        if y > top and y + need > _last(pages):
            y = _turn(pages, week, roll)
        y = _day_band(pages, y, *_day_words(week, roll, day, jobs))
        for slot in jobs:
            if y + _high(slot) > _last(pages):
                y = _turn(pages, week, roll)
            y = _setup(pages, slot, y)
            y = _job(pages, slot, sizes, slot.line is not None and slot.line.id in late, y)
        y = _spare(pages, y, 1)
    _spare(pages, y, _SPARE)
    _foot(pages, week)


def _spare(pages: PdfPages, y: float, most: int) -> float:
    """Draw lines to write on, as far as the page has room; return the y below them."""
    for _ in range(most):
        if y + _JOB_H > _last(pages):
            break
        y += _JOB_H
        pages.rule(0, y, pages.width, y, pen=Pen(0.2, QUIET, (1, 1)))
    return y


def _last(pages: PdfPages) -> float:
    return pages.height - 5


def _turn(pages: PdfPages, week: WeekPlan, roll: str) -> float:
    _foot(pages, week)
    pages.turn()
    return _heads(pages, week, roll)


def _high(slot: PlannedOperation) -> float:
    """Return how high a job stands with its set-up and the line that says that it waits."""
    return _JOB_H + _SETUP_H * ((1 if slot.setup_minutes else 0) + (1 if _waits(slot) else 0))


def _waits(slot: PlannedOperation) -> bool:
    minutes = (slot.start - slot.setup_end).total_seconds() / 60
    return bool(slot.setup_minutes) and minutes > _WAITED_MIN


def _day_words(week: WeekPlan, roll: str, day: date, jobs: Sequence[PlannedOperation]) -> tuple[str, str]:
    """Return the day, and its hours and sums."""
    hours = ", ".join(
        f"{'overtime ' if stretch.overtime else ''}{stretch.start:%H:%M} to {stretch.end:%H:%M}"
        for stretch in week.open_times.get(roll, ())
        if stretch.start.date() == day
    )
    setup, run = sum(slot.setup_minutes for slot in jobs), sum(slot.run_minutes for slot in jobs)
    count = f"{len(jobs)} job{'s' if len(jobs) > 1 else ''}"
    return f"{day_short(day)} {day.year}", (
        f"{count}, set-up {hours_words(setup)}, rolling {hours_words(run)}; open {hours}"
    )


def _heads(pages: PdfPages, week: WeekPlan, roll: str) -> float:
    pages.text(0, 7, roll, 8, bold=True, room=150)
    pages.text(pages.width, 7, f"{week.shop} · run order", _SMALL, anchor="end", room=105)
    for x, words in zip(_ENDS, _HEADS, strict=True):
        pages.quiet(x + 1, 13.5, words, _SMALL)
    pages.rule(0, 15, pages.width, 15, pen=Pen(0.5))
    return 15.0


def _day_band(pages: PdfPages, y: float, day: str, words: str) -> float:
    pages.box(0, y + 1, pages.width, _DAY_H - 1.5, fill=_BAND)
    pages.text(1.5, y + 6, day, 5, bold=True)
    pages.text(pages.width - 1.5, y + 6, words, _SMALL, anchor="end", room=180)
    return y + _DAY_H


def _setup(pages: PdfPages, slot: PlannedOperation, y: float) -> float:
    if slot.setup is None or not slot.setup_minutes:
        return y
    steps = "; ".join(f"{why} {minutes:.0f} min" for why, minutes in slot.setup.parts)
    pages.text(1, y + 4.2, f"{slot.setup_start:%H:%M}", _SMALL)
    pages.text(18, y + 4.2, f"set-up {slot.setup_minutes} min: {steps}", _SMALL, room=pages.width - 19)
    if not _waits(slot):
        return y + _SETUP_H
    ends = f"{slot.setup_end:%H:%M}"
    if slot.setup_end.date() != slot.setup_start.date():
        ends = f"{day_short(slot.setup_end)[:3]} {ends}"
    pages.text(1, y + _SETUP_H + 4.2, ends, _SMALL, room=15)
    words = f"set up; waits for {slot.waits_for}" if slot.waits_for else "set up; waits for the start below"
    pages.text(18, y + _SETUP_H + 4.2, words, _SMALL)
    return y + 2 * _SETUP_H


def _job(pages: PdfPages, slot: PlannedOperation, sizes: Sizes, late: bool, y: float) -> float:
    line = slot.line
    assert line is not None
    again = "RE-ROUND: " if slot.work.kind == RE_ROUND else ""
    begun = begin_of(slot).date()
    start, until = (
        f"{when:%H:%M}" if when.date() == begun else f"{day_short(when)[:3]} {when:%H:%M}"
        for when in (slot.start, slot.end)
    )
    cells = (
        (start, "", True),
        (line.name, floor_id(slot.work) if floor_id(slot.work) != line.name else "", True),
        (str(line.quantity), "", True),
        (f"{again}{_shape(line)}", line.customer, False),
        (f"{sizes.both(line.thickness_mm)} {line.material}", f"{sizes.both(line.width_mm)} wide", False),
        (f"{slot.run_minutes}", "min", False),
        (until, "", True),
        (day_short(line.due)[4:] if line.due else "no day", "LATE" if late else "", late),
        (sizes.weight(line.weight_kg), _lift(line), False),
    )
    for left, right, (words, under, bold) in zip(_ENDS, _ENDS[1:], cells, strict=False):
        pages.text(left + 1, y + 4.6, words, _TEXT, bold=bold, room=right - left - 2)
        pages.text(left + 1, y + 8.4, under, _SMALL - 0.2, bold=under == "LATE", room=right - left - 2)
    _boxes(pages, y)
    pages.rule(0, y + _JOB_H, pages.width, y + _JOB_H, pen=Pen(0.25))
    return y + _JOB_H


def _shape(line: WonLine) -> str:
    """Return the part without its plate, which has a column of its own."""
    shape, _, plate = line.part.rpartition(", ")
    return shape if shape and plate.endswith(line.material) else line.part


def _boxes(pages: PdfPages, y: float) -> None:
    """Draw the boxes for set-up and rolling minutes, under the floor book's letters."""
    left, half = _ENDS[-1] + 0.5, (pages.width - _ENDS[-1] - 0.5) / 2
    for index, letter in enumerate(_LETTERS):
        pages.box(left + index * half, y + 0.8, half - 0.4, _JOB_H - 1.6)
        pages.quiet(left + index * half + 0.6, y + 3.8, letter, _SMALL - 0.3)


def _lift(line: WonLine) -> str:
    people = f"{line.crew} people" if line.crew > 1 else "1 person"
    return f"CRANE, {people}" if line.crane else people


def _foot(pages: PdfPages, week: WeekPlan) -> None:
    words = "Reminder only: local law, the machine's manual, the shop's rules and trained people come first."
    gone = len(
        lost(text for slot in week.slots if slot.line for text in (slot.line.customer, slot.line.part))
    )
    note = f"letters this paper cannot print: see the order sheet ({gone} of them) · " if gone else ""
    pages.quiet(0, pages.height, f"{note}{words} · page {pages.number}", _SMALL - 0.3, room=pages.width)
