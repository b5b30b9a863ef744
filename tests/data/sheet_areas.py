"""Areas of merged cells, by their usual names such as A1:C2."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Area:
    """Rows and columns from 0, both ends included."""

    top: int
    left: int
    bottom: int
    right: int

    @classmethod
    def of(cls, text: str) -> Area:
        """Return the area of a name.

        >>> Area.of("B2:D3")
        Area(top=1, left=1, bottom=2, right=3)
        """
        first, last = text.split(":")
        return cls(*_corner(first), *_corner(last))


def _corner(text: str) -> tuple[int, int]:
    match = re.fullmatch(r"([A-Z])(\d+)", text)
    if match is None:
        raise ValueError(f"{text!r} is no cell in columns A to Z")
    return int(match[2]) - 1, ord(match[1]) - ord("A")


def area_at(areas: tuple[Area, ...], row: int, column: int) -> Area | None:
    """Return the area that covers a cell, or None."""
    for area in areas:
        if area.top <= row <= area.bottom and area.left <= column <= area.right:
            return area
    return None
