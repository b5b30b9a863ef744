"""Short names for customers, where a page has no room for the whole one; no two customers share one."""

from __future__ import annotations

import re
from collections.abc import Iterable

_LONGEST = 16


def short_names(customers: Iterable[str]) -> dict[str, str]:
    """Return a short name for each customer: as few of its first words as tell it from the others.

    >>> short_names(["Sample Tank Works", "Sample Vessels", "Muster"])
    {'Sample Tank Works': 'Sample Tank', 'Sample Vessels': 'Sample Vessels', 'Muster': 'Muster'}
    """
    every = list(dict.fromkeys(customers))
    words = {customer: _words(customer) for customer in every}
    return {customer: _shortest(customer, words) for customer in every}


def _words(customer: str) -> list[str]:
    found = [word for word in re.split(r"[\s\-_]+", customer) if word]
    return found[1:] if len(found) > 1 and found[0].lower() in ("orders", "order", "the") else found or ["?"]


def _shortest(customer: str, words: dict[str, list[str]]) -> str:
    own = words[customer]
    others = [names for other, names in words.items() if other != customer]
    for count in range(1, len(own) + 1):
        if not any(names[:count] == own[:count] for names in others):
            short = " ".join(own[:count])
            return short if len(short) <= _LONGEST else short[: _LONGEST - 1] + "…"
    return customer
