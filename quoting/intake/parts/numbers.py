"""Numbers of sizes as people write them in a text: 7'-11 3/4, 47½", 1-1/2, 3m20, 1 250 mm, DN 600, Sch 40."""

from __future__ import annotations

import re

from quoting.core import NumberStyle, number_of
from quoting.intake.parts.snippet import Kind, Snippet

_VULGAR = {"½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8),
           "⅝": (5, 8), "⅞": (7, 8)}  # fmt: skip
_V = f"[{''.join(_VULGAR)}]"
END = r"(?![^\W_])"
_INCH = (
    rf"(?:\"|''|in(?:ch(?:es)?|s)?{END}\.?|(?:po(?:uces?)?|pulg(?:adas?)?|pol(?:egadas?)?|pollici|cali|tum|tommer"
    rf"|zoll|duim){END}\.?)"
)
_FOOT = rf"(?:'(?!')|ft\.?{END}|feet{END}|foot{END}|pi(?:es)?{END})"

_FRACTION = rf"(?:\d{{1,2}}/(?:2|4|8|16|32|64)(?![\d/])|{_V})"
"""Inches are divided by these; 8/10 is two sizes."""
_FEET = re.compile(
    rf"(?P<feet>\d{{1,3}})\s?{_FOOT}"
    rf"(?:(?:\s?-\s?|(?<=')|(?<=')\s|\s(?=\d[\d\s/.-]*{_INCH}))"
    rf"(?:(?P<whole>\d{{1,2}})(?![\d/])(?:[\s-]?(?P<part>{_FRACTION})|(?P<decimal>\.\d+))?|(?P<only>{_FRACTION}))"
    rf"\s?{_INCH}?)?"
)
_MIXED = re.compile(
    rf"(?P<whole>\d{{1,4}})(?:(?:\s?-\s?|\s)(?P<part>{_FRACTION})|(?P<sign>{_V}))|(?P<only>{_FRACTION})"
)
_METRES = re.compile(rf"(?P<metres>\d{{1,2}})m(?P<parts>\d{{2,3}}){END}")
PLAIN_NUMBER = re.compile(r"\d{1,2} \d{3}(?![\d/]|[.,]\d{3})(?:[.,]\d+)?|\d+(?:[.,]\d+)*|[.,]\d+")
_UNIT = re.compile(
    rf"\s?(?:(?P<mm>mm{END}\.?|milim\w*|毫米)|(?P<cm>cms?{END}\.?|厘米|公分)|(?P<m>米|m(?:trs?|ts?|etr\w*)?{END}\.?)"
    rf"|(?P<inch>{_INCH})"
    rf"|(?P<deg>°|(?:degs?|degrees?|gra[du][eiou]?s?|graden|stopni|derece){END}\.?)"
    rf"|(?P<ga>(?:ga(?:uge)?|gage|gge){END}\.?))"
)
_PIPE = re.compile(
    rf"(?:(?P<dn>dn|nw)|nps|nb)[ .=-]?(?P<size>\d{{1,4}})(?![\d/]|[.,]\d)\s?(?:\"|in{END}|mm{END})?"
    rf"|(?P<bore>\d{{2,4}})\s?(?:mm\s?)?nb{END}"
    rf"|(?P<inches>\d{{1,2}})(?:[ -]1/(?P<half>[24]))?\s?(?:\"|in{END})?\s?"
    rf"(?:(?:nps|nb){END}|(?=ø?\s?(?:dia\.?\s|pipe\s)?(?:std|xs|xxs|xh|sch|ced|s/|sched)(?:{END}|\d)))"
)
_SCHEDULE = re.compile(
    rf"(?:sch(?:ed(?:ule)?)?|c[eé]d(?:ula)?|s/)[ .-]{{0,2}}(?P<number>\d{{1,3}}s?|std|xs|xxs){END}"
    rf"|(?P<name>std|xxs|xs|xh){END}(?:\s?(?:wt|wall|schedule){END})?"
)
"""Pipes by nominal size and schedule (ASME B36.10M); their diameters and walls are looked up elsewhere."""
_TO_MM = {"cm": 10.0, "m": 1000.0}
_INCHES_OF_A_FOOT = 12
_LARGEST_IN_INCHES = 48
"""No nominal size of ASME B36.10M in inches is larger: 400 NB is one of millimetres."""
_LEAST_DECIMAL = 10
"""1,250 mm is no thickness, but 12,500 may be one or a length."""


def number_at(text: str, at: int, style: NumberStyle, *, inch: bool) -> Snippet | None:
    """Return the number that begins here with its unit; nothing where none does. `text` is in plain signs.

    It is UNCLEAR where its sign could be decimal or one of thousands; `inch` is the unit of bare numbers.

    >>> texts = ("7'-11 3/4", "47½", "1-1/2", "3m20")
    >>> [number_at(text, 0, NumberStyle.POINT, inch=True).value for text in texts]
    [95.75, 47.5, 1.5, 3200.0]
    """
    sign = text[at]
    inside = text[at - 1 : at].isalnum()
    if not (inside and sign.isalnum()) and (pipe := _pipe(text, at)):
        return pipe
    if not (
        sign.isdecimal()
        or sign in _VULGAR
        or (sign in ".," and text[at + 1 : at + 2].isdecimal() and not inside)
    ):
        return None
    return _metres(text, at) or _feet(text, at) or _fraction(text, at) or _decimal(text, at, style, inch=inch)


def _pipe(text: str, at: int) -> Snippet | None:
    if match := _PIPE.match(text, at):
        part = 1 / int(match["half"]) if match["half"] else 0.0
        size = float(match["size"] or match["bore"] or match["inches"]) + part
        metric = match["dn"] or size > _LARGEST_IN_INCHES
        return Snippet(Kind.NUMBER, at, match.end(), size, "DN" if metric else "NPS")
    if match := _SCHEDULE.match(text, at):
        return Snippet(Kind.NUMBER, at, match.end(), unit="sch", sign=match["number"] or match["name"])
    return None


def _metres(text: str, at: int) -> Snippet | None:
    match = _METRES.match(text, at)
    if match is None:
        return None
    metres = float(f"{match['metres']}.{match['parts']}")
    return Snippet(Kind.NUMBER, at, match.end(), metres * _TO_MM["m"], "mm")


def _feet(text: str, at: int) -> Snippet | None:
    match = _FEET.match(text, at)
    if match is None:
        return None
    inches = float(match["whole"] or 0) + float(match["decimal"] or 0) + _part(match["part"] or match["only"])
    if inches >= _INCHES_OF_A_FOOT:
        return None
    return Snippet(Kind.NUMBER, at, match.end(), int(match["feet"]) * _INCHES_OF_A_FOOT + inches, "in")


def _fraction(text: str, at: int) -> Snippet | None:
    """Return a number with a fraction; one of millimetres is not clear."""
    match = _MIXED.match(text, at)
    if match is None:
        return None
    value = float(match["whole"] or 0) + _part(match["part"] or match["sign"] or match["only"])
    unit = _UNIT.match(text, match.end())
    clear = unit is None or unit.lastgroup in ("inch", "ga")
    end = unit.end() if unit else match.end()
    return Snippet(Kind.NUMBER if clear else Kind.UNCLEAR, at, end, value, "in")


def _part(text: str | None) -> float:
    if not text:
        return 0.0
    top, bottom = _VULGAR[text] if text in _VULGAR else map(int, text.split("/"))
    return top / bottom if bottom else 0.0


def _decimal(text: str, at: int, style: NumberStyle, *, inch: bool) -> Snippet | None:
    match = PLAIN_NUMBER.match(text, at)
    if match is None:
        return None
    unit = _UNIT.match(text, match.end())
    name = (unit.lastgroup or "") if unit else ""
    value = _value(match.group().replace(" ", ""), style, inch=name == "inch" or (not name and inch))
    end = unit.end() if unit else match.end()
    if value is None:
        return Snippet(Kind.UNCLEAR, at, end)
    if name in _TO_MM:
        return Snippet(Kind.NUMBER, at, end, value * _TO_MM[name], "mm")
    return Snippet(Kind.NUMBER, at, end, value, {"inch": "in"}.get(name, name))


def _value(digits: str, style: NumberStyle, *, inch: bool) -> float | None:
    """Return the value of digits; in a file of no style a sign before three of them is what a size allows."""
    try:
        value = number_of(digits, style)
    except ValueError:
        return None
    if value is not None:
        return value
    if inch:
        return float(digits.replace(",", ""))
    grouped = re.sub("[.,]", "", digits)
    return float(grouped) if int(re.split("[.,]", digits)[0]) < _LEAST_DECIMAL else None
