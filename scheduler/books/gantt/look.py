"""How a Gantt picture looks: fills and patterns that survive a grey copy, and the key to them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from math import floor
from typing import Literal

from quoting.drawings import Blocks, Item, Line, Pen, Vertex, Words, box_path
from quoting.shop import Family

Pattern = Literal["", "slant", "dots", "lines"]
Box = tuple[float, float, float, float]
"""Low corner and extents, in mm of the picture."""

INK = "#16242D"
CLOSED = "#DADEE0"
OVERTIME_INK = "#B5BBBE"
WHITE = "#FFFFFF"
_SLANT_MM, _DOT_MM, _DOTS_MM, _LINE_MM, _LINES_MM = 1.0, 0.35, 1.3, 0.18, 1.1
_KEY_MM, _KEY_WIDE, _KEY_HIGH, _BETWEEN = 2.3, 7.0, 2.8, 5.0
_LETTER = 0.58
"""Width of a letter of the picture's font, as a share of its size."""


@dataclass(frozen=True, slots=True)
class BlockLook:
    """The fill of a block, its pattern with its colour, and the width of its edge in mm."""

    fill: str
    pattern: Pattern = ""
    ink: str = INK
    line: float = 0.0


LOOKS: Mapping[Family, BlockLook] = {
    Family.CARBON: BlockLook("#A9BECB", line=0.2),
    Family.STAINLESS: BlockLook(WHITE, "dots", line=0.2),
    Family.ALUMINIUM: BlockLook(WHITE, "lines", line=0.2),
}
"""Families differ by pattern, so that a grey copy tells them apart."""
SETUP = BlockLook(WHITE, "slant", line=0.14)
SHUT = BlockLook(CLOSED)
OPEN = BlockLook(WHITE)
OVERTIME = BlockLook(WHITE, "dots", OVERTIME_INK)


def block(box: Box, look: BlockLook) -> Iterator[Item]:
    """Yield one block with its pattern and its edge."""
    hatch = _SLANT_MM if look.pattern == "slant" else 0.0
    yield Line(box_path(*box), None, fill=look.fill, hatch=hatch)
    if look.pattern in ("dots", "lines"):
        yield Blocks(tuple(_dots(box) if look.pattern == "dots" else _lines(box)), look.ink)
    if look.line:
        yield Line(box_path(*box), Pen(look.line, INK))


def _dots(box: Box) -> Iterator[Box]:
    x, y, wide, high = box
    columns, rows = floor((wide - _DOT_MM) / _DOTS_MM) + 1, floor((high - _DOT_MM) / _DOTS_MM) + 1
    left = x + (wide - (columns - 1) * _DOTS_MM - _DOT_MM) / 2
    low = y + (high - (rows - 1) * _DOTS_MM - _DOT_MM) / 2
    for column in range(max(columns, 0)):
        for row in range(max(rows, 0)):
            yield left + column * _DOTS_MM, low + row * _DOTS_MM, _DOT_MM, _DOT_MM


def _lines(box: Box) -> Iterator[Box]:
    x, y, wide, high = box
    for row in range(1, floor(high / _LINES_MM) + 1):
        if row * _LINES_MM < high:
            yield x, y + row * _LINES_MM, wide, _LINE_MM


def flag(x: float, y: float) -> Line:
    """Return the black flag over the end of a bar that is late, its point at (x, y)."""
    corners = (x, y), (x + 0.95, y + 1.7), (x - 0.95, y + 1.7)
    return Line(tuple(Vertex(*corner) for corner in corners), None, fill="#000000")


def legend(
    wide: float, y: float, *, families: Collection[Family], overtime: bool, late: bool, cutting: bool
) -> Iterator[Item]:
    """Yield the key in one row, in the middle of a picture so wide: only what is on it."""
    keys: list[tuple[str, BlockLook | None]] = [("set-up", SETUP)]
    keys += [(family.value, LOOKS[family]) for family in sorted(families, key=list(LOOKS).index)]
    keys.append(("closed or break", SHUT))
    if overtime:
        keys.append(("overtime", OVERTIME))
    if late:
        keys.append(("late", None))
    if cutting:
        keys.append(("cutting bars: number on the sheet Cutting", OPEN))
    x = (wide - sum(_key_wide(name, look) for name, look in keys)) / 2
    for name, look in keys:
        if look is None:
            yield flag(x + _KEY_WIDE / 2, y)
        elif look is not OPEN:
            yield from block((x, y - 0.4, _KEY_WIDE, _KEY_HIGH), look)
        off = 0.0 if look is OPEN else _KEY_WIDE + 1.5
        yield Words(x + off, y, name, _KEY_MM, ink=INK)
        x += _key_wide(name, look)


def _key_wide(name: str, look: BlockLook | None) -> float:
    words = _LETTER * _KEY_MM * len(name) + _BETWEEN
    return words if look is OPEN else words + _KEY_WIDE + 1.5
