"""The travellers: each job's set-up sheet on one page, roll by roll in running order.

One page holds what an operator asks: what do I dial, which end first, how do I check it, how do I lift it,
what do I write down. Letters are 12 points where they are read at the roll, 9 at the least; the page lies
within the printed area that Letter and A4 share.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from pathlib import Path

from quoting.core import Rectangle
from quoting.drawings import (
    QUIET,
    PageForm,
    PdfPages,
    Pen,
    Words,
    code_sketch,
    code_text,
    letters_for,
    lost,
)
from quoting.shop import Shop
from scheduler.calendar import day_short
from scheduler.jobs import box_label, floor_id
from scheduler.papers.checks import PINCH_HOW
from scheduler.papers.job_sheet import BlankKind, JobSheet, job_sheets
from scheduler.papers.pictures import blank_picture, roll_pictures
from scheduler.papers.sizes import Sizes
from scheduler.week import WeekPlan

STANDING = (
    "Reminder only: local law, the machine's manual, the shop's rules and trained people come first; where "
    "this differs, follow them."
)
BODY, SMALL, LABEL = 4.2, 3.5, 3.2
_CALL_Y, _CALL_H = 34.0, 16.5
_DRAWINGS_Y, _DRAWINGS_H = 52.0, 50.0
_TABLE_Y = 104.0
_BOXES_Y = 232.8
_LEFT_W, _RIGHT_X = 122.0, 126.0
_BAND = "#E4E4E4"
_LEAST, _MIND_HEAD = 2.85, 6.0
"""The least letters that are read, 8 points; where the cautions begin below their rule."""


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
    yield from sheet.asked_for
    yield from sheet.remarks
    yield from sheet.cautions
    yield sheet.slot.machine
    yield from (value for _, value in sheet.checks)


def job_code(sheet: JobSheet) -> str:
    """Return what the code on a traveller holds: job, and which visit to the rolls."""
    return code_text("JOB", sheet.line.work_name, sheet.slot.work.kind.upper())


def _page(pages: PdfPages, sheet: JobSheet, sizes: Sizes, shop: Shop, made: date) -> None:
    _head(pages, sheet)
    _call_out(pages, sheet, sizes)
    _drawings(pages, sheet, sizes)
    below = max(_dial(pages, sheet, sizes), _set_up(pages, sheet, sizes))
    below = _three_columns(pages, sheet, below + 2)
    more = _mind(pages, sheet, below + 1.2)
    _boxes(pages, floor_id(sheet.slot.work))
    plan = f"plan from {day_short(made)} {made.year}"
    foot = f"{shop.name} · {plan} · page {pages.number} · computed, not measured"
    if gone := lost(sheet_texts(sheet)):
        foot = f"letters this paper cannot print: see the order sheet ({len(gone)} of them) · {foot}"
    pages.quiet(0, pages.height, foot, LABEL - 0.3, room=pages.width)
    if more:
        pages.turn()
        pages.text(0, 9, f"{sheet.line.name}: further notes", 8, bold=True, room=pages.width)
        pages.block(0, 14, more, BODY, pages.width)
        pages.quiet(0, pages.height, foot, LABEL - 0.3, room=pages.width)


def _head(pages: PdfPages, sheet: JobSheet) -> None:
    line, slot = sheet.line, sheet.slot
    code = job_code(sheet)
    pages.put(code_sketch(code, size_mm=23), pages.width - 22, -2)
    pages.text(0, 12.5, line.name, 16, bold=True, room=60)
    pages.text(0, 19, f"{sheet.place[0]} of {sheet.place[1]} on {slot.machine}", BODY, room=84)
    pages.text(80, 12.5, f"{line.quantity}", 16, bold=True, anchor="end", room=22)
    pages.text(81, 12.5, "off", BODY)
    x, room, today = 92.0, pages.width - 23 - 92, sheet.begin.date()
    start, end = (
        f"{when:%H:%M}" if when.date() == today else f"{day_short(when)} {when:%H:%M}"
        for when in (slot.start, slot.end)
    )
    pages.text(x, 4, f"{day_short(today)}, set-up {sheet.begin:%H:%M}", BODY, bold=True, room=room)
    pages.text(x, 9.3, f"roll {start} to {end}", BODY, room=room)
    due = f"due {day_short(sheet.due)}" if sheet.due else "no due day"
    wide = pages.text(x, 14.6, due, BODY, bold=True)
    if sheet.late_days:
        pages.box(x + wide + 2, 10.7, 15, 5.2, pen=Pen(0.8))
        pages.text(x + wide + 9.5, 14.7, "LATE", BODY, bold=True, anchor="middle")
    if sheet.re_round:
        pages.text(x, 20, "RE-ROUND after welding", BODY, bold=True, room=room)
    pages.rule(0, 22, pages.width, 22, pen=Pen(0.7))
    pages.text(0, 26.8, sheet.identity, BODY, bold=True, room=pages.width - 32)
    pages.quiet(pages.width, 26.8, code, LABEL, anchor="end", room=30)
    if slot.setup is not None:
        waits = f", then waits for {slot.waits_for}" if slot.waits_for else ""
        words = f"Set-up {slot.setup.minutes} min{waits}: {slot.setup.why}"
        pages.text(0, 32.2, words, BODY, room=pages.width)


def _call_out(pages: PdfPages, sheet: JobSheet, sizes: Sizes) -> None:
    y, high = _CALL_Y, _CALL_H
    pages.box(0, y, pages.width, high, pen=Pen(0.5))
    pages.quiet(2, y + 4, "called out", LABEL)
    if pages.letters.width_mm(sheet.asked, 7.5 * 0.7, bold=True) <= 88:
        pages.text(2, y + 10.4, sheet.asked, 7.5, bold=True, room=88)
    else:
        pages.block(2, y + 4.2, sheet.asked, 4.6, 88, bold=True)
    pages.row(Words(2, y + 15.4, sheet.line.part, SMALL), room=88, least=0.8)
    pages.rule(92, y, 92, y + high)
    pages.quiet(94, y + 4, "rolled to", LABEL)
    for row, (name, value) in enumerate(sheet.roll_to):
        pages.quiet(94, y + 7.6 + 4.1 * row, name, SMALL)
        pages.text(140, y + 7.6 + 4.1 * row, value, BODY, bold=row == 0, anchor="end", room=30)
    pages.rule(142, y, 142, y + high)
    line = sheet.line
    pages.quiet(144, y + 4, "plate", LABEL)
    pages.row(
        Words(144, y + 10, f"{sizes.both(line.thickness_mm)} {line.material}", 5.6, bold=True),
        room=45,
        least=0.45,
    )
    pages.text(144, y + 15, f"{sizes.both(line.width_mm)} across the roll", SMALL, room=45)


def _drawings(pages: PdfPages, sheet: JobSheet, sizes: Sizes) -> None:
    y = _DRAWINGS_Y
    bends = sum(bool(step.record.pre_bend) for step in sheet.steps)
    wide = 45.0 if bends else 90.0
    rolls = roll_pictures(sheet, (wide, _DRAWINGS_H))
    if not sheet.re_round:
        pages.put(blank_picture(sheet, sizes, (98.0, _DRAWINGS_H)), 0, y)
        _kinds(pages, sheet, sizes)
    x = 100.0
    for picture in rolls:
        pages.box(x, y, wide, _DRAWINGS_H, pen=Pen(0.2, QUIET))
        pages.put(picture, x, y)
        x += wide
    if not rolls:
        words = (
            "No positions: the shop's book does not say where this roll's slide is. Find them by trial, "
            "start bigger, and write them down."
        )
        pages.block(102, y + 10, words, BODY, 86, bold=True)
    if sheet.re_round:
        pages.text(0, y + 4, "Before and after, diameter in four ways", BODY, bold=True)
        for row, place in enumerate(("one end", "middle", "other end")):
            pages.text(0, y + 15 + 14 * row, place, SMALL)
            for column in range(4):
                pages.entry(18 + 20 * column, y + 7 + 14 * row, 18, 12.5, f"{45 * column}°")


def _kinds(pages: PdfPages, sheet: JobSheet, sizes: Sizes) -> None:
    """Say how many blanks there are, and what other kinds are rolled the same way."""
    first = sheet.kinds[0]
    words = f"{first.pieces} blank{'s' if first.pieces > 1 else ''}, {sizes.weight(first.weight_kg)} each"
    blank = sheet.line.blank
    if blank and (blank.courses > 1 or blank.seams > 1):
        words += (
            f"; {blank.courses} courses, {blank.seams} long seam{'s' if blank.seams > 1 else ''} a course"
        )
    pages.text(0, _DRAWINGS_Y + 3.5, words, SMALL, bold=True, room=97)
    more = [f"{kind.pieces} x {kind.name}: {_outline_words(kind, sizes)}" for kind in sheet.kinds[1:]]
    if more:
        pages.block(0, _DRAWINGS_Y + 4.5, "also " + "; ".join(more), LABEL, 97, most=2)


def _outline_words(kind: BlankKind, sizes: Sizes) -> str:
    outline = kind.outline
    if isinstance(outline, Rectangle):
        return f"{sizes.exact(outline.width_mm)} x {sizes.exact(outline.length_mm)}"
    radii = f"R {sizes.exact(outline.outer_radius_mm)} r {sizes.exact(outline.inner_radius_mm)}"
    return f"{radii} {outline.angle_deg:.2f}°"


def _dial(pages: PdfPages, sheet: JobSheet, sizes: Sizes) -> float:
    """Write the pass table; return the y below it."""
    y, width = _TABLE_Y, _LEFT_W
    ends = (0.0, 26.0, 38.0, 64.0, 88.0, width)
    heads = ("", "end first", f"display, {sizes.unit}", "in the rolls R", "let go R", "read / ok")
    pages.box(0, y, width, 6.5, pen=Pen(0.35), fill=_BAND)
    pages.text(1.5, y + 4.6, "DIAL", BODY, bold=True)
    for left, right, words in zip(ends[1:], (*ends[2:],), heads[1:], strict=False):
        pages.text((left + right) / 2, y + 4.5, words, LABEL, anchor="middle", room=right - left - 1)
    rows = max(len(sheet.steps), 3)
    high = min(8.6, max(48.0 / rows, 4.6))
    size = min(5.6, high * 0.72)
    y += 6.5
    top = y
    for step in (*sheet.steps, *(None,) * (rows - len(sheet.steps))):
        pages.rule(0, y + high, width, y + high)
        if step is not None:
            base = y + high / 2 + 0.35 * size
            pages.text(1.5, base, step.name, size * 0.8, bold=step.last, room=23)
            pages.text(32, base, step.leads, size, bold=True, anchor="middle")
            pages.text(62.5, base, step.shows, size * 1.1, bold=True, anchor="end", room=24)
            pages.text(86.5, base, step.loaded, size * 0.8, anchor="end", room=21)
            pages.text(110, base, step.free, size * 0.8, bold=step.last, anchor="end", room=21)
        y += high
    pages.box(0, top, width, y - top, pen=Pen(0.35))
    for x in ends[1:-1]:
        pages.rule(x, top, x, y)
    pages.rule(111, top, 111, y)
    pages.text(
        0,
        y + 4,
        "R: inside radius. Template to the last radius let go; stop and check after every pass.",
        LABEL,
    )
    return y + 5


def _set_up(pages: PdfPages, sheet: JobSheet, sizes: Sizes) -> float:
    """Write pinch and ends beside the passes; return the y below them."""
    x, y, room = _RIGHT_X, _TABLE_Y, pages.width - _RIGHT_X
    pages.box(x, y, room, 6.5, fill=_BAND)
    pages.text(x + 1.5, y + 4.6, "PINCH GAP, both ends", BODY, bold=True)
    y += 6.5
    value = sheet.pinch[0][1]
    pages.text(x + 1.5, y + 7.5, value or "as measured", 7.5, bold=True, room=room - 2)
    for _, words in sheet.pinch[1:]:
        pages.text(x + room, y + 7.3, f"drives {words}", LABEL, anchor="end", room=29)
    y = pages.block(x + 1.5, y + 8.7, PINCH_HOW, LABEL, room - 2)
    for column, name in enumerate(("gap left", "gap right")):
        pages.entry(x + column * (room / 2), y + 0.5, room / 2 - 1, 9, name)
    y += 12
    for name, words in sheet.ends:
        pages.quiet(x, y + 4, name, SMALL)
        pages.text(x + room, y + 4, words, BODY, bold=True, anchor="end", room=34)
        y += 5.2
    return y


def _three_columns(pages: PdfPages, sheet: JobSheet, y: float) -> float:
    """Write checks, springback and lift; return the y below the longest of them."""
    x1, x2, x3, gap = 0.0, 70.0, 130.0, 3.0
    for x, right, words in ((x1, x2, "CHECK"), (x2, x3, "SPRINGBACK"), (x3, pages.width + gap, "LIFT")):
        pages.rule(x, y, right - gap, y, pen=Pen(0.7))
        pages.text(x, y + 4.6, words, BODY, bold=True)
    y += 6
    ends = [_pairs(pages, x1, y, x2 - gap, sheet.checks)]
    below = y
    for words in sheet.springback:
        below = pages.block(x2, below, words, SMALL, x3 - gap - x2) + 0.8
    ends.append(below)
    ends.append(_pairs(pages, x3, y, pages.width, sheet.lift))
    return max(ends)


def _pairs(pages: PdfPages, x: float, y: float, right: float, rows: Sequence[tuple[str, str]]) -> float:
    """Write names with their values, notes without a name over the whole width, boxes for empty values."""
    boxes = [name for name, value in rows if not value]
    for name, value in rows:
        if not value:
            if name == boxes[0]:
                y = _side_by_side(pages, x, y, right, boxes)
            continue
        if not name:
            y = pages.block(x, y + 0.4, value, LABEL, right - x)
            continue
        wide = pages.quiet(x, y + 4, name, SMALL, room=(right - x) * 0.62)
        if wide + 2 + pages.letters.width_mm(value, BODY, bold=True) <= right - x:
            pages.text(right, y + 4, value, BODY, bold=True, anchor="end")
            y += 5.2
        else:
            y = pages.block(x + 2, y + 4.6, value, SMALL + 0.3, right - x - 2, bold=True) + 0.4
    return y


def _side_by_side(pages: PdfPages, x: float, y: float, right: float, names: Sequence[str]) -> float:
    """Draw boxes to write in, beside each other; return the y below them."""
    wide = (right - x) / len(names)
    for column, name in enumerate(names):
        pages.entry(x + column * wide, y + 0.6, wide - 1, 9, name)
    return y + 10.4


def _mind(pages: PdfPages, sheet: JobSheet, y: float) -> str:
    """Write the cautions that apply, then what was asked; return what the page has no room for.

    Cautions are never cut: where many passes leave little room they are written smaller.
    """
    pages.rule(0, y, pages.width, y, pen=Pen(0.7))
    pages.text(0, y + 4.6, "MIND", BODY, bold=True)
    asked = pages.lines("; ".join(sheet.asked_for), LABEL, pages.width) if sheet.asked_for else []
    room = _BOXES_Y - y - 4.8 - 1.22 * LABEL * len(asked)
    size = next((size for size in (SMALL, LABEL, _LEAST) if _cautions_high(pages, sheet, size) <= room), 2.5)
    half = pages.width / 2 - 5
    columns = [y + _MIND_HEAD, y + 1.2]
    for words, column in zip(sheet.cautions, _caution_columns(pages, sheet, size), strict=True):
        x = column * (pages.width / 2 + 2)
        pages.text(x, columns[column] + 0.82 * size, "•", size)
        columns[column] = pages.block(x + 3, columns[column], words, size, half) + 0.4
    y = max(columns)
    y = pages.block(0, y, STANDING, LABEL - 0.1, pages.width) + 0.3
    return _notes(pages, sheet, y)


def _notes(pages: PdfPages, sheet: JobSheet, y: float) -> str:
    """Write what was asked for, then other remarks as far as there is room; return what must go on a page
    of its own."""
    room = _BOXES_Y - 0.5 - y
    asked = "; ".join(sheet.asked_for)
    for size in (LABEL, 2.9):
        rows = pages.lines(asked, size, pages.width) if asked else []
        if len(rows) * 1.22 * size <= room:
            break
    else:
        return asked
    y = pages.block(0, y, asked, size, pages.width) if asked else y
    left = int((_BOXES_Y - 0.5 - y) / (1.22 * LABEL))
    if sheet.remarks and left > 0:
        pages.block(0, y, "; ".join(sheet.remarks), LABEL, pages.width, most=left)
    return ""


def _caution_columns(pages: PdfPages, sheet: JobSheet, size: float) -> list[int]:
    """Return for each caution whether it stands in the left column (0) or in the right one (1)."""
    rows = [len(pages.lines(words, size, pages.width / 2 - 5)) for words in sheet.cautions]
    half = (sum(rows) + 1) / 2
    return [1 if index and sum(rows[: index + 1]) > half else 0 for index in range(len(rows))]


def _cautions_high(pages: PdfPages, sheet: JobSheet, size: float) -> float:
    """Return how far below their rule the cautions reach in two columns of letters of this size."""
    ends = [_MIND_HEAD, 1.2]
    for words, column in zip(sheet.cautions, _caution_columns(pages, sheet, size), strict=True):
        ends[column] += 1.22 * size * len(pages.lines(words, size, pages.width / 2 - 5)) + 0.4
    return max(ends)


def _boxes(pages: PdfPages, job: str) -> None:
    """Draw what is written down, under the floor book's letters; the job's id stands where they begin."""
    names = (
        ("thickness measured", *map(box_label, ("heat", "readout", "passes")), "template ok"),
        (f"{job} {box_label('setup')}", *map(box_label, ("run", "good", "scrap")), f"{box_label('by')}, day"),
    )
    widths = (38.0, 50.0, 36.0, 26.0, 40.0)
    for row, labels in enumerate(names):
        x = 0.0
        for name, width in zip(labels, widths, strict=True):
            pages.entry(x, _BOXES_Y + 11 * row, width - 1.5, 10, name)
            x += width
