"""Sizes given twice in one cell, in inches and in millimetres: 24 (609.6), 48"/1219mm, 3/16 (0.188)."""

from __future__ import annotations

import re
from dataclasses import replace

from quoting.core import Measure, NumberStyle, SizeError, Unit, parse_measure

_IN_BRACKETS = re.compile(r"([^(\[]+?)\s*[(\[]\s*([^()\[\]]+?)\s*[)\]]")
_TWO_FORMS = (_IN_BRACKETS, re.compile(r"(.+)\s*/\s*([^/]+)"), re.compile(r"([^/]+?)\s*/\s*(.+)"))
_APART = 0.005
"""Two forms of one size differ by rounding only: less than half a per cent."""
_TENTH = re.compile(r"\d+[.,]\d")
_ROUNDED_MM = 0.0501
"""What a size in millimetres with one decimal may differ by: 6.4 for a quarter of an inch."""


def dual_size(text: str, style: NumberStyle) -> Measure | None:
    """Return the one size that a cell gives in two forms, with its unit; None when it does not.

    >>> size = dual_size("24 (609.6)", NumberStyle.POINT)
    >>> size.low, size.unit
    (24.0, <Unit.INCH: 'in'>)
    >>> dual_size("24 (36)", NumberStyle.POINT), dual_size('1/4" [6]', NumberStyle.POINT)
    (None, None)
    """
    matches = (form.fullmatch(text) for form in _TWO_FORMS)
    found = (_one_of(match[1], match[2], style) for match in matches if match is not None)
    return next((size for size in found if size is not None), None)


def _one_of(one: str, two: str, style: NumberStyle) -> Measure | None:
    """Return the first of two forms of a size, where they are those of one size."""
    try:
        first, second = parse_measure(one, style), parse_measure(two, style)
    except SizeError:
        return None
    tenth = _ROUNDED_MM if _TENTH.search(two) else 0.0
    lengths = (None, Unit.INCH, Unit.MM)
    if first.is_range or second.is_range or first.unit not in lengths or second.unit not in lengths:
        return None
    for unit, other, factor in ((Unit.INCH, Unit.MM, 25.4), (Unit.MM, Unit.INCH, 1 / 25.4)):
        fits = first.unit in (None, unit) and second.unit in (None, other)
        rounded = tenth if other is Unit.MM else 0.0
        if fits and abs(first.low * factor - second.low) <= max(_APART * second.low, rounded):
            return replace(first, unit=unit)
    same = first.unit is second.unit or first.unit is None or second.unit is None
    if same and abs(first.low - second.low) <= _APART * second.low:
        return replace(first, unit=first.unit or second.unit, fraction=first.fraction or second.fraction)
    return None


_NUMBER = r"\d[\d.,]*(?:[ -]\d{1,2}/\d{1,2}|/\d{1,2})?\s?(?:mm\b|in\b\.?|\"|'')?"
_WITH_OTHER = re.compile(
    rf"(?<![\w./,-])(?P<one>{_NUMBER})(?P<mark>\s?(?:[io]\.?/?d\b\.?|dia\b\.?|long\b|lg\b|thk\b|high\b|wide\b))?"
    rf"\s?[(\[]\s?(?P<two>{_NUMBER})\s?[)\]]",
    re.I,
)


def in_one_form(text: str, style: NumberStyle) -> str:
    """Return a text without the second form of its sizes: 1524 (60") as 1524 mm.

    >>> in_one_form('1524 (60") x 16mm', NumberStyle.POINT), in_one_form("1800 (900) x 8", NumberStyle.POINT)
    ('1524 mm x 16mm', '1800 (900) x 8')
    """
    if "(" not in text and "[" not in text:
        return text
    return _WITH_OTHER.sub(lambda match: _first_form(match, style), text)


def _first_form(match: re.Match[str], style: NumberStyle) -> str:
    size = _one_of(match["one"].strip(), match["two"].strip(), style)
    if size is None or size.unit is None:
        return match.group()
    bare = not re.search(r"[^\d.,/ -]", match["one"])
    return f"{match['one'].rstrip()}{f' {size.unit}' if bare else ''}{match['mark'] or ''}"
