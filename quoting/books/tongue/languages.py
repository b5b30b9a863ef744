"""The languages a quote is written in, each from its catalogue (GNU gettext .po, read by Babel)."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from quoting.books.tongue.say import Tongue

ENGLISH = Tongue("en", {})


@cache
def tongue_of(code: str) -> Tongue:
    """Return the tongue of a language code: de, es, fr, else English."""
    if code not in ("de", "es", "fr"):
        return ENGLISH
    from babel.messages.pofile import read_po  # noqa: PLC0415 - only for quotes in another language

    with files("quoting.books.tongue").joinpath("words", f"{code}.po").open("rb") as stream:
        catalogue = read_po(stream, locale=code, abort_invalid=True)
    return Tongue(code, {str(one.id): str(one.string) for one in catalogue if one.id and one.string})
