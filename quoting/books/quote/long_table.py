"""Tables of any length in a PDF: laid out a few pages at a time, so that each page costs the same."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cache
from typing import Any

_WINDOW = 150
"""Rows that are laid out at a time: more than a page holds, whose lowest row is 12 of its 842 points high."""

Rows = Sequence[Sequence[Any]]
Make = Callable[[Rows, Sequence[int], bool], Any]
"""From rows, those of them that are notes, and whether rows came before on an earlier page, to a table."""


def long_table(make: Make, rows: Rows, notes: Sequence[int], *, after: bool = False) -> Any:
    """Return a table whose first row comes again on every page, and that breaks between pages.

    It is what `make` makes of all rows at once, but that takes the square of the pages: the library goes
    over all that is left for each of them. `notes` are numbers of rows, `after` says that rows came before.
    """
    if len(rows) <= _WINDOW:
        return make(rows, notes, after)
    return _long_table_class()(make, rows, notes, after)


@cache
def _long_table_class() -> Any:
    from reportlab.platypus import Flowable  # noqa: PLC0415 - kept out of the start of the command

    class LongTable(Flowable):
        """The rows that are left, of which only the next ones are laid out."""

        def __init__(self, make: Make, rows: Rows, notes: Sequence[int], after: bool) -> None:
            super().__init__()
            self._given = (make, rows, notes)
            self._next = make(rows[:_WINDOW], [row for row in notes if row < _WINDOW], after)

        def wrap(self, width: float, height: float) -> Any:
            """Return the size of so much as is more than the page holds."""
            return self._next.wrapOn(getattr(self, "canv", None), width, height)

        def split(self, width: float, height: float) -> list[Any]:
            """Return the rows for this page and a table of all others; nothing when no row fits."""
            parts = self._next.splitOn(getattr(self, "canv", None), width, height)
            if not parts:
                return []
            make, rows, notes = self._given
            done = len(parts[0]._cellvalues) - 1  # without the heading, which stays
            rest = [row - done for row in notes if row > done]
            return [parts[0], long_table(make, [rows[0], *rows[done + 1 :]], rest, after=True)]

    return LongTable
