"""The book that says what the floor's minutes teach: the proposal, and the evidence behind it."""

from quoting.books.learnt.learnt_book import LearntPage, write_learnt

__all__ = ["LearntPage", "write_learnt"]
