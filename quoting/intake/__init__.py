"""Customers' order sheets in: order lines where the sheet is clear, questions where it is not.

`read_orders` and `read_all` read files into `quoting.parts.Order`; `resolve` takes answers, `alternatives`
builds the line of each choice so that its price can be shown, `read_answers` reads a filled question book.
`CustomerMap` pins the columns of one customer; `columns_read` offers one from a sheet.
"""

from quoting.intake.answer_book import read_answers
from quoting.intake.answers import alternatives, resolve
from quoting.intake.customer import CustomerMap, columns_read, customer_map
from quoting.intake.limits import Limits
from quoting.intake.orders import read_all, read_orders
from quoting.intake.revisions import revisions_of, with_revision_questions

__all__ = [
    "CustomerMap",
    "Limits",
    "alternatives",
    "columns_read",
    "customer_map",
    "read_all",
    "read_answers",
    "read_orders",
    "resolve",
    "revisions_of",
    "with_revision_questions",
]
