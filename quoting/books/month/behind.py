"""The sheets behind the owner's page: every figure down to its job, line or plate."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from quoting.books.look import TABLE_HEAD, Book, BookColumn, BookSheet, table_sheet
from quoting.hindsight import MonthFigures

_MARGINS = (
    BookColumn("By", 11, "bold"), BookColumn("Group", 34), BookColumn("Jobs", 7, "whole"),
    BookColumn("Price", 12, "money"), BookColumn("Profit quoted", 12, "money"),
    BookColumn("Profit made", 12, "money"), BookColumn("Quoted", 9, "percent"),
    BookColumn("Made", 9, "percent"), BookColumn("Most lost in", 12, "inset"),
    BookColumn("Lost there", 11, "money"),
)  # fmt: skip
_JOBS = (
    BookColumn("Job", 9, "bold"), BookColumn("Customer", 26), BookColumn("Part", 32, "quiet"),
    BookColumn("Roll", 13, "line"), BookColumn("Finished", 12, "date"), BookColumn("Price", 11, "money"),
    BookColumn("Profit quoted", 13, "money"), BookColumn("Profit made", 12, "money"),
    BookColumn("Set-up min, planned", 8, "whole"), BookColumn("took", 8, "whole"),
    BookColumn("Rolling min, planned", 8, "whole"), BookColumn("took", 8, "whole"),
    BookColumn("Scrap", 7, "whole"), BookColumn("Days late", 7, "whole"),
    BookColumn("Why", 34, "quiet inset"),
)  # fmt: skip
_RATES = (
    BookColumn("By", 12, "bold"), BookColumn("Group", 34), BookColumn("Won", 8, "whole"),
    BookColumn("of decided", 9, "whole"), BookColumn("Share", 9, "percent"),
    BookColumn("is truly between", 18, "inset"),
)  # fmt: skip
_LINES = (
    BookColumn("Line", 10, "bold"), BookColumn("Customer", 26), BookColumn("Part", 36, "quiet"),
    BookColumn("State", 9, "line"), BookColumn("Quoted", 12, "date"), BookColumn("Decided", 12, "date"),
    BookColumn("Price", 11, "money"), BookColumn("Margin quoted", 9, "percent"),
    BookColumn("Roll hours", 8, "number"), BookColumn("Reason", 26, "quiet inset"),
)  # fmt: skip
_RACK = (
    BookColumn("Plate", 18, "bold"), BookColumn("Material", 12, "line"), BookColumn("Pieces", 8, "whole"),
    BookColumn("Value", 12, "money"), BookColumn("Remnant", 10, "inset"),
    BookColumn("Known since", 13, "date"), BookColumn("Days", 8, "whole"),
)  # fmt: skip


def margins_sheet(book: Book, found: MonthFigures) -> None:
    """Write the margin quoted and made by customer, shape, roll and week, the most lost first."""
    says = "Delivered jobs whose minutes were written down; by step, one thing changed at a time."
    sheet = _sheet(book, "Margins", _MARGINS, says)
    for row, one in enumerate(found.groups, TABLE_HEAD + 1):
        sheet.text(row, 0, one.by, "bold")
        sheet.text(row, 1, one.group)
        sheet.number(row, 2, one.jobs, "whole")
        for column, value in ((3, one.price), (4, one.quoted), (5, one.real)):
            sheet.number(row, column, value, "money")
        sheet.number(row, 6, one.quoted_share, "percent")
        sheet.number(row, 7, one.real_share, "percent")
        sheet.text(row, 8, one.step, "inset")
        sheet.number(row, 9, one.step_lost, "money")


def jobs_sheet(book: Book, found: MonthFigures) -> None:
    """Write every delivered job, the one that lost most first."""
    says = "Every delivered job; one without minutes stands without a profit made."
    sheet = _sheet(book, "Jobs", _JOBS, says)
    jobs = sorted(found.delivered, key=lambda job: job.real_margin - job.quoted_margin)
    for row, job in enumerate(jobs, TABLE_HEAD + 1):
        for column, text in enumerate((job.line, job.customer, job.part, job.roll)):
            sheet.text(row, column, text, _JOBS[column].style)
        if job.finished:
            sheet.day(row, 4, job.finished)
        sheet.number(row, 5, job.price, "money")
        sheet.number(row, 6, job.quoted_margin, "money")
        if job.told:
            sheet.number(row, 7, job.real_margin, "money")
            minutes = (job.planned_setup, job.setup, job.planned_run, job.run)
            for column, value in enumerate(minutes, 8):
                sheet.number(row, column, value, "whole")
        sheet.number(row, 12, job.scrapped, "whole")
        sheet.number(row, 13, job.late_days, "whole")
        sheet.text(row, 14, job.why_late, "quiet inset")


def rates_sheet(book: Book, found: MonthFigures) -> None:
    """Write how often quotes are won, with Wilson's intervals (1927)."""
    says = "Over all lines decided so far, each inquiry once however often quoted; Wilson's interval, 95 %."
    sheet = _sheet(book, "Won and lost", _RATES, says)
    row = TABLE_HEAD
    for one in found.rates:
        row += 1
        sheet.text(row, 0, one.by, "bold")
        sheet.text(row, 1, one.group)
        sheet.number(row, 2, one.share.hits, "whole")
        sheet.number(row, 3, one.share.of, "whole")
        sheet.number(row, 4, one.share.value, "percent")
        sheet.text(row, 5, f"{one.share.low:.0%} to {one.share.high:.0%}", "inset")
    sheet.wide(row + 2, 0, len(_RATES) - 1, found.point.words)


def decided_sheet(book: Book, found: MonthFigures) -> None:
    """Write every line that was quoted or won in the month."""
    sheet = _sheet(book, "Lines", _LINES, "Lines quoted in the month, and lines won in it.")
    lines = {line.line: line for line in (*found.quoted, *found.won)}
    for row, line in enumerate(lines.values(), TABLE_HEAD + 1):
        for column, text in enumerate((line.line, line.customer, line.part, line.state)):
            sheet.text(row, column, text, _LINES[column].style)
        sheet.day(row, 4, line.quoted)
        if line.decided:
            sheet.day(row, 5, line.decided)
        sheet.number(row, 6, line.price, "money")
        sheet.number(row, 7, line.margin, "percent")
        sheet.number(row, 8, line.roll_minutes / 60, "number")
        sheet.text(row, 9, line.reason, "quiet inset")


def rack_sheet(book: Book, found: MonthFigures, today: date) -> None:
    """Write how much plate became parts, and the rack with its value and age."""
    says = "; ".join(
        f"{material}: {used / area:.0%} of {area:,.1f} m2 became parts"
        for material, (used, area) in sorted(found.facts.plate_used.items())
        if area
    )
    head = "Plate of delivered jobs: " + (says or "none") + ". The age counts from the first month book on."
    sheet = _sheet(book, "Plate and rack", _RACK, head)
    plates = sorted(found.facts.rack, key=lambda plate: (plate.since or today, -plate.value))
    for row, plate in enumerate(plates, TABLE_HEAD + 1):
        sheet.text(row, 0, plate.name, "bold")
        sheet.text(row, 1, plate.material, "line")
        sheet.number(row, 2, plate.count, "whole")
        sheet.number(row, 3, plate.value, "money")
        sheet.text(row, 4, "yes" if plate.remnant else "", "inset")
        if plate.since:
            sheet.day(row, 5, plate.since)
            sheet.number(row, 6, (today - plate.since).days, "whole")


def _sheet(book: Book, name: str, columns: Sequence[BookColumn], says: str) -> BookSheet:
    sheet = table_sheet(book, name, columns, says)
    sheet.raw.freeze_panes(TABLE_HEAD + 1, 1)
    return sheet
