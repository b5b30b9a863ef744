"""The rows of the invented customers' sheets, from text tables that show the cells as they would be typed.

Cells stand between bars. A number is a number, 2026-12-09 a date, anything else text; an apostrophe makes
text of what looks like a number, as it does in a spreadsheet program.
"""

from __future__ import annotations

import re
from datetime import date, datetime
from pathlib import Path
from typing import TypeAlias

Cell: TypeAlias = str | float | datetime | None
Row: TypeAlias = tuple[Cell, ...]

HERE = Path(__file__).parent
_NUMBER = re.compile(r"-?\d*\.?\d+")
_DAY = re.compile(r"\d{4}-\d\d-\d\d")


def order_rows(name: str) -> tuple[Row, ...]:
    """Return the heading row and the rows of `orders-<name>.txt`; a line of bars alone is an empty row."""
    lines = (HERE / f"orders-{name}.txt").read_text("utf-8").splitlines()
    return tuple(tuple(_cell(text.strip()) for text in line.split("|")) for line in lines)


def _cell(text: str) -> Cell:
    if not text:
        return None
    if _DAY.fullmatch(text):
        return datetime.combine(date.fromisoformat(text), datetime.min.time())
    if _NUMBER.fullmatch(text):
        return float(text)
    return text.removeprefix("'")
