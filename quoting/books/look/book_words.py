"""Words that the books share: a part with its ends, a day, a flat blank."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from quoting.core import Ends, OrderLine, Outline, Rectangle, format_length, part_words

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_ENDS = {
    Ends.LEAVE_FLAT: "ends left flat",
    Ends.PRE_BEND: "ends pre-bent",
    Ends.TRIM: "flat ends trimmed off after rolling",
}


def day_words(day: date) -> str:
    """Return a date that reads the same everywhere.

    >>> day_words(date(2026, 4, 1))
    '1 Apr 2026'
    """
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def ordered_words(line: OrderLine, *, inch: bool, ends: Ends | None = None) -> str:
    """Return the part with what happens to its ends; `ends` is what was chosen, where something was."""
    chosen = ends or line.ends
    part = part_words(line, inch=inch)
    return f"{part}, {_ENDS[chosen]}" if chosen else part


def outline_words(outline: Outline, *, inch: bool) -> str:
    """Return the size of a flat blank, width across the roll first.

    >>> outline_words(Rectangle(609.6, 1828.8), inch=True)
    '24" x 72"'
    """

    def size(mm: float) -> str:
        return format_length(round(mm, 2), inch=inch)

    if isinstance(outline, Rectangle):
        return f"{size(outline.width_mm)} x {size(outline.length_mm)}"
    radii = f"R {size(outline.outer_radius_mm)} / {size(outline.inner_radius_mm)}"
    return f"ring sector {radii}, {outline.angle_deg:.2f} degrees"


def lines_words(numbers: Sequence[str]) -> str:
    """Return line numbers as a customer reads them.

    >>> lines_words(["1"]), lines_words(["1", "4"])
    ('line 1', 'lines 1, 4')
    """
    return f"line{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}"
