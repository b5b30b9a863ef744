"""From the rows of a file to order lines and questions, with an account of every row."""

from quoting.intake.lines.line_or_questions import (
    COLUMN,
    WHOLE,
    ask_duplicate,
    assemble,
    doubt_of,
    record_of,
    waiting,
    whole_file_questions,
)
from quoting.intake.lines.read_sheet import SheetWork, note_questions

__all__ = [
    "COLUMN",
    "WHOLE",
    "SheetWork",
    "ask_duplicate",
    "assemble",
    "doubt_of",
    "note_questions",
    "record_of",
    "waiting",
    "whole_file_questions",
]
