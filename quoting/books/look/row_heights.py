"""How many lines a text takes in a cell: rows need their height before any program opens the book."""

from __future__ import annotations

# Advance widths of Arial in thousandths of an em, by groups of letters (from memory of the Helvetica metrics
# that Arial shares; whatever is not listed counts as a digit).
_GROUPS = {
    222: "ijl|'",
    278: " .,:;/!ftI[]\u00b7",
    333: "r()-`",
    355: '"',
    500: "ckvsxyzJ",
    611: "FTZ",
    667: "ABEKPSVXY&",
    722: "CDHNRUw",
    778: "GOQ",
    833: "mM",
    889: "%",
    944: "W",
    1000: "@\u2014\u2026",
}
_WIDTHS = {letter: width / 1000 for width, letters in _GROUPS.items() for letter in letters}
_DIGIT_EM = 0.556
_BOLD = 1.07
_SAFETY = 1.03
"""Programs set text a little differently; a line too many is better than one cut off."""


def width_em(text: str) -> float:
    """Return the width of one line of Arial text in em.

    >>> round(width_em("mill edge"), 2)
    4.0
    """
    return sum(_WIDTHS.get(letter, _DIGIT_EM) for letter in text)


def lines_needed(text: str, room_points: float, size: float, *, bold: bool = False) -> int:
    """Return the lines that a wrapped text takes in a cell that wide, at that font size in points.

    >>> lines_needed("one two\\nthree", 200, 10)
    2
    """
    room = max(1.0, room_points / size / _SAFETY / (_BOLD if bold else 1.0))
    return sum(_wrapped(line, room) for line in text.split("\n"))


def _wrapped(line: str, room: float) -> int:
    lines, used = 1, 0.0
    space = _WIDTHS[" "]
    for word in line.replace("-", "- ").split(" "):
        width = width_em(word)
        if used and used + space + width > room:
            lines += 1
            used = 0.0
        used += width + (space if used else 0.0)
        # A word longer than the cell is broken inside.
        while used > room:
            lines += 1
            used -= room
    return lines
