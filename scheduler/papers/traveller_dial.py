"""What is set at the roll: the passes with the display's readings, the pinch gap, where a pass stops."""

from __future__ import annotations

from quoting.drawings import PdfPages
from scheduler.papers.checks import PINCH_HOW
from scheduler.papers.job_sheet import JobSheet
from scheduler.papers.traveller_look import BAND, BODY, LABEL, LEAST, SMALL

_WIDE, _PINCH_X = 122.0, 126.0
_COLUMNS = (0.0, 24.0, 35.0, 58.5, 81.5, 104.5, _WIDE)
_HEAD_H, _MOST_ROW, _LEAST_ROW = 6.5, 8.6, 5.6
_END_H = 5.2


def dial(pages: PdfPages, sheet: JobSheet, unit: str, y: float, rows_mm: float) -> float:
    """Write passes and pinch side by side from the top y; return the y below both.

    `rows_mm` is what the passes may take in height.
    Where a pass stops and what stays flat stands under the shorter of the two.
    """
    passes, pinch = _passes(pages, sheet, unit, y, rows_mm), _pinch(pages, sheet, y)
    left = -(-len(sheet.ends) // 2) * _END_H
    if max(passes + left, pinch) <= max(passes, pinch + len(sheet.ends) * _END_H):
        for row, (name, words) in enumerate(sheet.ends):
            x = row % 2 * (_WIDE / 2 + 1)
            _end(pages, x, x + _WIDE / 2 - 1, passes + row // 2 * _END_H, name, words)
        return max(passes + left, pinch)
    for row, (name, words) in enumerate(sheet.ends):
        _end(pages, _PINCH_X, pages.width, pinch + row * _END_H, name, words)
    return max(passes, pinch + len(sheet.ends) * _END_H)


def _end(pages: PdfPages, x: float, right: float, y: float, name: str, words: str) -> None:
    wide = pages.quiet(x, y + 4, name, SMALL)
    pages.text(right, y + 4, words, BODY, bold=True, anchor="end", room=right - x - wide - 1)


def _passes(pages: PdfPages, sheet: JobSheet, unit: str, y: float, rows_mm: float) -> float:
    """Write the pass table with a box for each reading; return the y below it."""
    heads = ("", "leads", f"first try, {unit}", "in the rolls R", "let go R", "read / ok")
    pages.box(0, y, _WIDE, _HEAD_H, fill=BAND)
    pages.text(1.5, y + 4.6, "DIAL", BODY, bold=True)
    for left, right, words in zip(_COLUMNS, _COLUMNS[1:], heads, strict=False):
        pages.text((left + right) / 2, y + 4.5, words, LABEL, anchor="middle", room=right - left - 1)
    rows = max(len(sheet.steps), 2)
    high = min(_MOST_ROW, max(rows_mm / rows, _LEAST_ROW))
    size = min(5.6, high * 0.72)
    y += _HEAD_H
    top = y
    for step in (*sheet.steps, *(None,) * (rows - len(sheet.steps))):
        pages.rule(0, y + high, _WIDE, y + high)
        if step is not None:
            base, small = y + high / 2 + 0.35 * size, max(size * 0.8, LEAST)
            pages.text(1.5, base, step.name, small, bold=step.last, room=22)
            pages.text(29.5, base, step.leads, size, bold=True, anchor="middle")
            pages.text(57, base, step.shows, size * 1.1, bold=True, anchor="end", room=21)
            pages.text(80, base, step.loaded, small, anchor="end", room=20.5)
            pages.text(103, base, step.free, small, bold=step.last, anchor="end", room=20.5)
        y += high
    pages.box(0, top, _WIDE, y - top)
    for x in _COLUMNS[1:-1]:
        pages.rule(x, top, x, y)
    where = " at the small edge, square to the cone" if sheet.line.cone else ""
    words = f"R: inside radius{where}. Stop after every pass: template."
    pages.text(0, y + 4, words, LABEL, room=_WIDE)
    return y + 5


def _pinch(pages: PdfPages, sheet: JobSheet, y: float) -> float:
    """Write the pinch gap and how the lightest one is found, with boxes; return the y below."""
    x, room = _PINCH_X, pages.width - _PINCH_X
    pages.box(x, y, room, _HEAD_H, fill=BAND)
    pages.text(x + 1.5, y + 4.6, "PINCH GAP, both ends", BODY, bold=True)
    y += _HEAD_H
    value = sheet.pinch[0][1]
    pages.text(x + 1.5, y + 7.5, value or "as measured", 7.5, bold=True, room=room - 2)
    for name, words in sheet.pinch[1:]:
        pages.quiet(x + room, y + 3.9, name.lower(), LEAST, anchor="end", room=26)
        pages.text(x + room, y + 7.5, words, LEAST, anchor="end", room=26)
    y = pages.block(x + 1.5, y + 8.7, PINCH_HOW, LABEL, room - 2)
    for column, name in enumerate(("gap left", "gap right")):
        pages.entry(x + column * (room / 2), y + 0.5, room / 2 - 1, 9, name)
    return y + 10.5
