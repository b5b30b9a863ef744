"""How every sheet of the cutting book begins, and what lines and days are called in it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from quoting.books.look import Book, BookColumn, BookSheet, day_words, line_names
from quoting.estimating import Estimate

HEAD = 3
"""Row of the headings."""


def cutting_page(
    book: Book,
    estimate: Estimate,
    name: str,
    columns: Sequence[BookColumn],
    *,
    title: str,
    says: str,
    fit: bool = True,
) -> BookSheet:
    """Add a sheet with its title, the one sentence that says what it is for, and its headings."""
    footer = f"{estimate.shop.name} · internal · {day_words(estimate.today)}"
    sheet = book.sheet(name, [column.width for column in columns], footer=footer, fit=fit)
    sheet.text(0, 0, title, "title line")
    sheet.wide(1, 0, len(columns) - 1, f"{says} {only_won(estimate)}".rstrip(), "quiet")
    sheet.heads(HEAD, columns)
    sheet.raw.repeat_rows(HEAD)
    sheet.raw.freeze_panes(HEAD + 1, 0)
    return sheet


def only_won(estimate: Estimate) -> str:
    """Return that these are only the lines that were won; empty where all that were quoted are here."""
    if not estimate.won_of:
        return ""
    return f"Only what was won: {len(estimate.lines)} of {estimate.won_of} priced lines."


def lines_with_days(estimate: Estimate) -> Callable[[Sequence[str]], str]:
    """Return what says lines by name, each with its due day: `Tank 10 (18 Dec 2026)`."""
    names = line_names(estimate)
    due: dict[str, date | None] = {result.line.id: result.line.due for result in estimate.lines}

    def say(lines: Sequence[str]) -> str:
        return ", ".join(
            f"{names[line]} ({day_words(day)})" if (day := due[line]) else names[line] for line in lines
        )

    return say


def line_list(estimate: Estimate) -> Callable[[Sequence[str]], str]:
    """Return what says lines by name."""
    names = line_names(estimate)
    return lambda lines: ", ".join(names[line] for line in lines)
