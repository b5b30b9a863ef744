"""Sizes and angles beside a word of the trade, as `1/16 land`, `37-1/2 deg`, `60° incl`."""

from __future__ import annotations

import re

from quoting.core import NumberStyle, SizeError, parse_length

_NUMBER = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d*[.,]?\d+)"
_UNIT = r"\s*(?:mm|in(?:ch(?:es)?)?\b|\"|'')?"
_ANGLE = re.compile(rf"({_NUMBER})\s*(?:°|º|deg\w*)", re.I)


def angle_in(text: str) -> float | None:
    """Return the first angle of a text in degrees.

    >>> angle_in("37-1/2 deg bevel"), angle_in("30° both ends"), angle_in("bevel")
    (37.5, 30.0, None)
    """
    found = _ANGLE.search(text)
    return _plain(found.group(1)) if found else None


def size_beside(word: str, text: str, *, inch: bool) -> float | None:
    """Return the size in mm that stands before or after a word; a bare number is in the sheet's unit.

    A bare fraction is one of an inch on a metric sheet too.

    >>> size_beside("land", "30 deg, 1/16 land", inch=True), size_beside("land", "land 2 mm", inch=True)
    (1.5875, 2.0)
    """
    before = re.search(rf"({_NUMBER}{_UNIT})\s*(?:{word})\b", text, re.I)
    after = re.search(rf"\b(?:{word})\s*(?:of|=|:)?\s*({_NUMBER}{_UNIT})", text, re.I)
    found = before or after
    if found is None:
        return None
    try:
        number = found.group(1).strip()
        return parse_length(number, inch=inch or "/" in number, style=_style(number))
    except SizeError:
        return None


def _plain(number: str) -> float | None:
    try:
        return parse_length(number, inch=True, style=_style(number)) / 25.4
    except SizeError:
        return None


def _style(number: str) -> NumberStyle:
    return NumberStyle.COMMA if "," in number else NumberStyle.POINT
