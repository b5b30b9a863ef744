"""Reads the tolerances that a text asks for: `+/- 1/16 on ID`, `out of round 1/4 max`, `per UG-80`.

Trade words are common practice, no source.
"""

from __future__ import annotations

import re
from functools import lru_cache

from quoting.core import NumberStyle, SizeError, ToleranceAsked, ToleranceOn, parse_length

_NUMBER = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d*[.,]?\d+)"
_UNIT = r"\s*(?:mm\b|in(?:ch(?:es)?)?\b|\"|'')?"
_BOTH = re.compile(rf"(?:±|\+\s*/\s*[-−–]|\+\s*-)\s*({_NUMBER}{_UNIT})(\s*%)?", re.I)
_ONE_SIDED = re.compile(rf"[+]\s*({_NUMBER}{_UNIT})\s*[/,]?\s*[-−–]\s*({_NUMBER}{_UNIT})", re.I)
_MINUS_FIRST = re.compile(rf"[-−–]\s*({_NUMBER}{_UNIT})\s*[/,]?\s*[+]\s*({_NUMBER}{_UNIT})", re.I)
_UNIT_LAST = re.compile(r"\s*(?:mm|in(?:ch(?:es)?)?|\"|'')\s*$", re.I)
_MOST = re.compile(rf"({_NUMBER}{_UNIT})(\s*%)?", re.I)
_CODES = (
    ("UG-80", re.compile(r"\bug[- ]?80\b", re.I)),
    ("PD 5500", re.compile(r"\bpd[- ]?5500\b", re.I)),
    ("EN 13445-4", re.compile(r"\ben[- ]?13445", re.I)),
    ("API 2B", re.compile(r"\bapi[- ]?(spec\.?\s*)?2b\b", re.I)),
)
_ON = (
    (
        ToleranceOn.ROUND,
        re.compile(r"\bout[- ]?of[- ]?round\w*|\bo\.?o\.?r\.?\b|\boval\w*|\broundness\b", re.I),
    ),
    (ToleranceOn.STRAIGHT, re.compile(r"\bstraight(ness)?\b|\bbow(ed)?\b", re.I)),
    (ToleranceOn.CIRCUMFERENCE, re.compile(r"\bcircum\w*|\bcirc\b|\bgirth\b|\btape\b", re.I)),
    (ToleranceOn.DIAMETER, re.compile(r"\b[io]\.?d\b|\bdia\w*|\bradius\b|ø", re.I)),
    (ToleranceOn.LENGTH, re.compile(r"\b(length|long|width|height|axial)\b", re.I)),
)
_LIMIT = re.compile(r"\b(max\w*|within|tol\w*|not (to exceed|more)|less than|under)\b|[<≤]", re.I)
_OTHER = re.compile(
    r"\b(gap|opening|thick\w*|thk|wall|angle|bevel|land|deg\w*|hole\w*|weight|days?)\b|°", re.I
)
_CLAUSE = re.compile(r"[;\n]|\band\b")
_COMMA = re.compile(r",\s+")
_BESIDE = re.compile(rf"{_NUMBER}{_UNIT}\s*(?:max\.?\s*)?(?:out|oval|o\.?o\.?r)", re.I)


@lru_cache(maxsize=8192)
def tolerances_in(text: str, *, inch: bool, column: bool = False) -> tuple[ToleranceAsked, ...]:
    """Return the tolerances of a text; in a tolerance column a number without a word is on the diameter.

    >>> [(t.on.value, round(t.value_mm, 3)) for t in tolerances_in("out of round 1/32 max", inch=True)]
    [('out of round', 0.794)]
    >>> [(t.on.value, t.value_mm) for t in tolerances_in("+/- 2 mm", inch=True, column=True)]
    [('diameter', 2.0)]
    """
    found: list[ToleranceAsked] = [
        ToleranceAsked(ToleranceOn.ROUND, code=code) for code, pattern in _CODES if pattern.search(text)
    ]
    for clause in _clauses(text):
        asked = _in_clause(clause, inch=inch, column=column)
        if asked is not None:
            found.append(asked)
    return tuple(dict.fromkeys(found))


def _clauses(text: str) -> list[str]:
    """Return what a text says in turn; a comma parts two sayings where the first has its number already."""
    found: list[str] = []
    for part in _CLAUSE.split(text):
        open_ = False
        for piece in _COMMA.split(part):
            if open_:
                found[-1] += f", {piece}"
            else:
                found.append(piece)
            open_ = not _MOST.search(found[-1])
    return found


def _in_clause(clause: str, *, inch: bool, column: bool) -> ToleranceAsked | None:
    plain = clause
    for _, pattern in _CODES:
        plain = pattern.sub(" ", plain)
    on = next((on for on, pattern in _ON if pattern.search(plain)), None)
    most = on in (ToleranceOn.ROUND, ToleranceOn.STRAIGHT) and bool(
        column or _LIMIT.search(plain) or _BESIDE.search(plain)
    )
    if not column and _OTHER.search(plain):
        return None
    both = _BOTH.search(plain)
    if not both and (sides := _two_sides(plain, inch=inch)):
        return ToleranceAsked(
            on or ToleranceOn.DIAMETER, sum(sides) / 2, sides_mm=None if sides[0] == sides[1] else sides
        )
    match = both or (_MOST.search(plain) if most or (column and on) else None)
    if match is None or (on is None and not (column or both)):
        return None
    on = on or ToleranceOn.DIAMETER
    if match.group(2):
        return ToleranceAsked(on, share=_plain(match.group(1)) / 100)
    value = _mm(match.group(1), inch=inch)
    return ToleranceAsked(on, value) if value else None


def _two_sides(text: str, *, inch: bool) -> tuple[float, float] | None:
    """Return plus and minus of `+1/8 -0` or `-0 +1/8` in mm."""
    first, second = _ONE_SIDED.search(text), _MINUS_FIRST.search(text)
    pair = first.groups() if first else second.groups()[::-1] if second else ()
    unit = next((found.group() for part in pair if (found := _UNIT_LAST.search(part))), "")
    sizes = [_mm(part if _UNIT_LAST.search(part) else f"{part}{unit}", inch=inch) for part in pair]
    if len(sizes) != 2 or sizes[0] is None or sizes[1] is None or not any(sizes):
        return None
    return sizes[0], sizes[1]


def _mm(text: str, *, inch: bool) -> float | None:
    """Return a length in mm; a fraction without a unit is one of an inch on a metric sheet too."""
    style = NumberStyle.COMMA if "," in text else NumberStyle.POINT
    try:
        return parse_length(text.strip(), inch=inch or "/" in text, style=style)
    except SizeError:
        return None


def _plain(text: str) -> float:
    return (_mm(text, inch=True) or 0.0) / 25.4


def tolerances_text(tolerances: tuple[ToleranceAsked, ...]) -> str:
    """Return tolerances as a draft keeps them.

    >>> tolerances_text((ToleranceAsked(ToleranceOn.ROUND, code="UG-80"),))
    'out of round|0|0|UG-80'
    """
    return ";".join(
        f"{one.on.value}|{one.value_mm:g}|{one.share:g}|{one.code}"
        + (f"|{one.sides_mm[0]:g}|{one.sides_mm[1]:g}" if one.sides_mm else "")
        for one in tolerances
    )


@lru_cache(maxsize=8192)
def tolerances_of(text: str) -> tuple[ToleranceAsked, ...]:
    """Return the tolerances that `tolerances_text` wrote."""
    found = []
    for part in text.split(";"):
        if part:
            on, value, share, code, *sides = part.split("|")
            both = (float(sides[0]), float(sides[1])) if sides else None
            found.append(ToleranceAsked(ToleranceOn(on), float(value), float(share), code, both))
    return tuple(found)
