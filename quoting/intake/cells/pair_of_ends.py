"""Two diameters in one cell of sizes in a row that names a cone: 1200/600 ID x 700 high."""

from __future__ import annotations

import re
from functools import lru_cache

_PAIR = re.compile(
    r"(?<![\d.,/-])[Øø⌀]?\s?(?P<one>\d+(?:[.,]\d+)?)\s?/\s?[Øø⌀]?\s?(?P<two>\d+(?:[.,]\d+)?)(?![\d/]|\s?(?:\"|''|in\b|°|º|deg))"
)
_SIDE = re.compile(
    r"[(\[]?(?<!\w)(?:(?P<outside>o\.?d\.?|outside|outer|external|ext)|(?P<inside>i\.?d\.?|inside|inner|internal|int))(?!\w)"
    r"\.?(?:\s?(?:dia\w*|ø))?[)\]]?",
    re.I,
)
_FRACTIONS = frozenset(("2", "4", "8", "16", "32", "64"))
_TOLD = re.compile(
    r"\b(?:thk|thick\w*|high|height|ht|tall|long|lg|length|vert\w*)\b|(?<!\w)[hHtTlLsS]\s?[=:]?\s?\d", re.I
)
_MOST_SIDES = 1
_LEAST_APART, _MOST_APART = 1.05, 20
"""Times as large as the small end the large one is: in 1200/8 the second is the plate, and 1620/1604 may be
the outside and the inside."""


@lru_cache(maxsize=8192)
def with_ends_in_words(text: str) -> str:
    """Return a text whose first sizes are a pair of diameters with those said apart; else nothing.

    The side of the plate, where the text names one, is that of both.

    >>> with_ends_in_words("1200/600 ID x 700 high"), with_ends_in_words("OD 1219/914 x 44.5")
    ('large ID 1200, small ID 600 x 700 high', '1219 OD x 914 OD x 44.5')
    >>> with_ends_in_words("3/8 x 1200"), with_ends_in_words("600/1200")
    ('', 'cone 1200/600')
    """
    match = _PAIR.search(text)
    if match is None or any(map(str.isdecimal, text[: match.start()])):
        return ""
    one, two = match["one"], match["two"]
    sizes = sorted((one, two), key=lambda size: -float(size.replace(",", ".")))
    apart = float(sizes[0].replace(",", ".")) / max(float(sizes[1].replace(",", ".")), 0.1)
    if (two in _FRACTIONS and sizes[0] == two) or not _LEAST_APART <= apart <= _MOST_APART:
        return ""
    sides = {found.lastgroup for found in _SIDE.finditer(text)}
    if len(sides) > _MOST_SIDES:
        return ""
    before, behind = (
        " ".join(_SIDE.sub(" ", piece).split()) for piece in (text[: match.start()], text[match.end() :])
    )
    large, small = sizes
    side = "OD" if "outside" in sides else "ID"
    if not sides:
        said = f"cone {large}/{small}"
    elif _TOLD.search(behind):
        said = f"large {side} {large}, small {side} {small}"
    else:
        said = f"{large} {side} x {small} {side}"
    return " ".join(f"{before} {said} {behind}".split())


_SIDE_OF_BOTH = r"(?:o\.?d|i\.?d)\.?"
_ONE = rf"(?:\d[\d.,]*(?: \d+/\d+)?\s?(?:mm|in|\"|'')?\s?{_SIDE_OF_BOTH}|{_SIDE_OF_BOTH}\s?\d[\d.,]*)"
_BOTH = re.compile(rf"\W*(?P<one>{_ONE})\s?[/(,;x×–-]\s?(?P<two>{_ONE})\W*", re.I)


def two_sides(text: str) -> tuple[str, ...]:
    """Return the outside and the inside of one part that a cell gives both; nothing for any other cell.

    >>> two_sides("1240 OD / 1220 ID"), two_sides("1240 OD / 620 OD")
    (('1240 OD', '1220 ID'), ())
    """
    match = _BOTH.fullmatch(text)
    if match is None:
        return ()
    pieces = (match["one"], match["two"])
    sides = {side for piece in pieces for side in ("o", "i") if side in piece.lower().replace("in", "")}
    return pieces if len(sides) == len(pieces) else ()
