"""The lower half of a traveller: checks, springback, lift, what to mind, and what is written down."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.drawings import LEADING, PdfPages, Pen
from scheduler.jobs import box_label
from scheduler.papers.job_sheet import JobSheet
from scheduler.papers.traveller_look import BODY, LABEL, LEAST, SMALL

STANDING = (
    "Reminder only: local law, the machine's manual, the shop's rules and trained people come first; where "
    "this differs, follow them."
)
BOXES_Y = 232.8
_MIND_HEAD = 6.0
"""Where the cautions begin below their rule."""
_COLUMNS = (0.0, 70.0, 130.0)


def columns(pages: PdfPages, sheet: JobSheet, y: float) -> float:
    """Write checks, springback and lift side by side; return the y below the longest of them."""
    x1, x2, x3 = _COLUMNS
    gap = 3.0
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
        elif not name:
            y = pages.block(x, y + 0.4, value, LABEL, right - x)
        else:
            y = _pair(pages, x, y, right, name, value)
    return y


def _pair(pages: PdfPages, x: float, y: float, right: float, name: str, value: str) -> float:
    """Write a name and its value in one row, the value smaller or below where they do not fit."""
    wide = pages.quiet(x, y + 4, name, SMALL, room=(right - x) * 0.62)
    room = right - x - wide - 1.5
    for size in (BODY, SMALL):
        if pages.letters.width_mm(value, size, bold=True) <= room:
            pages.text(right, y + 4, value, size, bold=True, anchor="end")
            return y + 5.2
    return pages.block(x + 2, y + 4.6, value, SMALL + 0.3, right - x - 2, bold=True) + 0.4


def _side_by_side(pages: PdfPages, x: float, y: float, right: float, names: Sequence[str]) -> float:
    """Draw boxes to write in, beside each other; return the y below them."""
    wide = (right - x) / len(names)
    for column, name in enumerate(names):
        pages.entry(x + column * wide, y + 0.6, wide - 1, 9, name)
    return y + 10.4


def mind(pages: PdfPages, cautions: Sequence[str], y: float, size: float) -> float:
    """Write cautions in two columns of letters of this size, then the standing line; return the y below."""
    pages.rule(0, y, pages.width, y, pen=Pen(0.7))
    pages.text(0, y + 4.6, "MIND", BODY, bold=True)
    half = pages.width / 2 - 5
    rows = [len(pages.lines(words, size, half)) for words in cautions]
    below = [y + _MIND_HEAD, y + 1.2]
    for index, words in enumerate(cautions):
        column = 1 if index and sum(rows[: index + 1]) > (sum(rows) + 1) / 2 else 0
        x = column * (pages.width / 2 + 2)
        pages.text(x, below[column] + 0.82 * size, "•", size)
        below[column] = pages.block(x + 3, below[column], words, size, half) + 0.4
    return pages.block(0, max(below), STANDING, LABEL - 0.1, pages.width) + 0.3


def asked_for(pages: PdfPages, sheet: JobSheet, y: float) -> float:
    """Write what the customer asked for beside the sizes, all of it; return the y below."""
    if not sheet.asked_for:
        return y
    return pages.block(0, y, "; ".join(sheet.asked_for), LABEL, pages.width, bold=True)


def remarks(pages: PdfPages, sheet: JobSheet, y: float) -> None:
    """Write the remarks that find room above the boxes, each whole; the last row says when there are more."""
    room = BOXES_Y - 0.5 - y
    shown = list(sheet.remarks)
    while shown:
        more = "" if len(shown) == len(sheet.remarks) else "; more on the quote"
        words = "; ".join(shown) + more
        if len(pages.lines(words, LEAST, pages.width)) * LEADING * LEAST <= room:
            pages.block(0, y, words, LEAST, pages.width)
            return
        shown.pop()


def boxes(pages: PdfPages, job: str) -> None:
    """Draw what is written down, under the floor book's letters; the job's id stands where they begin."""
    measured = (
        ("thickness measured", 33.0),
        ("heat", 40.0),
        ("readout", 33.0),
        ("girth", 33.0),
        ("passes", 22.0),
    )
    worked = (("setup", 46.0), ("run", 38.0), ("good", 30.0), ("scrap", 30.0), ("by", 46.0))
    for row, boxes in enumerate(((*measured, ("template ok", 29.0)), worked)):
        x = 0.0
        for name, width in boxes:
            words = name if " " in name else box_label(name)
            words = f"{job} {words}" if name == "setup" else f"{words}, day" if name == "by" else words
            pages.entry(x, BOXES_Y + 11 * row, width - 1.5, 10, words)
            x += width
