"""The sheet "Lines" of the owner's book: every quoted line, what earns least in a roll hour first."""

from __future__ import annotations

from quoting.books.look import Book, BookColumn, BookSheet, day_words
from quoting.record import OwnersFigures, QuotedLine, figures_of

COLUMNS = (
    BookColumn("Customer", 26),
    BookColumn("Line", 8, "line"),
    BookColumn("What", 40, "quiet"),
    BookColumn("Quoted", 12, "date"),
    BookColumn("Roll", 14, "line"),
    BookColumn("Price", 12, "money"),
    BookColumn("Cost", 12, "money"),
    BookColumn("Profit", 11, "money"),
    BookColumn("Margin", 9, "percent"),
    BookColumn("Roll hours", 8, "number"),
    BookColumn("Profit a roll hour", 11, "money"),
    BookColumn("Set-up share", 9, "percent"),
    BookColumn("Chance of loss", 9, "percent"),
    BookColumn("Floor", 10, "inset"),
)
_HEAD = 3


def lines_sheet(book: Book, found: OwnersFigures) -> None:
    """Write the sheet, with a filter on its headings."""
    footer = f"{found.shop} · internal · {day_words(found.last)}"
    sheet = book.sheet("Lines", [column.width for column in COLUMNS], footer=footer)
    sheet.text(0, 0, "Lines", "title line")
    says = f"Every quoted line, what earns least in a roll hour first. Money in {found.currency} before tax."
    sheet.wide(1, 0, len(COLUMNS) - 1, says, "quiet")
    sheet.heads(_HEAD, COLUMNS)
    sheet.raw.repeat_rows(_HEAD)
    sheet.raw.freeze_panes(_HEAD + 1, 2)
    ordered = sorted(found.lines, key=lambda line: (figures_of("", [line]).an_hour, line.customer, line.id))
    row = _HEAD
    for row, line in enumerate(ordered, _HEAD + 1):
        _line(sheet, row, line)
    sheet.raw.autofilter(_HEAD, 0, max(row, _HEAD + 1), len(COLUMNS) - 1)


def _line(sheet: BookSheet, row: int, line: QuotedLine) -> None:
    at = row + 1
    figures = figures_of("", [line])
    sheet.text(row, 0, line.customer)
    sheet.text(row, 1, line.number, "line")
    sheet.text(row, 2, line.part, "quiet")
    sheet.day(row, 3, line.day)
    sheet.text(row, 4, line.roll, "line")
    sheet.number(row, 5, line.sold, "money")
    sheet.number(row, 6, line.cost, "money")
    sheet.formula(row, 7, f"=F{at}-G{at}", line.profit, "money")
    sheet.formula(row, 8, f"=IF(F{at}=0,0,H{at}/F{at})", figures.margin, "percent")
    sheet.number(row, 9, figures.minutes / 60, "number")
    sheet.formula(row, 10, f"=IF(J{at}=0,0,H{at}/J{at})", figures.an_hour, "money")
    sheet.number(row, 11, figures.setup_share, "percent")
    if line.loss_chance is not None:
        sheet.number(row, 12, line.loss_chance, "percent")
    sheet.text(
        row, 13, "UNDER" if line.under_floor else "kept", "bold inset" if line.under_floor else "inset"
    )
