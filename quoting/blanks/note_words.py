"""Lengths as the notes of this room say them: metric with the inch beside it."""

from __future__ import annotations

import re

from quoting.core import MM_PER_INCH

_BOTH = re.compile(r"(\d+\.\d mm) \((\d+\.\d{3}) in\)")


def both(length_mm: float) -> str:
    """Return a length for a note, in mm and inch.

    >>> both(622.3)
    '622.3 mm (24.500 in)'
    """
    return f"{length_mm:.1f} mm ({length_mm / MM_PER_INCH:.3f} in)"


def in_one_system(note: str, *, inch: bool) -> str:
    """Return a note with its lengths in inches or in mm alone, as a book of one shop shows them.

    >>> in_one_system("weld gap 3.2 mm (0.126 in) taken off", inch=True)
    'weld gap 0.126" taken off'
    """
    return _BOTH.sub(r'\2"' if inch else r"\1", note)


def count(number: int, word: str) -> str:
    """Return a count with its word in the singular or plural.

    >>> count(1, "seam"), count(2, "seam")
    ('1 seam', '2 seams')
    """
    return f"{number} {word}" if number == 1 else f"{number} {word}s"
