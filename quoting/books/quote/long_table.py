"""Tables of any length in a PDF: laid out a page or two at a time, each row measured once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

_WINDOW = 80
"""Rows that are laid out at a time: more than a page holds, whose lowest row is 12 of its 842 points high."""

_FEW = 12
"""Rows of a table that hardly ever breaks."""

Rows = Sequence[Sequence[Any]]


@dataclass(frozen=True, slots=True)
class RowsLeft:
    """The rows of a table that are left, the first of them its heading.

    `notes` are numbers of rows that belong to the row above them, `heights` the heights in points that are
    known of the first rows. `after`: rows came before, on an earlier page.
    """

    rows: Rows
    notes: Sequence[int]
    heights: Sequence[float | None] = ()
    after: bool = False

    def first(self, count: int) -> RowsLeft:
        """Return so many rows, a height for each of them."""
        heights = (*self.heights[:count], *[None] * (min(count, len(self.rows)) - len(self.heights)))
        return RowsLeft(self.rows[:count], [row for row in self.notes if row < count], heights, self.after)

    def beyond(self, done: int, heights: Sequence[float | None]) -> RowsLeft:
        """Return the heading and what comes after so many rows below it."""
        notes = [row - done for row in self.notes if row > done]
        rows = [self.rows[0], *self.rows[done + 1 :]]
        return RowsLeft(rows, notes, [heights[0], *heights[done + 1 :]], after=True)


Make = Callable[[RowsLeft], Any]


def long_table(make: Make, part: RowsLeft) -> Any:
    """Return a table whose first row comes again on every page, and that breaks between pages.

    It is what `make` makes of all rows at once, but that takes the square of the pages: the library goes
    over all that is left for each of them, and measures every row again.
    """
    if len(part.rows) <= _FEW:
        return make(part.first(_FEW))
    return _long_table_class()(make, part)


@cache
def _long_table_class() -> Any:
    from reportlab.platypus import Flowable  # noqa: PLC0415 - kept out of the start of the command

    class LongTable(Flowable):
        """The rows that are left, of which only the next ones are laid out."""

        def __init__(self, make: Make, part: RowsLeft) -> None:
            super().__init__()
            self._make, self._part = make, part
            self._next = make(part.first(_WINDOW))

        def wrap(self, width: float, height: float) -> Any:
            """Return the size, of a long table of so much as is more than the page holds."""
            size = self._next.wrapOn(getattr(self, "canv", None), width, height)
            self._next._argH = list(self._next._rowHeights)  # else each part of it is measured again
            return size

        def split(self, width: float, height: float) -> list[Any]:
            """Return the rows for this page and a table of all others; nothing when no row fits."""
            parts = self._next.splitOn(getattr(self, "canv", None), width, height)
            if not parts:
                return []
            done = len(parts[0]._cellvalues) - 1  # without the heading, which stays
            return [parts[0], long_table(self._make, self._part.beyond(done, self._next._argH))]

        def draw(self) -> None:
            """Draw all rows, where they fit a page."""
            self._next.canv = self.canv
            self._next.draw()

    return LongTable
