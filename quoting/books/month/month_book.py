"""The owner's month as a workbook: the page, then margins, jobs, what was won and lost, plate and rack."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from quoting.books.look import Book, new_book
from quoting.books.month.behind import (
    decided_sheet,
    jobs_sheet,
    margins_sheet,
    rack_sheet,
    rates_sheet,
)
from quoting.books.month.first_page import COLUMNS, first_page
from quoting.hindsight import MonthFigures


def write_month(found: MonthFigures, today: date, path: Path) -> None:
    """Write the month book to `path` (.xlsx). For the owner's eyes only."""
    facts = found.facts
    title = f"{found.first:%B %Y}"
    with new_book(path, paper=facts.paper, created=today, title=title, author=facts.shop) as book:
        _page(book, found, today)
        margins_sheet(book, found)
        jobs_sheet(book, found)
        rates_sheet(book, found)
        decided_sheet(book, found)
        rack_sheet(book, found, today)


def _page(book: Book, found: MonthFigures, today: date) -> None:
    footer = f"{found.facts.shop} · internal"
    sheet = book.sheet(f"{found.first:%B %Y}", [c.width for c in COLUMNS], footer=footer, landscape=False)
    sheet.raw.fit_to_pages(1, 1)
    first_page(sheet, found, today)
