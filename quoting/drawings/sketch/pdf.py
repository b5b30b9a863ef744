"""Sketches and plain text on pages of a PDF: mm from the top left corner of the printed area."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

from quoting.core import PAPERS
from quoting.drawings.plate_sheet import one_line
from quoting.drawings.sketch.letters import Letters
from quoting.drawings.sketch.sketch import QUIET, Anchor, Blocks, Disc, Line, Pen, Sketch, Words, corners

_POINT = 72 / 25.4
SAFE_MM = (190.0, 259.0)
"""Width and height that both Letter and A4 have inside margins of 10 mm."""
_LEADING = 1.22
BOX_PEN, RULE_PEN = Pen(0.35), Pen(0.25)


@dataclass(frozen=True, slots=True)
class PageForm:
    """The paper by its name in the shop's book, and whether it lies on its side."""

    name: str = "letter"
    landscape: bool = False

    @property
    def size_mm(self) -> tuple[float, float]:
        """Return width and height of the sheet."""
        width, height = PAPERS[self.name].width_mm, PAPERS[self.name].height_mm
        return (height, width) if self.landscape else (width, height)

    @property
    def room_mm(self) -> tuple[float, float]:
        """Return width and height of the printed area, the same on both papers."""
        return SAFE_MM[::-1] if self.landscape else SAFE_MM


@cache
def _colour(name: str) -> Any:
    from reportlab.lib.colors import HexColor  # noqa: PLC0415 - heavy

    return HexColor(name)


class PdfPages:
    """Draws page after page; every text is drawn as text, whatever is in it."""

    def __init__(self, path: Path, paper: PageForm, letters: Letters, *, title: str, made: date) -> None:
        from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415 - heavy

        width, height = paper.size_mm
        self.paper, self.letters = paper, letters
        self.width, self.height = paper.room_mm
        self._left = (width - self.width) / 2
        self._top = height - (height - self.height) / 2
        self._canvas: Any = Canvas(
            str(path), pagesize=(width * _POINT, height * _POINT), invariant=1, pageCompression=1
        )
        self._canvas.setTitle(one_line(title))
        self._canvas.setCreator(f"rollwright, {made.isoformat()}")
        self.number = 1

    def turn(self) -> None:
        """Go on to the next page."""
        self._canvas.showPage()
        self.number += 1

    def save(self) -> None:
        """Close the last page and write the file, its streams as bytes: armour takes time and room."""
        from reportlab import rl_config  # noqa: PLC0415 - heavy

        before = rl_config.useA85
        rl_config.useA85 = 0
        try:
            self._canvas.showPage()
            self._canvas.save()
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

        Where they are wider than `room` they are written smaller, down to the share `least`, then shortened.
        """
        shown, size = one_line(item.text), item.mm
        wide = self.letters.width_mm(shown, size, bold=item.bold)
        if room and wide > room:
            size = max(0.999 * size * room / wide, least * size)
            shown = self._shortened(shown, size, room, bold=item.bold)
            wide = self.letters.width_mm(shown, size, bold=item.bold)
        self._put(self._x(item.x), self._y(item.y), replace(item, text=shown, mm=size))
        return wide

    def lines(self, words: str, mm: float, room: float, *, bold: bool = False) -> list[str]:
        """Return a text broken into rows that fit `room`; words that are too long are broken too."""
        rows: list[str] = []
        for part in words.split("\n"):
            row = ""
            for word in one_line(part).split(" "):
                longer = f"{row} {word}" if row else word
                if self.letters.width_mm(longer, mm, bold=bold) <= room:
                    row = longer
                    continue
                if row:
                    rows.append(row)
                *whole, row = self._broken(word, mm, room, bold=bold)
                rows += whole
            rows.append(row)
        return rows

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
            rows = [*rows[: most - 1], self._shortened(rest, mm, room, bold=bold)]
        for row in rows:
            self.text(x, y + 0.82 * mm, row, mm, bold=bold)
            y += _LEADING * mm
        return y

    def box(
        self, x: float, y: float, width: float, height: float, *, pen: Pen = BOX_PEN, fill: str = ""
    ) -> None:
        """Draw a rectangle from its top left corner."""
        self._pen(pen)
        if fill:
            self._canvas.setFillColor(_colour(fill))
        sides = (self._x(x), self._y(y + height), width * _POINT, height * _POINT)
        self._canvas.rect(*sides, stroke=1 if pen.mm else 0, fill=1 if fill else 0)

    def rule(self, x: float, y: float, x2: float, y2: float, *, pen: Pen = RULE_PEN) -> None:
        """Draw a straight line."""
        self._pen(pen)
        self._canvas.line(self._x(x), self._y(y), self._x(x2), self._y(y2))

    def entry(self, x: float, y: float, width: float, height: float, label: str) -> None:
        """Draw a box to write in, its name small in the corner."""
        self.box(x, y, width, height)
        self.quiet(x + 1, y + 3.1, label, 2.85, room=width - 2)

    def put(self, sketch: Sketch, x: float, y: float, *, scale: float = 1.0) -> tuple[float, float]:
        """Draw a sketch with its top left corner at (x, y); return its width and height on paper."""
        width, height = (side * scale for side in sketch.size_mm)
        canvas = self._canvas
        canvas.saveState()
        frame = canvas.beginPath()
        frame.rect(self._x(x), self._y(y + height), width * _POINT, height * _POINT)
        canvas.clipPath(frame, stroke=0, fill=0)
        unit = scale * _POINT / sketch.per_mm
        origin = (self._x(x) - sketch.x * unit, self._y(y + height) - sketch.y * unit)
        for item in sketch.items:
            if isinstance(item, Blocks):
                self._blocks(item, origin, unit)
            else:
                self._item(item, origin, unit, scale)
        canvas.restoreState()
        return width, height

    def _item(
        self, item: Line | Disc | Words, origin: tuple[float, float], unit: float, scale: float
    ) -> None:
        if isinstance(item, Words):
            at = origin[0] + item.x * unit, origin[1] + item.y * unit
            self._put(*at, item, scale)
            return
        canvas = self._canvas
        self._pen(item.pen, scale)
        if item.fill:
            canvas.setFillColor(_colour(item.fill))
        stroke, fill = 1 if item.pen else 0, 1 if item.fill else 0
        if isinstance(item, Disc):
            radius = item.radius * scale * _POINT if item.mm else item.radius * unit
            canvas.circle(origin[0] + item.x * unit, origin[1] + item.y * unit, radius, stroke, fill)
            return
        points = [(origin[0] + x * unit, origin[1] + y * unit) for x, y in corners(item)]
        path = self._path(points, closed=item.closed)
        if item.hatch:
            if fill:
                canvas.drawPath(path, stroke=0, fill=1)
            self._hatch(points, item.hatch * scale * _POINT)
            self._pen(item.pen, scale)
            path, fill = self._path(points, closed=item.closed), 0
        canvas.drawPath(path, stroke=stroke, fill=fill)

    def _blocks(self, item: Blocks, origin: tuple[float, float], unit: float) -> None:
        path = self._canvas.beginPath()
        for x, y, dx, dy in item.boxes:
            path.rect(origin[0] + x * unit, origin[1] + y * unit, dx * unit, dy * unit)
        self._canvas.setFillColor(_colour(item.fill))
        self._canvas.drawPath(path, stroke=0, fill=1)

    def _path(self, points: Sequence[tuple[float, float]], *, closed: bool) -> Any:
        path = self._canvas.beginPath()
        path.moveTo(*points[0])
        for point in points[1:]:
            path.lineTo(*point)
        if closed:
            path.close()
        return path

    def _hatch(self, points: Sequence[tuple[float, float]], step: float) -> None:
        """Fill an outline with slanting lines."""
        canvas = self._canvas
        canvas.saveState()
        canvas.clipPath(self._path(points, closed=True), stroke=0, fill=0)
        canvas.setStrokeColor(_colour(QUIET))
        canvas.setLineWidth(0.25 * _POINT)
        left, right = min(x for x, _ in points), max(x for x, _ in points)
        low, high = min(y for _, y in points), max(y for _, y in points)
        rise = high - low
        start = left - rise
        while start < right:
            canvas.line(start, low, start + rise, high)
            start += step * 1.41
        canvas.restoreState()

    def _put(self, x: float, y: float, item: Words, scale: float = 1.0) -> None:
        canvas, size = self._canvas, item.mm * scale * _POINT
        shown = one_line(item.text)
        wide = self.letters.width_mm(shown, item.mm * scale, bold=item.bold) * _POINT
        left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[item.anchor]
        if item.turn:
            canvas.saveState()
            canvas.translate(x, y)
            canvas.rotate(item.turn)
            x, y = 0.0, 0.0
        if item.behind:
            canvas.setFillColor(_colour(item.behind))
            canvas.rect(x + left - 0.1 * size, y - 0.2 * size, wide + 0.2 * size, size, stroke=0, fill=1)
        canvas.setFillColor(_colour(item.ink))
        at = x + left
        for font, part in self.letters.runs(shown, bold=item.bold):
            canvas.setFont(font, size)
            canvas.drawString(at, y, part)
            at += canvas.stringWidth(part, font, size)
        if item.turn:
            canvas.restoreState()

    def _pen(self, pen: Pen | None, scale: float = 1.0) -> None:
        if pen is None:
            return
        self._canvas.setStrokeColor(_colour(pen.ink))
        self._canvas.setLineWidth(pen.mm * _POINT)
        self._canvas.setDash([part * scale * _POINT for part in pen.dash])

    def _shortened(self, text: str, mm: float, room: float, *, bold: bool) -> str:
        if self.letters.width_mm(text, mm, bold=bold) <= room:
            return text
        while text and self.letters.width_mm(f"{text}...", mm, bold=bold) > room:
            text = text[:-1]
        return f"{text.rstrip()}..."

    def _broken(self, word: str, mm: float, room: float, *, bold: bool) -> list[str]:
        parts = [""]
        for letter in word:
            if parts[-1] and self.letters.width_mm(parts[-1] + letter, mm, bold=bold) > room:
                parts.append("")
            parts[-1] += letter
        return parts

    def _x(self, x: float) -> float:
        return (self._left + x) * _POINT

    def _y(self, y: float) -> float:
        return (self._top - y) * _POINT
