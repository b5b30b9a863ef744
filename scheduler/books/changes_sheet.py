"""What is different from the plan published before: at a glance what was kept, moved and why."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.books import Book, BookColumn, BookSheet
from quoting.core import first_few
from scheduler.books.cells import DATE_CLOCK, FOOT, moment
from scheduler.calendar import hours_words
from scheduler.replanning import Moved, Replanned

SHEET = "What changed"
_COLUMNS = (
    BookColumn("Job", 10, "bold"),
    BookColumn("Customer", 31),
    BookColumn("Was on", 16),
    BookColumn("Was to begin", 18),
    BookColumn("Now on", 16),
    BookColumn("Begins", 18),
    BookColumn("Why", 46),
)
_LAST = len(_COLUMNS) - 1
_MOST_NAMED = 8


def changes_sheet(book: Book, found: Replanned) -> None:
    """Write the sheet "What changed" when there was a published plan."""
    kept = found.stability
    if kept is None:
        return
    sheet = book.sheet(SHEET, [column.width for column in _COLUMNS], footer=FOOT)
    sheet.text(0, 0, "What changed since the published plan", "title line")
    free = kept.jobs - kept.forced
    sheet.wide(
        1,
        0,
        _LAST,
        f"{free - kept.moved} of {free} jobs that nothing forces keep their roll and day. {kept.forced} are "
        f"forced, {kept.other_roll} go to another roll. All begins together move by "
        f"{hours_words(kept.deviation_min)}.",
        "bold",
    )
    sheet.wide(
        2,
        0,
        _LAST,
        f"The plan costs {found.week.plan.total:,.2f} {found.week.currency} in set-ups, lateness, overtime "
        f"and dearer rolls; one that looks at no published plan {found.scratch:,.2f} "
        f"({found.extra_share:+.1%}).",
        "text",
    )
    row = 4
    if found.not_told:
        sheet.wide(3, 0, _LAST, not_told_words(found.not_told), "bold")
        row += 1
    sheet.heads(row, _COLUMNS)
    for one in found.moved:
        row += 1
        _moved(sheet, row, one)
    if not found.moved:
        row += 1
        sheet.wide(row, 0, _LAST, "No job is on another roll or day.", "text")
    for title, names in (("New in the plan", found.new), ("No longer in it", found.gone)):
        if names:
            row += 2
            sheet.wide(row, 0, _LAST, f"{title}: {', '.join(names)}", "text")
    sheet.raw.print_area(0, 0, row, _LAST)


def not_told_words(operations: Sequence[str]) -> str:
    """Return what was to be done by now and is planned again, and how to say that it is done."""
    return (
        f"To be done by now, not written down as done, planned again: {first_few(operations, _MOST_NAMED)}. "
        "Where it is done, write the State (cut, rolled) in the jobs book or the minutes in the floor book, "
        "and plan again."
    )


def _moved(sheet: BookSheet, row: int, one: Moved) -> None:
    sheet.text(row, 0, one.line, "bold rule")
    sheet.text(row, 1, one.customer, "text rule")
    sheet.text(row, 2, one.was_on, "text rule")
    moment(sheet, row, 3, one.was_at, DATE_CLOCK, "line rule")
    sheet.text(row, 4, one.now_on, "bold rule" if one.other_roll else "text rule")
    moment(sheet, row, 5, one.now_at, DATE_CLOCK, "bold rule" if one.day else "line rule")
    sheet.text(row, 6, one.why if one.forced else f"not forced: {one.why}", "text rule")
