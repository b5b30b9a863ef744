"""Sketches and plain text on pages of a PDF: mm from the top left corner of the printed area."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from pathlib import Path

from quoting.drawings.plate_sheet import one_line
from quoting.drawings.sketch.letters import Letters
from quoting.drawings.sketch.page_form import PageForm
from quoting.drawings.sketch.pdf_items import POINT, Canvas
from quoting.drawings.sketch.sketch import QUIET, Anchor, Pen, Sketch, Words
from quoting.drawings.sketch.text_rows import LEADING, broken, fitted, shortened

BOX_PEN, RULE_PEN = Pen(0.35), Pen(0.25)
_LABEL_MM = 2.85


class PdfPages:
    """Draws page after page; every text is drawn as text, whatever is in it."""

    def __init__(self, path: Path, paper: PageForm, letters: Letters, *, title: str, made: date) -> None:
        from reportlab.pdfgen.canvas import Canvas as RawCanvas  # noqa: PLC0415 - heavy

        width, height = paper.size_mm
        self.paper, self.letters = paper, letters
        self.width, self.height = paper.room_mm
        self._left = (width - self.width) / 2
        self._top = height - (height - self.height) / 2
        sides = (width * POINT, height * POINT)
        self._canvas = Canvas(RawCanvas(str(path), pagesize=sides, invariant=1, pageCompression=1), letters)
        self._canvas.raw.setTitle(one_line(title))
        self._canvas.raw.setCreator(f"rollwright, {made.isoformat()}")
        self._dry = False
        self.number = 1

    def turn(self) -> None:
        """Go on to the next page."""
        self._canvas.raw.showPage()
        self.number += 1

    @contextmanager
    def dry(self) -> Iterator[None]:
        """Draw nothing meanwhile: what is asked for is only measured."""
        self._dry = True
        try:
            yield
        finally:
            self._dry = False

    def save(self) -> None:
        """Close the last page and write the file, its streams as bytes: armour takes time and room."""
        from reportlab import rl_config  # noqa: PLC0415 - heavy

        before = rl_config.useA85
        rl_config.useA85 = 0
        try:
            self._canvas.raw.showPage()
            self._canvas.raw.save()
        finally:
            rl_config.useA85 = before

    def text(
        self,
        x: float,
        y: float,
        words: str,
        mm: float,
        *,
        bold: bool = False,
        anchor: Anchor = "start",
        room: float = 0.0,
    ) -> float:
        """Write one row with its base line at y, fitted into `room` if there is one; return its width."""
        return self.row(Words(x, y, words, mm, anchor, bold), room=room)

    def quiet(
        self, x: float, y: float, words: str, mm: float, *, anchor: Anchor = "start", room: float = 0.0
    ) -> float:
        """Write one row that stands back, like the name of a field or the foot of a page."""
        return self.row(Words(x, y, words, mm, anchor, ink=QUIET), room=room)

    def row(self, item: Words, *, room: float = 0.0, least: float = 0.7) -> float:
        """Write words with their base line at their y from the top; return their width.

        Where they are wider than `room` they are written smaller, down to the share `least` and 8 points,
        then shortened.
        """
        shown, size = one_line(item.text), item.mm
        if room:
            shown, size = fitted(self.letters, shown, size, room, least, bold=item.bold)
        if not self._dry:
            fits = shown == item.text and size == item.mm
            words = item if fits else replace(item, text=shown, mm=size)
            self._canvas.words(self._x(item.x), self._y(item.y), words)
        return self.letters.width_mm(shown, size, bold=item.bold)

    def lines(self, words: str, mm: float, room: float, *, bold: bool = False) -> list[str]:
        """Return a text broken into rows that fit `room`; words that are too long are broken too."""
        return broken(self.letters, words, mm, room, bold=bold)

    def block(
        self,
        x: float,
        y: float,
        words: str,
        mm: float,
        room: float,
        *,
        bold: bool = False,
        most: int = 0,
    ) -> float:
        """Write a text in rows from the top y; return the y below it. At most `most` rows, shortened then."""
        rows = self.lines(words, mm, room, bold=bold)
        if most and len(rows) > most:
            rest = " ".join(rows[most - 1 :])
            rows = [*rows[: most - 1], shortened(self.letters, rest, mm, room, bold=bold)]
        for row in rows:
            self.text(x, y + 0.82 * mm, row, mm, bold=bold)
            y += LEADING * mm
        return y

    def box(
        self, x: float, y: float, width: float, height: float, *, pen: Pen = BOX_PEN, fill: str = ""
    ) -> None:
        """Draw a rectangle from its top left corner."""
        if not self._dry:
            self._canvas.box(self._x(x), self._y(y + height), width * POINT, height * POINT, pen, fill)

    def rule(self, x: float, y: float, x2: float, y2: float, *, pen: Pen = RULE_PEN) -> None:
        """Draw a straight line."""
        if not self._dry:
            self._canvas.pen(pen)
            self._canvas.raw.line(self._x(x), self._y(y), self._x(x2), self._y(y2))

    def entry(self, x: float, y: float, width: float, height: float, label: str) -> None:
        """Draw a box to write in, its name small in the corner."""
        self.box(x, y, width, height)
        self.quiet(x + 1, y + 3.1, label, _LABEL_MM, room=width - 2)

    def put(self, sketch: Sketch, x: float, y: float, *, scale: float = 1.0) -> tuple[float, float]:
        """Draw a sketch with its top left corner at (x, y); return its width and height on paper."""
        width, height = (side * scale for side in sketch.size_mm)
        if not self._dry:
            self._canvas.sketch(sketch, self._x(x), self._y(y + height), scale)
        return width, height

    def _x(self, x: float) -> float:
        return (self._left + x) * POINT

    def _y(self, y: float) -> float:
        return (self._top - y) * POINT
