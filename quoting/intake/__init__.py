"""Customers' order sheets in: order lines where the sheet is clear, questions where it is not.

`read_orders` and `read_all` read files into `quoting.parts.Order`; `resolve` takes answers, `alternatives`
builds the line of each choice so that its price can be shown, `read_answers` reads a filled question book.
`with_answers` takes those of books and those remembered. `CustomerMap` pins the columns of one customer;
`columns_read` offers one from a sheet; `Memory` is what is kept of a customer's sheets.
"""

from quoting.intake.answers import alternatives, not_taken, read_answers, with_answers
from quoting.intake.customer_files import CustomerFiles, offers
from quoting.intake.known_customer import known_customer
from quoting.intake.layout import is_courtesy
from quoting.intake.read_orders import read_all

__all__ = [
    "CustomerFiles",
    "alternatives",
    "is_courtesy",
    "known_customer",
    "not_taken",
    "offers",
    "read_all",
    "read_answers",
    "with_answers",
]
