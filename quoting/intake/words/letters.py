"""Lines that only open or end a letter: waiting for an answer, at your disposal, with kind regards."""

from __future__ import annotations

import re
from functools import cache, lru_cache
from importlib.resources import files

from quoting.intake.words.languages import folded

_TOKEN = re.compile(r"[^\W_]+")


@cache
def _letters() -> tuple[frozenset[str], frozenset[str]]:
    """Return the words that a letter opens or ends with, and those that only join them."""
    text = files(__package__).joinpath("letters.txt").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    cut = lines.index("and")
    about, joins = (
        frozenset(word for line in part for word in line.split()) for part in (lines[:cut], lines[cut + 1 :])
    )
    return about, joins


@lru_cache(maxsize=4096)
def is_letter(text: str) -> bool:
    """Return whether a line is only how a letter opens or ends; one with any other word or a number is none.

    >>> is_letter("In attesa di un Vostro riscontro"), is_letter("En attente de votre offre")
    (True, True)
    >>> is_letter("In attesa"), is_letter("waiting for the client's reply")
    (False, False)
    """
    about, joins = _letters()
    words = [folded(word) for word in _TOKEN.findall(text)]
    return any(word in about for word in words) and all(word in about or word in joins for word in words)
