"""The customer's quote: prices, words and dates, and nothing of how the price came about."""

from quoting.books.quote.quote_book import quote_letter, say_all, write_quote, write_quote_pdf
from quoting.books.quote.terms import own_term

__all__ = [
    "own_term",
    "quote_letter",
    "say_all",
    "write_quote",
    "write_quote_pdf",
]
