"""Workbooks out: the customer's quote, the estimator's costing book, the open questions."""

from quoting.books.costing import write_costing
from quoting.books.costing_returned import ReturnedCosting
from quoting.books.cutting import MADE, cut_sheets, remnants
from quoting.books.cutting_table import cutting_writers
from quoting.books.in_language import spoken
from quoting.books.learnt import LearntPage, write_learnt
from quoting.books.look import (
    INK,
    Book,
    BookColumn,
    BookSheet,
    cell_text,
    customer_questions,
    listed,
    new_book,
)
from quoting.books.month import write_month
from quoting.books.output import (
    OutputFolder,
    costing_name,
    files_words,
    locked,
    questions_name,
    quote_name,
    settled,
)
from quoting.books.owner import write_owner
from quoting.books.questions import write_questions
from quoting.books.quote import write_quote, write_quote_pdf
from quoting.books.rack_after import CUT, FREE, PROMISED, CutRun, write_rack_of_jobs
from quoting.books.reply import write_reply
from quoting.books.weighed import WeighedSetting, write_weighed

__all__ = [
    "CUT",
    "FREE",
    "INK",
    "MADE",
    "PROMISED",
    "Book",
    "BookColumn",
    "BookSheet",
    "CutRun",
    "LearntPage",
    "OutputFolder",
    "ReturnedCosting",
    "WeighedSetting",
    "cell_text",
    "costing_name",
    "customer_questions",
    "cut_sheets",
    "cutting_writers",
    "files_words",
    "listed",
    "locked",
    "new_book",
    "questions_name",
    "quote_name",
    "remnants",
    "settled",
    "spoken",
    "write_costing",
    "write_learnt",
    "write_month",
    "write_owner",
    "write_questions",
    "write_quote",
    "write_quote_pdf",
    "write_rack_of_jobs",
    "write_reply",
    "write_weighed",
]
