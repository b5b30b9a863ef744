"""The evidence behind a proposal: quotes one by one, kinds of job, every step, and what was set aside."""

from __future__ import annotations

from collections.abc import Sequence

from quoting.books.look import TABLE_HEAD, Book, BookColumn, table_sheet
from quoting.hindsight import GroupBias, Learnt, LotDone, QuoteEffect
from quoting.shop import Shop

_QUOTES = (
    BookColumn("Line", 10, "bold"), BookColumn("Customer", 28), BookColumn("Quote", 14, "line"),
    BookColumn("State", 10, "line"), BookColumn("Quoted", 11, "money"), BookColumn("Book now", 11, "money"),
    BookColumn("New book", 11, "money"), BookColumn("Change", 9, "percent"),
    BookColumn("Margin thought", 9, "percent"), BookColumn("by new minutes", 9, "percent"),
)  # fmt: skip
_KINDS = (
    BookColumn("By", 18, "bold"), BookColumn("Group", 26), BookColumn("Jobs", 8, "whole"),
    BookColumn("Took over book, seen", 11, "fine"), BookColumn("drawn in", 10, "fine"),
    BookColumn("is between", 16, "inset"), BookColumn("One job scatters by", 11, "percent"),
)  # fmt: skip
_STEPS = (
    BookColumn("Setting", 32, "bold"), BookColumn("Takes times the book", 10, "fine"),
    BookColumn("is between", 16, "inset"), BookColumn("Jobs", 8, "whole"),
    BookColumn("Doubt left", 9, "percent"),
)  # fmt: skip
_ASIDE = (
    BookColumn("Task", 14, "bold"), BookColumn("What", 10, "line"), BookColumn("Written", 10, "number"),
    BookColumn("Expected", 10, "number"), BookColumn("Day", 12, "date"), BookColumn("It stands in", 70),
)  # fmt: skip


def quotes_sheet(book: Book, recent: Sequence[QuoteEffect], open_lines: Sequence[QuoteEffect]) -> None:
    """Write each quoted line with its price by either book; a line of both groups stands once."""
    sheet = table_sheet(
        book, "Quotes", _QUOTES, "What it would have done to each line, the largest change first."
    )
    lines = {one.line: one for one in (*recent, *open_lines)}
    for row, one in enumerate(lines.values(), TABLE_HEAD + 1):
        for column, text in enumerate((one.line, one.customer, one.quote, one.state)):
            sheet.text(row, column, text, _QUOTES[column].style)
        for column, value in enumerate((one.quoted, one.before, one.after), 4):
            sheet.number(row, column, value, "money")
        sheet.number(row, 7, one.after / one.before - 1 if one.before else 0, "percent")
        sheet.number(row, 8, one.margin, "percent")
        sheet.number(row, 9, one.new_margin, "percent")


def kinds_sheet(book: Book, kinds: Sequence[GroupBias]) -> None:
    """Write how far the book of today is off by kind of job."""
    says = "What jobs took over today's book, by kind; few jobs are drawn towards the mean of their table."
    sheet = table_sheet(book, "By kind", _KINDS, says)
    for row, one in enumerate(kinds, TABLE_HEAD + 1):
        rule = " rule" if row > TABLE_HEAD + 1 and kinds[row - TABLE_HEAD - 2].by != one.by else ""
        sheet.text(row, 0, one.by, f"bold{rule}")
        sheet.text(row, 1, one.group, f"text{rule}")
        sheet.number(row, 2, one.jobs, f"whole{rule}")
        sheet.number(row, 3, one.seen, f"fine{rule}")
        sheet.number(row, 4, one.drawn, f"fine{rule}")
        sheet.text(row, 5, f"{one.low:.2f} to {one.high:.2f}", f"inset{rule}")
        sheet.number(row, 6, one.spread, f"percent{rule}")


def steps_sheet(book: Book, learnt: Learnt, shop: Shop) -> None:
    """Write what was learnt of every setting, changed or not."""
    sheet = table_sheet(book, "Steps", _STEPS, "Every setting that the jobs touch; 1 is the book of today.")
    for row, one in enumerate(learnt.settings, TABLE_HEAD + 1):
        low, high = one.ratio.interval()
        sheet.text(row, 0, one.place.words(shop), "bold")
        sheet.number(row, 1, one.ratio.mean, "fine")
        sheet.text(row, 2, f"{max(0.0, low):.2f} to {high:.2f}", "inset")
        sheet.number(row, 3, one.jobs, "whole")
        sheet.number(row, 4, one.told, "percent")


def aside_sheet(book: Book, aside: Sequence[tuple[LotDone, float]]) -> None:
    """Write the figures that had no say, with the cells they stand in."""
    says = "Figures that fit no other: look at the cell. They are kept, and have no say in the proposal."
    sheet = table_sheet(book, "Set aside", _ASIDE, says if aside else "No figure was set aside.")
    for row, (lot, expected) in enumerate(aside, TABLE_HEAD + 1):
        sheet.text(row, 0, lot.task, "bold")
        sheet.text(row, 1, lot.kind, "line")
        sheet.number(row, 2, lot.took)
        sheet.number(row, 3, expected)
        sheet.day(row, 4, lot.day)
        sheet.text(row, 5, lot.cell)
