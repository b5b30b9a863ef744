"""The upper half of a traveller: which job, when and where, what was called out, the drawings."""

from __future__ import annotations

from quoting.core import Rectangle
from quoting.drawings import QUIET, PdfPages, Pen, Words, code_sketch, code_text
from scheduler.calendar import day_short
from scheduler.papers.job_sheet import BlankKind, JobSheet
from scheduler.papers.pictures import blank_picture, roll_pictures
from scheduler.papers.sizes import Sizes
from scheduler.papers.traveller_look import BODY, LABEL, LEAST, SMALL

DRAWINGS_Y = 53.0
_CALL_Y, _CALL_H = 33.6, 18.0


def job_code(sheet: JobSheet) -> str:
    """Return what the code on a traveller holds: job, and which visit to the rolls."""
    return code_text("JOB", sheet.line.work_name, sheet.slot.work.kind.upper())


def head(pages: PdfPages, sheet: JobSheet) -> None:
    """Write job, count, times, customer and part, and the set-up with what the job then waits for."""
    line, slot = sheet.line, sheet.slot
    code = job_code(sheet)
    pages.put(code_sketch(code, size_mm=23), pages.width - 22, -2)
    pages.text(0, 12.5, line.name, 16, bold=True, room=60)
    pages.text(0, 19, f"{sheet.place[0]} of {sheet.place[1]} on {slot.machine}", BODY, room=84)
    pages.text(80, 12.5, f"{line.quantity}", 16, bold=True, anchor="end", room=22)
    pages.text(81, 12.5, "off", BODY)
    _times(pages, sheet, 92.0, pages.width - 23 - 92)
    pages.rule(0, 22, pages.width, 22, pen=Pen(0.7))
    _identity(pages, sheet, pages.width - 32)
    pages.quiet(pages.width, 26.8, code, LABEL, anchor="end", room=30)
    if slot.setup is not None:
        waits = f", then WAITS for {slot.waits_for}" if slot.waits_for else ""
        words = f"Set-up {slot.setup.minutes} min{waits}: {slot.setup.why}"
        pages.text(0, 32.2, words, BODY, room=pages.width)


def _times(pages: PdfPages, sheet: JobSheet, x: float, room: float) -> None:
    slot, today = sheet.slot, sheet.begin.date()
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


def _identity(pages: PdfPages, sheet: JobSheet, room: float) -> None:
    """Write customer, line, part, revision and description; in two small rows where they are long."""
    words = sheet.identity
    if pages.letters.width_mm(words, BODY * 0.8, bold=True) <= room:
        pages.text(0, 26.8, words, BODY, bold=True, room=room)
    else:
        pages.block(0, 22.4, words, LEAST, room, bold=True, most=2)


def call_out(pages: PdfPages, sheet: JobSheet, sizes: Sizes) -> None:
    """Write the size as it was called out, what it is rolled to, and the plate."""
    y, high, line = _CALL_Y, _CALL_H, sheet.line
    pages.box(0, y, pages.width, high, pen=Pen(0.5))
    pages.rule(92, y, 92, y + high)
    pages.rule(142, y, 142, y + high)
    pages.quiet(2, y + 3.6, "called out", LABEL)
    if pages.letters.width_mm(sheet.asked, BODY, bold=True) <= 88:
        pages.row(Words(2, y + 10.6, sheet.asked, 7.5, bold=True), room=88, least=0.5)
    else:
        pages.block(2, y + 3.9, sheet.asked, 4.2, 88, bold=True, most=2)
    pages.row(Words(2, y + 16.4, line.part, SMALL), room=88, least=0.8)
    pages.quiet(94, y + 3.6, "rolled to", LABEL)
    for row, (name, value) in enumerate(sheet.roll_to):
        pages.quiet(94, y + 7.9 + 4.2 * row, name, SMALL)
        pages.text(140.5, y + 7.9 + 4.2 * row, value, BODY, bold=row == 0, anchor="end", room=31)
    pages.quiet(144, y + 3.6, "plate", LABEL)
    thick = sizes.both(line.thickness_mm)
    if pages.letters.width_mm(f"{thick} {line.material}", BODY, bold=True) <= 45:
        pages.text(144, y + 10.4, f"{thick} {line.material}", 5.6, bold=True, room=45)
    else:
        pages.text(144, y + 8.3, thick, BODY, bold=True, room=45)
        pages.text(144, y + 12.5, line.material, BODY, bold=True, room=45)
    pages.text(144, y + 16.4, f"{sizes.both(line.width_mm)} across the roll", SMALL, room=45)


def drawings(pages: PdfPages, sheet: JobSheet, sizes: Sizes, high: float) -> None:
    """Draw the blank, and the rolls from the end at the pre-bend and at the last pass."""
    y = DRAWINGS_Y
    bends = sum(bool(step.record.pre_bend) for step in sheet.steps)
    wide = 45.0 if bends else 90.0
    rolls = roll_pictures(sheet, (wide, high))
    if sheet.re_round:
        _before_and_after(pages, y, high)
    else:
        pages.put(blank_picture(sheet, sizes, (98.0, high)), 0, y)
        _kinds(pages, sheet, sizes)
    x = 100.0
    for picture in rolls:
        pages.box(x, y, wide, high, pen=Pen(0.2, QUIET))
        pages.put(picture, x, y)
        x += wide
    if not rolls:
        words = (
            "No positions: the shop's book does not say where this roll's slide is. Find them by trial, "
            "start bigger, and write them down."
        )
        pages.block(102, y + 10, words, BODY, 86, bold=True)


def _before_and_after(pages: PdfPages, y: float, high: float) -> None:
    pages.text(0, y + 4, "Before and after, diameter in four ways", BODY, bold=True)
    step = (high - 8) / 3
    for row, place in enumerate(("one end", "middle", "other end")):
        pages.text(0, y + 7 + step * (row + 0.6), place, SMALL)
        for column in range(4):
            pages.entry(18 + 20 * column, y + 7 + step * row, 18, step - 1.5, f"{45 * column}°")


def _kinds(pages: PdfPages, sheet: JobSheet, sizes: Sizes) -> None:
    """Say how many blanks there are, and what other kinds are rolled the same way."""
    first = sheet.kinds[0]
    words = f"{first.pieces} blank{'s' if first.pieces > 1 else ''}, {sizes.weight(first.weight_kg)} each"
    blank = sheet.line.blank
    if blank and (blank.courses > 1 or blank.seams > 1):
        courses = f"{blank.courses} courses, " if blank.courses > 1 else ""
        each = " a course" if blank.courses > 1 else ""
        words += f"; {courses}{blank.seams} long seam{'s' if blank.seams > 1 else ''}{each}"
    pages.text(0, DRAWINGS_Y + 3.5, words, SMALL, bold=True, room=97)
    more = [f"{kind.pieces} x {kind.name}: {_outline_words(kind, sizes)}" for kind in sheet.kinds[1:]]
    if more:
        pages.block(0, DRAWINGS_Y + 4.5, "also " + "; ".join(more), LABEL, 97, most=2)


def _outline_words(kind: BlankKind, sizes: Sizes) -> str:
    outline = kind.outline
    if isinstance(outline, Rectangle):
        return f"{sizes.exact(outline.width_mm)} x {sizes.exact(outline.length_mm)}"
    radii = f"R {sizes.exact(outline.outer_radius_mm)} r {sizes.exact(outline.inner_radius_mm)}"
    return f"{radii} {outline.angle_deg:.2f}°"
