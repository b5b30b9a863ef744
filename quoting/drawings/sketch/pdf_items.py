"""Writes the items of a sketch, and rows of text, with the PDF library's canvas."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

from quoting.drawings.plate_sheet import one_line
from quoting.drawings.sketch.letters import Letters, width_at_one
from quoting.drawings.sketch.sketch import QUIET, Blocks, Disc, Item, Line, Pen, Sketch, Words, corners

POINT = 72 / 25.4


@cache
def _colour(name: str) -> Any:
    from reportlab.lib.colors import HexColor  # noqa: PLC0415 - heavy

    return HexColor(name)


class Canvas:
    """A canvas of the PDF library: points from the low left corner, sizes in mm of paper."""

    def __init__(self, raw: Any, letters: Letters) -> None:
        self.raw, self.letters = raw, letters

    def sketch(self, sketch: Sketch, x: float, y: float, scale: float) -> None:
        """Draw a sketch with its low left corner at (x, y), and nothing outside of it."""
        width, height = (side * scale * POINT for side in sketch.size_mm)
        raw = self.raw
        raw.saveState()
        frame = raw.beginPath()
        frame.rect(x, y, width, height)
        raw.clipPath(frame, stroke=0, fill=0)
        unit = scale * POINT / sketch.per_mm
        origin = (x - sketch.x * unit, y - sketch.y * unit)
        for item in sketch.items:
            self._item(item, origin, unit, scale)
        raw.restoreState()

    def words(self, x: float, y: float, item: Words, scale: float = 1.0) -> None:
        """Write a row with its base line at (x, y), whatever is in it as text."""
        raw, size = self.raw, item.mm * scale * POINT
        shown = one_line(item.text)
        left = 0.0
        if item.anchor != "start" or item.behind:
            wide = self.letters.width_mm(shown, item.mm * scale, bold=item.bold) * POINT
            left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[item.anchor]
        if item.turn:
            raw.saveState()
            raw.translate(x, y)
            raw.rotate(item.turn)
            x, y = 0.0, 0.0
        if item.behind:
            raw.setFillColor(_colour(item.behind))
            raw.rect(x + left - 0.1 * size, y - 0.2 * size, wide + 0.2 * size, size, stroke=0, fill=1)
        raw.setFillColor(_colour(item.ink))
        at = x + left
        for font, part in self.letters.runs(shown, bold=item.bold):
            raw.setFont(font, size)
            raw.drawString(at, y, part)
            at += width_at_one(part, font) * size
        if item.turn:
            raw.restoreState()

    def box(self, x: float, y: float, width: float, height: float, pen: Pen, fill: str) -> None:
        """Draw a rectangle from its low left corner."""
        self.pen(pen)
        if fill:
            self.raw.setFillColor(_colour(fill))
        self.raw.rect(x, y, width, height, stroke=1 if pen.mm else 0, fill=1 if fill else 0)

    def pen(self, pen: Pen | None, scale: float = 1.0) -> None:
        """Take up a pen."""
        if pen is None:
            return
        self.raw.setStrokeColor(_colour(pen.ink))
        self.raw.setLineWidth(pen.mm * POINT)
        self.raw.setDash([part * scale * POINT for part in pen.dash])

    def _item(self, item: Item, origin: tuple[float, float], unit: float, scale: float) -> None:
        if isinstance(item, Blocks):
            self._blocks(item, origin, unit)
        elif isinstance(item, Words):
            self.words(origin[0] + item.x * unit, origin[1] + item.y * unit, item, scale)
        elif isinstance(item, Disc):
            self._disc(item, origin, unit, scale)
        else:
            self._line(item, origin, unit, scale)

    def _disc(self, item: Disc, origin: tuple[float, float], unit: float, scale: float) -> None:
        stroke, fill = self._ready(item, scale)
        radius = item.radius * scale * POINT if item.mm else item.radius * unit
        self.raw.circle(origin[0] + item.x * unit, origin[1] + item.y * unit, radius, stroke, fill)

    def _line(self, item: Line, origin: tuple[float, float], unit: float, scale: float) -> None:
        stroke, fill = self._ready(item, scale)
        points = [(origin[0] + x * unit, origin[1] + y * unit) for x, y in corners(item)]
        path = self._path(points, closed=item.closed)
        if item.hatch:
            if fill:
                self.raw.drawPath(path, stroke=0, fill=1)
            self._hatch(points, item.hatch * scale * POINT)
            self.pen(item.pen, scale)
            path, fill = self._path(points, closed=item.closed), 0
        self.raw.drawPath(path, stroke=stroke, fill=fill)

    def _ready(self, item: Line | Disc, scale: float) -> tuple[int, int]:
        """Take up an item's pen and colour; return whether its outline and its inside are drawn."""
        self.pen(item.pen, scale)
        if item.fill:
            self.raw.setFillColor(_colour(item.fill))
        return 1 if item.pen else 0, 1 if item.fill else 0

    def _blocks(self, item: Blocks, origin: tuple[float, float], unit: float) -> None:
        """Fill all rectangles as one path, in the sketch's own unit: its numbers are whole ones in a code."""
        raw = self.raw
        raw.saveState()
        raw.setFillColor(_colour(item.fill))
        raw.transform(unit, 0, 0, unit, *origin)
        boxes = " ".join(["%g %g %g %g re" % box for box in item.boxes])  # noqa: UP031 - half the time
        raw.addLiteral(f"{boxes} f")
        raw.restoreState()

    def _path(self, points: Sequence[tuple[float, float]], *, closed: bool) -> Any:
        path = self.raw.beginPath()
        path.moveTo(*points[0])
        for point in points[1:]:
            path.lineTo(*point)
        if closed:
            path.close()
        return path

    def _hatch(self, points: Sequence[tuple[float, float]], step: float) -> None:
        """Fill an outline with slanting lines."""
        raw = self.raw
        raw.saveState()
        raw.clipPath(self._path(points, closed=True), stroke=0, fill=0)
        raw.setStrokeColor(_colour(QUIET))
        raw.setLineWidth(0.25 * POINT)
        left, right = min(x for x, _ in points), max(x for x, _ in points)
        low, high = min(y for _, y in points), max(y for _, y in points)
        rise = high - low
        start = left - rise
        while start < right:
            raw.line(start, low, start + rise, high)
            start += step * 1.41
        raw.restoreState()
