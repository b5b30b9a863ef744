"""Customers' order sheets in: order lines where the sheet is clear, questions where it is not.

`read_all` reads files into `quoting.core.Order`; `for_run` reads those of one run, perhaps in another
process, with answers and with the line that each choice would give (`every_alternative`), so that its price
can be shown. `read_answers` reads a filled question book. `CustomerFiles` pins the columns of one customer,
and keeps what is remembered of its sheets.
"""

from quoting.intake.answers import every_alternative, read_answers
from quoting.intake.customer_files import CustomerFiles
from quoting.intake.for_run import SheetsAsked, SheetsRead
from quoting.intake.known_customer import known_customer
from quoting.intake.layout import is_courtesy
from quoting.intake.read_orders import read_all

__all__ = [
    "CustomerFiles",
    "SheetsAsked",
    "SheetsRead",
    "every_alternative",
    "is_courtesy",
    "known_customer",
    "read_all",
    "read_answers",
]
