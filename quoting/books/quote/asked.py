"""The questions of a quote, numbered, with room for the answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quoting.books.style import Book, Column

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
        place = question.place
        where = (
            f"{place.column}{place.row}"
            if place.column and place.row
            else f"row {place.row}"
            if place.row
            else ""
        )
        sheet.text(row, 2, f"{where}: “{question.read}”" if where else question.read, "text rule")
        asks = question.text
        if question.choices:
            asks += "\n" + "\n".join(f"– {choice.label}" for choice in question.choices)
        if question.assumed:
            asks += f"\nAssumed for now: {question.assumed}"
        sheet.text(row, 3, asks, "text rule")
        sheet.fill(row, (4,), "text rule input")
        sheet.text(row, 5, question.id, "quiet rule")
