"""How many lines a text takes in a cell: rows need their height before any program opens the book."""

from __future__ import annotations

from functools import cache, lru_cache

_SAFETY = 1.03
"""Programs set text a little differently; a line too many is better than one cut off."""

_WIDEST_EM = 1.1
"""More than any letter takes, and than a letter that those metrics lack counts for."""


@lru_cache(maxsize=50_000)
def width_em(text: str, *, bold: bool = False) -> float:
    """Return the width of one line of Arial text in em, by the metrics of Helvetica that Arial shares.

    A letter that those metrics lack (Chinese, say) counts as one em.

    >>> round(width_em("mill edge"), 2), width_em("\u677f")
    (4.0, 1.0)
    """
    widths = _metrics("Helvetica-Bold" if bold else "Helvetica")
    return sum(widths.get(letter, 1.0) for letter in text)


@cache
def _metrics(font: str) -> dict[str, float]:
    """Return the width in em of every letter of a standard font, by Adobe's metrics as reportlab has them."""
    from reportlab.pdfbase.pdfmetrics import stringWidth  # noqa: PLC0415 - heavy for a room that all books use

    letters = (bytes([code]).decode("cp1252", "ignore") for code in range(32, 256))
    return {letter: stringWidth(letter, font, 1) for letter in letters if letter}


def lines_needed(text: str, room_points: float, size: float, *, bold: bool = False) -> int:
    """Return the lines that a wrapped text takes in a cell that wide, at that font size in points.

    >>> lines_needed("one two\\nthree", 200, 10)
    2
    """
    room = max(1.0, room_points / size / _SAFETY)
    if len(text) * _WIDEST_EM < room and "\n" not in text:
        return 1  # most cells of a book: not measured letter by letter
    return sum(_wrapped(line, room, bold=bold) for line in text.split("\n"))


def _wrapped(line: str, room: float, *, bold: bool) -> int:
    lines, used = 1, 0.0
    space = width_em(" ", bold=bold)
    for word in line.replace("-", "- ").split(" "):
        width = width_em(word, bold=bold)
        if used and used + space + width > room:
            lines += 1
            used = 0.0
        used += width + (space if used else 0.0)
        # A word longer than the cell is broken inside.
        while used > room:
            lines += 1
            used -= room
    return lines
