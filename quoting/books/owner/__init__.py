"""The owner's book over many quotes: who and what earns, where it is thin, and how full the rolls are."""

from quoting.books.owner.owner_book import write_owner

__all__ = [
    "write_owner",
]
