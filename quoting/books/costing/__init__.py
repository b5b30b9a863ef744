"""The internal costing book: live formulas, how each part is rolled, nests, rows and the owner's page."""

from quoting.books.costing.book import write_costing

__all__ = ["write_costing"]
