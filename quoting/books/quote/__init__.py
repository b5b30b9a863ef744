"""The customer's quote: prices, words and dates, and nothing of how the price came about."""

from quoting.books.quote.quote_book import write_quote, write_quote_pdf

__all__ = [
    "write_quote",
    "write_quote_pdf",
]
