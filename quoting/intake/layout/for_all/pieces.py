"""The pieces of a sentence, and the unit that it names."""

from __future__ import annotations

import re

_MM = re.compile(r"(?<![\d.,])(?<![\d.,]\s)\b(?:mm|millimet(?:er|re)s?|metric)\b", re.I)
_INCH = re.compile(
    r"(?<![\d.,])(?<![\d.,]\s)\b(?:inch(?:es)?|imperial|zoll|pouces?|pulgadas?|pollici|polegadas?|duim|cale)\b",
    re.I,
)
_CM = re.compile(
    r"(?<![\d.,])(?<![\d.,]\s)\b(?:cm|centimet(?:er|re)s?|zentimeter|centimètres?|centímetros?|centimetri)\b",
    re.I,
)
_NO_UNIT = re.compile(
    r"\b(tol(?:l?er\w*|s)?|gap|land|bevel|hole\w*|flange\w*|bolt\w*|spac\w*|max|min|wire|weld\w*)\b", re.I
)


def unit_named(pieces: list[str]) -> str:
    """Return the one unit that pieces of a sentence name for sizes, or nothing."""
    about = [piece for piece in pieces if not _NO_UNIT.search(piece)]
    units = [
        unit
        for unit, word in (("mm", _MM), ("in", _INCH), ("cm", _CM))
        if any(word.search(piece) for piece in about)
    ]
    return units[0] if len(units) == 1 else ""


_COMMAS = (",", ";", "(", ")", "–", "—", " - ", "|")


def comma_piece(text: str, start: int, end: int) -> str:
    """Return what stands between the commas round a size."""
    before = max(text.rfind(sign, 0, start) for sign in _COMMAS) + 1
    ends = [at for sign in _COMMAS if (at := text.find(sign, end)) >= 0]
    return text[before : min(ends, default=len(text))]
