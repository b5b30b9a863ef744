"""A quote in the customer's language: words from gettext catalogues, dates and numbers in its ways."""

from quoting.books.tongue.languages import ENGLISH, tongue_of
from quoting.books.tongue.say import Tongue, UnsaidError

__all__ = ["ENGLISH", "Tongue", "UnsaidError", "tongue_of"]
