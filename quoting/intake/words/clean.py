"""Writes the signs of a cell plainly: full-width figures, thin blanks and apostrophes in thousands."""

from __future__ import annotations

import re

_SAME = str.maketrans(
    {
        **{chr(0xFF01 + i): chr(0x21 + i) for i in range(94)},
        "\u3000": " ",
        "\uff0c": ", ",
        "\u3001": ", ",
        "\uff1b": "; ",
        "\uff1a": ": ",
        "\u2007": "\u00a0",
        "\u2009": "\u00a0",
        "\u202f": "\u00a0",
    }
)
_THIN = re.compile(r"(?<=\d)\u00a0(?=\d{3}(?!\d))")
_SWISS = re.compile(r"(?<=\d)['’](?=\d{3}(?![\d'\"]))")
_BEVEL = re.compile(r"(?<![^\W\d_])(?:BEV|[Bb]ev)(?![^\W\d_])\.?")
"""bev. 30 deg: the degrees of an edge, and no part of a circle."""
_METRES = re.compile(r"(?<![\w.,/-])(\d{1,2})m(\d{2})(?![\w/-]|[.,]\d|\s?mm)")
"""1m50: metres with two digits behind their sign."""
_BLANKS = re.compile(r"^\d{1,3}(?: \d{3})+(?:[.,]\d+)?$")


def cleaned(text: str) -> str:
    """Return a text with its numbers written without marks that part thousands.

    >>> cleaned("1\u202f250"), cleaned("2'400 mm"), cleaned("1 600"), cleaned("１２")
    ('1250', '2400 mm', '1600', '12')
    """
    if not text.isascii():
        text = _THIN.sub("", text.translate(_SAME))
        if "’" in text:
            text = _SWISS.sub("", text)
        text = text.replace("\u00a0", " ")
    if "'" in text:
        text = _SWISS.sub("", text)
    if "ev" in text or "EV" in text:
        text = _BEVEL.sub("bevel", text)
    if "m" in text and _METRES.search(text):
        text = _METRES.sub(lambda match: f"{int(match[1]) * 1000 + int(match[2]) * 10} mm", text)
    if " " in text and _BLANKS.match(text):
        return text.replace(" ", "")
    return text
