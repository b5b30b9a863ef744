"""An output folder that fills whole or not at all, and what the files in it are called."""

from quoting.books.output.book_names import (
    costing_name,
    cutting_name,
    questions_name,
    quote_name,
    rack_after_name,
)
from quoting.books.output.folder import OutputFolder, files_words, settled
from quoting.books.output.folder_lock import locked

__all__ = [
    "OutputFolder",
    "costing_name",
    "cutting_name",
    "files_words",
    "locked",
    "questions_name",
    "quote_name",
    "rack_after_name",
    "settled",
]
