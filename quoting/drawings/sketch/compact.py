"""A sketch as plain values for a page that draws it itself: whole tenths of a mm of paper, y downwards."""

from __future__ import annotations

from typing import Any

from quoting.drawings.plate_sheet import one_line
from quoting.drawings.sketch.sketch import QUIET, Blocks, Disc, Line, Sketch, Words, corners

_UNIT = 10


def sketch_values(sketch: Sketch) -> dict[str, Any]:
    """Return width, height, title and items of a sketch, as `scheduler/board/page.js` draws them.

    Items are lists: `p` path data, pen width, pen colour, fill, dashes; `c` centre, radius, fill; `t` place,
    text, size, anchor, bold, turn, colour, colour behind. Values at the end that say nothing are left out.
    """
    drawer = _Values(sketch)
    width, height = (round(side * _UNIT) for side in sketch.size_mm)
    items = [values for item in sketch.items if (values := drawer.item(item))]
    return {"w": width, "h": height, "title": one_line(sketch.title), "items": items}


class _Values:
    def __init__(self, sketch: Sketch) -> None:
        self._sketch = sketch
        self._scale = _UNIT / sketch.per_mm
        self._top = sketch.y + sketch.height

    def _at(self, x: float, y: float) -> tuple[int, int]:
        return round((x - self._sketch.x) * self._scale), round((self._top - y) * self._scale)

    def item(self, item: Line | Disc | Words | Blocks) -> list[Any]:
        """Return one item as values, empty for a line that has no length on paper."""
        if isinstance(item, Line):
            return self._line(item)
        if isinstance(item, Disc):
            radius = round(item.radius * (_UNIT if item.mm else self._scale))
            return _short(["c", *self._at(item.x, item.y), radius, item.fill])
        if isinstance(item, Words):
            anchor = "" if item.anchor == "start" else item.anchor
            look = [round(item.mm * _UNIT), anchor or None, int(item.bold), round(item.turn)]
            ink = item.ink if item.ink == QUIET else ""
            return _short(["t", *self._at(item.x, item.y), one_line(item.text), *look, ink, item.behind])
        boxes = []
        for x, y, dx, dy in item.boxes:
            (left, low), (right, high) = self._at(x, y), self._at(x + dx, y + dy)
            boxes.append(f"M{left} {low}H{right}V{high}H{left}Z")
        return ["p", "".join(boxes), 0, "", item.fill]

    def _line(self, item: Line) -> list[Any]:
        points: list[tuple[int, int]] = []
        for point in corners(item):
            at = self._at(*point)
            if not points or at != points[-1]:
                points.append(at)
        if len(points) < 2:
            return []
        data = "M" + "L".join(f"{x} {y}" for x, y in points) + ("Z" if item.closed else "")
        pen = item.pen
        dash = " ".join(f"{round(part * _UNIT)}" for part in pen.dash) if pen else ""
        look = [round(pen.mm * _UNIT), pen.ink] if pen else [0, ""]
        return _short(["p", data, *look, item.fill, dash])


def _short(values: list[Any]) -> list[Any]:
    """Return values without those at the end that say nothing."""
    while values and values[-1] in ("", 0, None):
        values.pop()
    return values
