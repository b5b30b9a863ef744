"""Finds the weld gap that a sentence asks for: `weld gap 2 mm`, `leave 1/8 gap on carbon`, `no gap`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from quoting.core import NumberStyle, SizeError, parse_measures
from quoting.shop import FAMILY_WORDS, Family

_CLAUSE = re.compile(r"[;\n]|[,.]\s+")
_GAP = re.compile(r"\b(?:(?:weld|root|seam)\s+)?(?:gap|root opening|weld opening)s?\b", re.I)
_NOT_ASKED = re.compile(r"\b(max\w*|min\w*|tol\w*|between|clearance|less|under|over|annul\w*|liner)\b", re.I)
_NONE = re.compile(r"\b(no|without|zero|w/o)\s*$", re.I)
_LEAD = re.compile(r"^\s*(?:of|is|=|:|at|to be)?\s*", re.I)
_ON = re.compile(r"\b(?:on|for)\s+(?:all\s+)?(?:the\s+)?([a-z]+)", re.I)
_EVERY = frozenset(("all", "every", "each", "long", "seam", "seams", "lines", "parts", "shells", "welding"))
_WORDS = 3


@dataclass(frozen=True, slots=True)
class GapSaid:
    """A gap as written, and the metal family it is for; no family when it is for all."""

    text: str
    family: Family | None = None


@lru_cache(maxsize=4096)
def gaps_in(text: str) -> tuple[GapSaid, ...]:
    """Return the weld gaps that a text asks for; one that holds for unknown parts only is left out.

    >>> gaps_in("Seams open, we weld. Leave 1/8 gap on carbon."), gaps_in("weld gap 2 mm")[0].text
    ((GapSaid(text='1/8', family=<Family.CARBON: 'carbon'>),), '2 mm')
    """
    return tuple(said for clause in _CLAUSE.split(text) if (said := _in_clause(clause)))


def _in_clause(clause: str) -> GapSaid | None:
    word = _GAP.search(clause)
    if word is None or _NOT_ASKED.search(clause):
        return None
    before, after = clause[: word.start()], clause[word.end() :]
    size = _size_at_start(_LEAD.sub("", after)) or _size_at_end(before)
    if not size and _NONE.search(before):
        size = "0"
    on = _ON.search(after)
    if not size or on is None or on.group(1).lower() in _EVERY:
        return GapSaid(size) if size else None
    family = FAMILY_WORDS.get(on.group(1).upper())
    return GapSaid(size, family) if family else None


def _size_at_start(text: str) -> str:
    words = text.split()
    tries = (" ".join(words[:count]) for count in range(min(_WORDS, len(words)), 0, -1))
    return next((piece for piece in tries if _is_size(piece)), "")


def _size_at_end(text: str) -> str:
    words = text.split()
    tries = (" ".join(words[-count:]) for count in range(min(_WORDS, len(words)), 0, -1))
    return next((piece for piece in tries if _is_size(piece)), "")


def _is_size(text: str) -> bool:
    for style in (NumberStyle.POINT, NumberStyle.COMMA):
        try:
            sizes = parse_measures(text.rstrip("."), style)
        except SizeError:
            continue
        return len(sizes) == 1 and sizes[0].mark is None
    return False
