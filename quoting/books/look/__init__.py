"""What every book shares: styles, page breaks, words, and text made fit for a cell."""

from quoting.books.look.book_words import day_words, lines_words, ordered_words, outline_words
from quoting.books.look.cell_text import cell_text, listed
from quoting.books.look.line_entries import (
    Entry,
    NumberedQuestion,
    customer_questions,
    entries_of,
    numbered_questions,
)
from quoting.books.look.line_names import blank_owners, line_names
from quoting.books.look.page_breaks import Pages
from quoting.books.look.plate_words import alike, chalk_mm, material_words, plate_words
from quoting.books.look.short_names import short_names
from quoting.books.look.style import (
    BAND,
    INK,
    NUMERIC,
    QUIET,
    Book,
    BookColumn,
    BookSheet,
    new_book,
)
from quoting.books.look.table_sheet import TABLE_HEAD, table_sheet

__all__ = [
    "BAND",
    "INK",
    "NUMERIC",
    "QUIET",
    "TABLE_HEAD",
    "Book",
    "BookColumn",
    "BookSheet",
    "Entry",
    "NumberedQuestion",
    "Pages",
    "alike",
    "blank_owners",
    "cell_text",
    "chalk_mm",
    "customer_questions",
    "day_words",
    "entries_of",
    "line_names",
    "lines_words",
    "listed",
    "material_words",
    "new_book",
    "numbered_questions",
    "ordered_words",
    "outline_words",
    "plate_words",
    "short_names",
    "table_sheet",
]
