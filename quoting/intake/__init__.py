"""Customers' order sheets in: order lines where the sheet is clear, questions where it is not."""

from quoting.intake.answer_book import read_answers
from quoting.intake.answers import alternatives, resolve
from quoting.intake.limits import Limits
from quoting.intake.orders import read_all, read_orders

__all__ = ["Limits", "alternatives", "read_all", "read_answers", "read_orders", "resolve"]
