"""Page breaks that keep what belongs together on one page."""

from __future__ import annotations

from quoting.books.look.style import BookSheet


class Pages:
    """Counts the height of a page as rows are written, and breaks before a block that does not fit any more.

    For sheets printed at a fixed scale: a program that fits a sheet to the page leaves manual breaks out.
    `room_points` is the height of rows that a page holds at that scale.
    """

    def __init__(self, sheet: BookSheet, room_points: float) -> None:
        self.sheet, self.room_points = sheet, room_points
        self._breaks: list[int] = []
        self._from = 0

    def fits(self, row: int, points: float) -> bool:
        """Return whether a block of that height fits below the rows before `row`."""
        above = sum(self.sheet.points(index) for index in range(self._from, row))
        return above + points <= self.room_points

    def start_page(self, row: int) -> None:
        """Start a new page at this row."""
        if row > self._from:
            self._breaks.append(row)
            self._from = row

    def keep(self, first: int, last: int) -> None:
        """See that rows `first` to `last`, written already, stand on one page."""
        if not self.fits(last + 1, 0.0):
            self.start_page(first)

    def finish(self, last_row: int, last_column: int) -> None:
        """Set the page breaks and the area that prints."""
        self.sheet.raw.set_h_pagebreaks(self._breaks)
        self.sheet.raw.print_area(0, 0, last_row, last_column)
