"""How a text fits its room: broken into rows, written smaller, or shortened with three dots."""

from __future__ import annotations

from quoting.drawings.plate_sheet import one_line
from quoting.drawings.sketch.letters import Letters

LEAST_MM = 2.85
"""The smallest letters on paper, 8 points: nothing is written smaller to make it fit."""
LEADING = 1.22


def broken(letters: Letters, words: str, mm: float, room: float, *, bold: bool = False) -> list[str]:
    """Return a text in rows that fit `room`; words that are too long are broken too."""
    rows: list[str] = []
    for part in words.split("\n"):
        row = ""
        for word in one_line(part).split(" "):
            longer = f"{row} {word}" if row else word
            if letters.width_mm(longer, mm, bold=bold) <= room:
                row = longer
                continue
            if row:
                rows.append(row)
            *whole, row = _pieces(letters, word, mm, room, bold=bold)
            rows += whole
        rows.append(row)
    return rows


def fitted(
    letters: Letters, words: str, mm: float, room: float, least: float, *, bold: bool = False
) -> tuple[str, float]:
    """Return a row and the size of letters at which it fits `room`.

    It is written smaller down to the share `least`, never below 8 points, then shortened.
    """
    wide = letters.width_mm(words, mm, bold=bold)
    if wide <= room:
        return words, mm
    size = max(0.999 * mm * room / wide, least * mm, min(mm, LEAST_MM))
    return shortened(letters, words, size, room, bold=bold), size


def shortened(letters: Letters, text: str, mm: float, room: float, *, bold: bool) -> str:
    """Return a text that fits `room`, its end as three dots where it does not."""
    if letters.width_mm(text, mm, bold=bold) <= room:
        return text
    low, high = 0, len(text)  # a longer beginning is never narrower
    while low < high:
        middle = (low + high + 1) // 2
        if letters.width_mm(f"{text[:middle]}...", mm, bold=bold) > room:
            high = middle - 1
        else:
            low = middle
    return f"{text[:low].rstrip()}..."


def _pieces(letters: Letters, word: str, mm: float, room: float, *, bold: bool) -> list[str]:
    if letters.width_mm(word, mm, bold=bold) <= room:
        return [word]
    parts = [""]
    for letter in word:
        if parts[-1] and letters.width_mm(parts[-1] + letter, mm, bold=bold) > room:
            parts.append("")
        parts[-1] += letter
    return parts
