"""Customers' order sheets in: order lines where the sheet is clear, questions where it is not.

`read_orders` and `read_all` read files into `quoting.parts.Order`; `resolve` takes answers, `alternatives`
builds the line of each choice so that its price can be shown, `read_answers` reads a filled question book.
`with_answers` takes those of books and those remembered. `CustomerMap` pins the columns of one customer;
`columns_read` offers one from a sheet; `Memory` is what is kept of a customer's sheets.
"""

from quoting.intake.answer_book import WrittenAnswer, read_answers
from quoting.intake.answers import alternatives, resolve
from quoting.intake.customer import CustomerMap, columns_read, customer_map
from quoting.intake.files import digest_of
from quoting.intake.limits import Limits
from quoting.intake.memory import Memory, memory_of
from quoting.intake.orders import read_all, read_orders
from quoting.intake.recall import not_taken, with_answers
from quoting.intake.revisions import revisions_of, with_revision_questions

__all__ = [
    "CustomerMap",
    "Limits",
    "Memory",
    "WrittenAnswer",
    "alternatives",
    "columns_read",
    "customer_map",
    "digest_of",
    "memory_of",
    "not_taken",
    "read_all",
    "read_answers",
    "read_orders",
    "resolve",
    "revisions_of",
    "with_answers",
    "with_revision_questions",
]
