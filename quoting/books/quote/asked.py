"""The questions of a quote, numbered, with room for the answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quoting.books.style import Book, Column
from quoting.parts import Question

if TYPE_CHECKING:
    from quoting.books.quote.letter import Letter

_COLUMNS = (
    Column("Q", 5, "line"),
    Column("Line", 8, "line"),
    Column("In your sheet", 20),
    Column("Question", 42),
    Column("Your answer", 24),
    Column("Ref", 12, "quiet"),
)


def questions_sheet(book: Book, letter: Letter) -> None:
    """Write the sheet "Questions", or none when nothing is open."""
    if not letter.asked:
        return
    sheet = book.sheet(
        "Questions", [column.width for column in _COLUMNS], landscape=False, footer=letter.footer
    )
    sheet.text(0, 0, "Questions to you", "title")
    words = "Lines wait for the answers marked with a star; the others say what we have assumed."
    sheet.wide(1, 0, len(_COLUMNS) - 1, words, "quiet")
    sheet.heads(3, _COLUMNS)
    sheet.raw.repeat_rows(3)
    numbers = {entry.result.line.id: entry.number for entry in letter.entries if entry.result}
    numbers |= {entry.draft.id: entry.number for entry in letter.entries if entry.draft}
    for row, item in enumerate(letter.asked, 4):
        question = item.question
        sheet.text(row, 0, f"{item.number}{'*' if question.blocking else ''}", "line rule")
        sheet.text(row, 1, numbers.get(question.line, "all" if not question.line else ""), "line rule")
        sheet.text(row, 2, _where(question), "text rule")
        asks = question.text
        if question.choices:
            asks += "\n" + "\n".join(f"– {choice.label}" for choice in question.choices)
        if question.assumed:
            asks += f"\nAssumed for now: {question.assumed}"
        sheet.text(row, 3, asks, "text rule")
        sheet.fill(row, (4,), "text rule input")
        sheet.text(row, 5, question.id, "quiet rule")


def _where(question: Question) -> str:
    """Return the cell, or the row, and what was read there."""
    place = question.place
    row = "" if place.row is None else str(place.row)
    cell = f"{place.column}{row}" if place.column else f"row {row}" if row else ""
    read = f"“{question.read}”" if question.read else ""
    return ": ".join(part for part in (cell, read) if part)
