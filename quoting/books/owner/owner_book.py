"""The owner's book as a workbook: one page to look at, one with every line."""

from __future__ import annotations

from pathlib import Path

from quoting.books.look import Book, Pages, day_words, new_book
from quoting.books.owner.charts import hour_chart, week_chart, yield_chart
from quoting.books.owner.decided import decided_table
from quoting.books.owner.lines_sheet import lines_sheet
from quoting.books.owner.tables import COLUMNS, figures_table, plates_table, rises_table, weeks_table
from quoting.record import OwnersFigures

_SCALE = 76
_PAGE_POINTS = 660.0
"""Rows that one landscape page holds at this scale, on the shorter of Letter and A4."""
_CHART_POINTS = 250.0
_SECOND_CHART_COLUMN = 4
LAST = len(COLUMNS) - 1


def write_owner(found: OwnersFigures, path: Path) -> None:
    """Write the owner's book to `path` (.xlsx). For the shop's eyes only."""
    with new_book(
        path, paper=found.paper, created=found.last, title="Owner's page", author=found.shop
    ) as book:
        _owner_sheet(book, found)
        lines_sheet(book, found)


def _owner_sheet(book: Book, found: OwnersFigures) -> None:
    footer = f"{found.shop} · internal · {day_words(found.last)}"
    sheet = book.sheet("Owner", [column.width for column in COLUMNS], footer=footer, fit=False)
    sheet.raw.set_print_scale(_SCALE)
    pages = Pages(sheet, _PAGE_POINTS)
    sheet.text(0, 0, "Owner's page", "title line")
    sheet.wide(1, 0, LAST, _says(found), "quiet")
    customers = figures_table(sheet, 3, "Customer", found.by(lambda line: line.customer), found.total)
    first = customers.after + 1
    rolls = figures_table(sheet, first, "Roll", found.by(lambda line: line.roll))
    pages.keep(first, rolls.after)
    charts = rolls.after + 1
    sheet.tall(charts, _CHART_POINTS)
    pages.keep(charts, charts)
    row = decided_table(sheet, charts + 2, found)
    pages.keep(charts + 2, row - 1)
    first = row + 1
    row = rises_table(sheet, first, found)
    pages.keep(first, row - 1)
    first = row + 1
    weeks = weeks_table(sheet, first, found)
    pages.keep(first, weeks.after)
    first = weeks.after + 1
    plates = plates_table(sheet, first, found)
    sheet.tall(plates.after, _CHART_POINTS if plates.rows else 15.0)
    pages.keep(first, plates.after)
    hour_chart(book, sheet, charts, 0, customers)
    week_chart(book, sheet, charts, _SECOND_CHART_COLUMN, weeks)
    yield_chart(book, sheet, plates.after, 0, plates)
    pages.finish(plates.after, LAST)


def _says(found: OwnersFigures) -> str:
    results = "1 result" if found.results == 1 else f"{found.results} results"
    span = day_words(found.first)
    if found.last != found.first:
        span += f" to {day_words(found.last)}"
    left_out = (
        f"; {found.left_out} replaced by later ones or given twice are left out" if found.left_out else ""
    )
    return (
        f"{results} of {span}{left_out}. Quoted, not won: what was won and made of it stands in the month "
        f"book. Money in {found.currency} before tax, hours at the likely minutes with set-up."
    )
