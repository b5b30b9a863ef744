"""Workbooks out: the customer's quote, the estimator's costing book, the open questions."""

from quoting.books.costing import write_costing
from quoting.books.names import costing_name, questions_name, quote_name
from quoting.books.owner import write_owner
from quoting.books.questions import write_questions
from quoting.books.quote import write_quote, write_quote_pdf

__all__ = [
    "costing_name",
    "questions_name",
    "quote_name",
    "write_costing",
    "write_owner",
    "write_questions",
    "write_quote",
    "write_quote_pdf",
]
