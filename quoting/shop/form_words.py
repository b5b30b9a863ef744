"""What the readers say of the book, in the words of the workbook: no names of keys, no brackets."""

from __future__ import annotations

import re

_UNIT = re.compile(
    r"_(?:min_)?(?:per_)?(?:mm|in|m|ft|kg|lb|cwt|mpa|ksi|gpa|kw|hp|deg|min|hours|days|m3|ft3|lb_in3|kg_m3|"
    r"(?:mm|in|m|ft)_min|m_mm|ft_in|(?:kg|lb)_hour)$"
)
_PHRASES = (
    ("must be a text in quotation marks", "must be a text"),
    ("must be true or false, without quotation marks", "must be yes or no"),
    ("must be [low, likely, high]", "needs a low, a usual and a high value"),
    ("write 30 per cent as 0.30", "write 30 per cent as 30 % or 0.30"),
    ("add a [[roll.rated]] table from the machine's plate", "fill in a row of Rated points with its number"),
    ("has no [[labour.handling]] table", "has no row under Handling by weight"),
    ("has no [[roll]]", "has no roll"),
    ("describe at least one roll", "fill in a column of the sheet Rolls, and its rated point below"),
    ("write 2026-12-25 without quotation marks", "write it as 2026-12-25"),
    ("give each its own key", "give each its own name"),
)
_EXAMPLE_KEY = re.compile(r"\bfor example \w+ = ")
_TABLE = re.compile(r"\[\[?([a-z_.]+)\]\]?")
_KEY = re.compile(r"\b[a-z]+(?:_[a-z0-9]+)+\b")


def in_form_words(text: str) -> str:
    """Return a message about the book as it reads best beside a sheet and a cell; quoted parts stay.

    >>> in_form_words('[[roll]] "Big_roll" top_roll_in: must be more than 0')
    'roll "Big_roll" top roll: must be more than 0'
    """
    for written, said in _PHRASES:
        text = text.replace(written, said)
    parts = _EXAMPLE_KEY.sub("for example ", text).split('"')
    parts[::2] = [_KEY.sub(_words, _TABLE.sub(_table, part)) for part in parts[::2]]
    return '"'.join(parts)


def _table(found: re.Match[str]) -> str:
    return found[1].replace("_", " ").replace(".", " ")


def _words(found: re.Match[str]) -> str:
    return _UNIT.sub("", found[0]).replace("_", " ")
