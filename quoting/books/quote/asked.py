"""The questions of a quote, numbered, with room for the answer."""

from __future__ import annotations

from dataclasses import replace

from quoting.books.look import Book, BookColumn
from quoting.books.quote.content import QUESTION_WORDS, asks
from quoting.books.quote.letter_source import Letter

_COLUMNS = (
    BookColumn("Q", 5, "line"),
    BookColumn("Line", 8, "line"),
    BookColumn("In your sheet", 20),
    BookColumn("Question", 42),
    BookColumn("Your answer", 24),
    BookColumn("Ref", 12, "quiet"),
)


def questions_sheet(book: Book, letter: Letter) -> None:
    """Write the sheet "Questions", or none when nothing is open."""
    questions = asks(letter)
    if not questions:
        return
    say = letter.tongue.say
    sheet = book.sheet(
        say("Questions"), [column.width for column in _COLUMNS], landscape=False, footer=letter.footer
    )
    sheet.text(0, 0, say("Questions to you"), "title")
    sheet.wide(1, 0, len(_COLUMNS) - 1, say(QUESTION_WORDS), "quiet")
    sheet.heads(3, [replace(column, heading=say(column.heading)) for column in _COLUMNS])
    sheet.raw.repeat_rows(3)
    for row, ask in enumerate(questions, 4):
        sheet.text(row, 0, ask.number, "line rule")
        sheet.text(row, 1, ask.line, "line rule")
        sheet.text(row, 2, ask.where, "text rule")
        sheet.text(row, 3, ask.asks, "text rule")
        sheet.fill(row, (4,), "text rule input")
        sheet.text(row, 5, ask.id, "quiet rule")
