"""Remarks that are an errand: who is to be called, when the truck comes, what is marked where."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from importlib.resources import files

from quoting.intake.words.languages import folded

_TOKEN = re.compile(r"[^\W_]+")
_A_NAME = re.compile(r"[^\W\d_]\.?|[A-ZÀ-Ý][a-zà-ÿ]{2,}")
_NO_ERRAND = re.compile(
    r"[\"°±+%Ø=]|\d/\d|\d\s*(?:mm|cm|in|ft|kg|lb|x|od)\b|\d[.,]\d|\b(?:not|if|or|do)\b"
    r"|(?-i:\bOD\b)|\bod\s*(?:2[5-9]|[3-9]\d|\d{3,})",  # "od" is "from" too, of hours in Polish and Czech
    re.I,
)


def errands() -> tuple[frozenset[str], frozenset[str]]:
    """Return the words an errand is about, and those that only join them."""
    return about_and_joins("errands.txt")


@cache
def about_and_joins(name: str) -> tuple[frozenset[str], frozenset[str]]:
    """Return the words of a list before its `and`, which a text of a kind is about, and the joining ones."""
    text = files(__package__).joinpath(name).read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    cut = lines.index("and")
    about, joins = (
        frozenset(word for line in part for word in line.split()) for part in (lines[:cut], lines[cut:])
    )
    return about, joins - about


@lru_cache(maxsize=16_384)
def is_errand(text: str, *, names: bool = True) -> bool:
    """Return whether a remark is only about calling, loading, hours, papers or marking, and no part.

    Every word is known for that, or a bare number, or with `names` a word in the middle that begins with a
    capital, in a text that is not all capitals.

    >>> is_errand("call Rosalind before loading, crane on site till 2"), is_errand("call for 48 OD")
    (True, False)
    >>> is_errand("prosim zavolat od 7"), is_errand("call about od 48")
    (True, False)
    """
    if _NO_ERRAND.search(text):
        return False
    about, joins = errands()
    named = names and not text.isupper()
    found = False
    for at, word in enumerate(_TOKEN.findall(text)):
        plain = folded(word)
        if plain in about:
            found = True
        elif not (plain in joins or plain.isdecimal() or (named and at and _A_NAME.fullmatch(word))):
            return False
    return found
