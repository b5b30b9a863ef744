"""Answers taken, and what the shop remembers of a customer's sheets."""

from quoting.intake.answers.answer_book import WrittenAnswer, read_answers
from quoting.intake.answers.memory import Memory, memory_of
from quoting.intake.answers.recall import not_taken, with_answers
from quoting.intake.answers.revisions import with_revision_questions
from quoting.intake.answers.take import answered_columns, every_alternative, resolve

__all__ = [
    "Memory",
    "WrittenAnswer",
    "answered_columns",
    "every_alternative",
    "memory_of",
    "not_taken",
    "read_answers",
    "resolve",
    "with_answers",
    "with_revision_questions",
]
