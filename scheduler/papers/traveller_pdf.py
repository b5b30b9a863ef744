"""The travellers: each job's set-up sheet on one page, roll by roll in running order.

One page holds what an operator asks: what do I dial, which end first, how do I check it, how do I lift it,
what do I write down. Letters are 12 points where they are read at the roll, 8 at the least; the page lies
within the printed area that Letter and A4 share. Where much applies to a job its drawings and the letters of
its cautions give way first; what then has no room goes on a page of its own, and the first page says so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from quoting.drawings import LEADING, PageForm, PdfPages, letters_for, lost
from quoting.shop import Shop
from scheduler.calendar import day_short
from scheduler.jobs import floor_id
from scheduler.papers.job_sheet import JobSheet, job_sheets
from scheduler.papers.sizes import Sizes
from scheduler.papers.traveller_dial import dial
from scheduler.papers.traveller_head import DRAWINGS_Y, call_out, drawings, head
from scheduler.papers.traveller_look import BODY, LABEL, LEAST, SMALL
from scheduler.papers.traveller_notes import (
    BOXES_Y,
    STANDING,
    asked_for,
    boxes,
    columns,
    mind,
    remarks,
)
from scheduler.week import WeekPlan

__all__ = ["STANDING", "sheet_texts", "write_travellers"]


@dataclass(frozen=True, slots=True)
class _Room:
    """How a page is shared out: height of drawings and passes, letters of the cautions, what stays on it."""

    drawings_mm: float
    passes_mm: float
    cautions_mm: float
    asked: bool = True
    cautions: int = 99


_ROOMS = (
    _Room(50.0, 48.0, SMALL),
    _Room(50.0, 40.0, SMALL),
    _Room(46.0, 40.0, SMALL),
    _Room(46.0, 40.0, LABEL),
    _Room(42.0, 38.0, LABEL),
    _Room(42.0, 36.0, LEAST),
)


def write_travellers(week: WeekPlan, shop: Shop, path: Path) -> None:
    """Write the travellers of a week to `path` (.pdf), Letter or A4 as the shop's book says."""
    sheets = job_sheets(week, shop)
    sizes = Sizes(shop.inch)
    texts = [shop.name, *(text for sheet in sheets for text in sheet_texts(sheet))]
    paper = PageForm(shop.paper)
    pages = PdfPages(path, paper, letters_for(texts), title="Travellers and set-up sheets", made=week.start)
    for number, sheet in enumerate(sheets):
        if number:
            pages.turn()
        _page(pages, sheet, sizes, shop, week.start)
    if not sheets:
        pages.text(0, 10, "Nothing is planned on the rolls.", 6, bold=True)
    pages.save()


def sheet_texts(sheet: JobSheet) -> Iterable[str]:
    """Yield every text of a sheet that somebody else wrote."""
    yield sheet.identity
    yield sheet.line.part
    yield sheet.line.material
    yield from sheet.asked_for
    yield from sheet.remarks
    yield from sheet.cautions
    yield sheet.slot.machine
    yield from (value for _, value in sheet.checks)


def _page(pages: PdfPages, sheet: JobSheet, sizes: Sizes, shop: Shop, made: date) -> None:
    room = _shared_out(pages, sheet, sizes)
    head(pages, sheet)
    call_out(pages, sheet, sizes)
    drawings(pages, sheet, sizes, room.drawings_mm)
    y = _body(pages, sheet, sizes, room)
    more = _left_over(sheet, room)
    if more:
        pages.text(0, y + 4, f"MORE TO MIND: next page ({len(more)})", BODY, bold=True)
    else:
        remarks(pages, sheet, y)
    boxes(pages, floor_id(sheet.slot.work))
    _foot(pages, sheet, shop, made)
    if more:
        _further(pages, sheet, more, lambda: _foot(pages, sheet, shop, made))


def _further(pages: PdfPages, sheet: JobSheet, more: Sequence[str], foot: Callable[[], None]) -> None:
    """Write what has no room on the first page on as many more as it takes."""
    y = pages.height
    for words in more:
        high = LEADING * BODY * len(pages.lines(f"• {words}", BODY, pages.width))
        if y + high > pages.height - 8:
            pages.turn()
            foot()
            pages.text(0, 9, f"{sheet.line.name}: more to mind", 8, bold=True, room=pages.width)
            y = 14.0
        y = pages.block(0, y, f"• {words}", BODY, pages.width) + 1


def _shared_out(pages: PdfPages, sheet: JobSheet, sizes: Sizes) -> _Room:
    """Return the first way to share out the page in which all has room, else what stays on it."""
    tight = _ROOMS[-1]
    fewer = (replace(tight, asked=False, cautions=n) for n in range(len(sheet.cautions), 0, -1))
    with pages.dry():
        for room in (*_ROOMS, *fewer):
            if _body(pages, sheet, sizes, room) + (0.0 if room.asked else BODY + 1) <= BOXES_Y - 0.5:
                return room
    return replace(tight, asked=False, cautions=0)


def _body(pages: PdfPages, sheet: JobSheet, sizes: Sizes, room: _Room) -> float:
    """Write what is dialled, checked, lifted and minded; return the y below it."""
    y = dial(pages, sheet, sizes.unit, DRAWINGS_Y + room.drawings_mm + 2, room.passes_mm)
    y = columns(pages, sheet, y + 2)
    y = mind(pages, sheet.cautions[: room.cautions], y + 1.2, room.cautions_mm)
    return asked_for(pages, sheet, y) if room.asked else y


def _left_over(sheet: JobSheet, room: _Room) -> tuple[str, ...]:
    asked = () if room.asked else sheet.asked_for
    return (*sheet.cautions[room.cautions :], *asked)


def _foot(pages: PdfPages, sheet: JobSheet, shop: Shop, made: date) -> None:
    plan = f"plan from {day_short(made)} {made.year}"
    foot = f"{shop.name} · {plan} · page {pages.number} · computed, not measured"
    if gone := lost(sheet_texts(sheet)):
        foot = f"letters this paper cannot print: see the order sheet ({len(gone)} of them) · {foot}"
    pages.quiet(0, pages.height, foot, LEAST, room=pages.width)
