"""Lines that only open or end a letter: waiting for an answer, at your disposal, with kind regards."""

from __future__ import annotations

import re
from functools import lru_cache

from quoting.intake.words.errands import about_and_joins
from quoting.intake.words.languages import folded

_TOKEN = re.compile(r"[^\W_]+")


@lru_cache(maxsize=4096)
def is_letter(text: str) -> bool:
    """Return whether a line is only how a letter opens or ends; one with any other word or a number is none.

    >>> is_letter("In attesa di un Vostro riscontro"), is_letter("En attente de votre offre")
    (True, True)
    >>> is_letter("In attesa"), is_letter("waiting for the client's reply")
    (False, False)
    """
    about, joins = about_and_joins("letters.txt")
    words = [folded(word) for word in _TOKEN.findall(text)]
    return any(word in about for word in words) and all(word in about or word in joins for word in words)
