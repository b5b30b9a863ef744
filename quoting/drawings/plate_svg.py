"""One cut plate as an SVG drawing: to a round scale, one user unit = 1 mm of plate, greys that print.

Pieces carry id and size, drops are hatched with size and value, shear strokes are numbered in their order,
an arrow shows the grain. A piece too narrow for its id carries a letter, which the list below explains. The
same input gives the same bytes.
"""

from __future__ import annotations

from collections import Counter
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from quoting.drawings.cut_path import Path, arc_radius, box_path, middle_of, placed_path, plate_path, room_in
from quoting.drawings.plate_sheet import PlateSheet, legible_rows, letter_height, one_line
from quoting.drawings.stroke_marks import CIRCLE_MM, Box, mark_places
from quoting.nesting import Placement, ShearCut

SCALES = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100)
_PAPER_WIDTH_MM, _PLATE_HEIGHT_MM = 255.0, 130.0
"""What a landscape page holds between its margins, on the smaller of Letter and A4, with the list below."""
_MARGIN_MM, _TEXT_MM, _LEGIBLE_MM = 4.0, 3.0, 1.6
_LETTERS = "abcdefghijkmnpqrstuvwxyz"
_ROW_MM = 5.0
_INK, _PIECE, _SCRAP, _QUIET = "#1F3A4A", "#E8EEF1", "#C9CDD0", "#5F686D"
_FONT = "Arial, Helvetica, sans-serif"


def scale_of(length_mm: float, width_mm: float) -> int:
    """Return n of the round scale 1:n at which a plate of this size fits a landscape page.

    >>> scale_of(6096, 2438.4)
    25
    """
    room = _PAPER_WIDTH_MM - 2 * _MARGIN_MM
    fits = (n for n in SCALES if length_mm / n <= room and width_mm / n <= _PLATE_HEIGHT_MM)
    return next(fits, max(SCALES[-1], round(max(length_mm / room, width_mm / _PLATE_HEIGHT_MM) + 0.5)))


def plate_svg(sheet: PlateSheet) -> str:
    """Return the drawing as SVG text."""
    return _Drawing(sheet).text()


class _Drawing:
    """Places everything; geometry in mm of plate with y upwards, text in mm of plate with y downwards."""

    def __init__(self, sheet: PlateSheet) -> None:
        self._sheet, self._plate = sheet, sheet.plate
        self._n = scale_of(self._plate.length_mm, self._plate.width_mm)
        kinds = Counter(placed.piece for placed in sheet.cut.placements)
        self._kinds = tuple(kinds.items())
        self._keys = self._key_letters()
        self._written: list[Box] = []
        above = (len(sheet.heading) + 0.8) * _ROW_MM
        below = (len(self._kinds) + 3.2) * _ROW_MM
        self._top, left = -above * self._n, -_MARGIN_MM * self._n
        width, height = _PAPER_WIDTH_MM, above + self._plate.width_mm / self._n + below
        self._root = Element(
            "svg",
            {
                "xmlns": "http://www.w3.org/2000/svg",
                "width": f"{_number(width)}mm",
                "height": f"{_number(height)}mm",
                "viewBox": " ".join(
                    _number(value) for value in (left, self._top, width * self._n, height * self._n)
                ),
                "font-family": _FONT,
                "fill": _INK,
            },
        )

    def text(self) -> str:
        """Draw all of it and return the file's text."""
        self._definitions()
        self._heading()
        shapes = SubElement(self._root, "g", {"transform": f"matrix(1 0 0 -1 0 {self._y(0)})"})
        self._shapes(shapes)
        self._cuts(shapes)
        self._labels()
        self._numbers()
        self._grain()
        self._list()
        indent(self._root, " ")
        return '<?xml version="1.0" encoding="UTF-8"?>\n' + tostring(self._root, encoding="unicode") + "\n"

    def _rows(self, placed: Placement) -> tuple[str, ...]:
        room = room_in(placed, self._sheet.outline(placed))
        return legible_rows(self._sheet.text(placed), room, _TEXT_MM * self._n, _LEGIBLE_MM * self._n)

    def _key_letters(self) -> dict[str, str]:
        """Return a letter for each kind of which a piece is too narrow for its id; two from the 25th on."""
        narrow = dict.fromkeys(put.piece for put in self._sheet.cut.placements if not self._rows(put))
        return {
            piece: _LETTERS[k % len(_LETTERS)] * (1 + k // len(_LETTERS)) for k, piece in enumerate(narrow)
        }

    def _y(self, up: float) -> str:
        return _number(self._plate.width_mm - up)

    def _mm(self, paper_mm: float) -> str:
        """Return a length on paper as a length of plate."""
        return _number(paper_mm * self._n)

    def _definitions(self) -> None:
        name = one_line(self._sheet.heading[0]) if self._sheet.heading else one_line(self._plate.id)
        SubElement(self._root, "title").text = name
        definitions = SubElement(self._root, "defs")
        step = self._mm(3)
        pattern = SubElement(
            definitions,
            "pattern",
            {"id": "drop", "width": step, "height": step, "patternUnits": "userSpaceOnUse"},
        )
        pattern.set("patternTransform", "rotate(45)")
        SubElement(pattern, "rect", {"width": step, "height": step, "fill": "#FFFFFF"})
        line = {"x1": "0", "y1": "0", "x2": "0", "y2": step, "stroke": _QUIET, "stroke-width": self._mm(0.2)}
        SubElement(pattern, "line", line)

    def _heading(self) -> None:
        for row, words in enumerate(self._sheet.heading):
            y = self._top / self._n + (row + 1) * _ROW_MM
            style = {"font-weight": "bold"} if row == 0 else {}
            self._write(0, y * self._n, words, _TEXT_MM + (0.6 if row == 0 else 0), style)

    def _shapes(self, group: Element) -> None:
        self._path(group, plate_path(self._plate), _SCRAP, 0.5)
        for drop in self._sheet.cut.drops:
            self._path(group, box_path(drop.x_mm, drop.y_mm, drop.dx_mm, drop.dy_mm), "url(#drop)", 0.2)
        for placed in self._sheet.cut.placements:
            self._path(group, placed_path(placed, self._sheet.outline(placed)), _PIECE, 0.35)
        margin = self._sheet.problem.cutting.margin_mm(self._plate)
        strokes_trim = bool(self._sheet.cut.cuts)
        if self._plate.edge == "mill" and margin and not strokes_trim and self._plate.notch is None:
            inner = (self._plate.length_mm - 2 * margin, self._plate.width_mm - 2 * margin)
            dashed = {"stroke-dasharray": f"{self._mm(2)} {self._mm(1.2)}"}
            self._path(group, box_path(margin, margin, *inner), "none", 0.2, dashed)

    def _path(
        self, group: Element, path: Path, fill: str, pen_mm: float, more: dict[str, str] | None = None
    ) -> None:
        style = {"d": path_data(path), "fill": fill, "stroke": _INK, "stroke-width": self._mm(pen_mm)}
        SubElement(group, "path", style | (more or {}))

    def _cuts(self, group: Element) -> None:
        for cut in self._sheet.cut.cuts:
            (x1, y1), (x2, y2) = _ends(cut)
            line = {"x1": _number(x1), "y1": _number(y1), "x2": _number(x2), "y2": _number(y2)}
            dashes = " ".join(self._mm(part) for part in (4, 1, 1, 1))
            style = {"stroke": "#000000", "stroke-width": self._mm(0.5), "stroke-dasharray": dashes}
            SubElement(group, "line", line | style)

    def _labels(self) -> None:
        sheet = self._sheet
        for placed in sheet.cut.placements:
            outline = sheet.outline(placed)
            rows = self._rows(placed) or (self._keys[placed.piece],)
            self._centred(middle_of(placed, outline), room_in(placed, outline), rows)
        for drop, rows in zip(sheet.cut.drops, sheet.drops, strict=True):
            middle = (drop.x_mm + drop.dx_mm / 2, drop.y_mm + drop.dy_mm / 2)
            self._centred(middle, (drop.dx_mm, drop.dy_mm), rows, on_white=True)

    def _centred(
        self,
        at: tuple[float, float],
        room: tuple[float, float],
        rows: tuple[str, ...],
        *,
        on_white: bool = False,
    ) -> None:
        """Write rows of text about a point, upright where the room is; smaller where there is little room."""
        shown = tuple(filter(None, map(one_line, rows)))
        height, upright = letter_height(shown, room, _TEXT_MM * self._n)
        x, y = at[0], self._plate.width_mm - at[1]
        turn = {"transform": f"rotate(-90 {_number(x)} {_number(y)})"} if upright else {}
        group = SubElement(self._root, "g", {"text-anchor": "middle", **turn})
        first = y - (len(shown) - 1) * 1.25 * height / 2 + 0.36 * height
        long, high = 0.56 * height * max(map(len, shown), default=0), 1.25 * height * len(shown)
        across, down = (high, long) if upright else (long, high)
        self._written.append((x - across / 2, y - down / 2, x + across / 2, y + down / 2))
        if on_white:
            wide = 0.6 * height * max(map(len, shown))
            tall = 1.3 * height * len(shown)
            box = {"x": x - wide / 2, "y": y - tall / 2, "width": wide, "height": tall}
            SubElement(group, "rect", {key: _number(v) for key, v in box.items()} | {"fill": "#FFFFFF"})
        for row, words in enumerate(shown):
            place = {"x": _number(x), "y": _number(first + row * 1.25 * height), "font-size": _number(height)}
            SubElement(group, "text", place).text = words

    def _numbers(self) -> None:
        """Number the strokes, each near the end it begins at, where it covers no text and no other number."""
        cuts = self._sheet.cut.cuts
        places = mark_places(cuts, self._plate.width_mm, self._n, self._written)
        for cut, (x, y) in zip(cuts, places, strict=True):
            circle = {"cx": _number(x), "cy": _number(y), "r": self._mm(CIRCLE_MM), "fill": "#FFFFFF"}
            SubElement(self._root, "circle", circle | {"stroke": "#000000", "stroke-width": self._mm(0.3)})
            place = {"x": _number(x), "y": _number(y + 1.0 * self._n)}
            style = {"text-anchor": "middle", "font-weight": "bold", "font-size": self._mm(2.8)}
            SubElement(self._root, "text", place | style).text = str(cut.number)

    def _grain(self) -> None:
        """Draw the arrow below the plate, along its length: that is the way the grain runs."""
        y = self._plate.width_mm + _ROW_MM * self._n
        n = self._n
        points = ((0, 0), (30, 0), (27, -1.2), (30, 0), (27, 1.2), (30, 0))
        line = " ".join(f"{_number(a * n)},{_number(y + b * n)}" for a, b in points)
        arrow = {"points": line, "fill": "none", "stroke": _INK, "stroke-width": self._mm(0.5)}
        SubElement(self._root, "polyline", arrow)
        self._write(33 * n, y + n, f"{self._sheet.grain}   (scale 1:{n} when printed at full size)", _TEXT_MM)

    def _list(self) -> None:
        """List every kind of piece below the plate: its letter if it has one, and what to mind."""
        y = self._plate.width_mm + 2.4 * _ROW_MM * self._n
        for row, (piece, count) in enumerate(self._kinds):
            placed = next(put for put in self._sheet.cut.placements if put.piece == piece)
            text = self._sheet.text(placed)
            words = f"{count} x {text.label}: {text.size}" if text.size else f"{count} x {text.label}"
            key = f"{self._keys[piece]} = " if piece in self._keys else ""
            words = "".join((key, words, *(f", {note}" for note in self._sheet.notes(placed))))
            self._write(0, y + row * _ROW_MM * self._n, words, _TEXT_MM)

    def _write(
        self, x: float, y: float, words: str, size_mm: float, more: dict[str, str] | None = None
    ) -> None:
        place = {"x": _number(x), "y": _number(y), "font-size": self._mm(size_mm)}
        SubElement(self._root, "text", place | (more or {})).text = one_line(words)


def path_data(path: Path) -> str:
    """Return a closed path as SVG path data, arcs as arcs, in coordinates with y upwards.

    >>> path_data(box_path(0, 0, 20, 10))
    'M0 0 L20 0 L20 10 L0 10 Z'
    """
    parts = [f"M{_number(path[0].x)} {_number(path[0].y)}"]
    for start, end in zip(path, (*path[1:], path[0]), strict=True):
        target = f"{_number(end.x)} {_number(end.y)}"
        if start.bulge:
            radius = _number(arc_radius(start, end))
            parts.append(f"A{radius} {radius} 0 0 {1 if start.bulge > 0 else 0} {target}")
        elif end is not path[0]:
            parts.append(f"L{target}")
    return " ".join([*parts, "Z"])


def _ends(cut: ShearCut) -> tuple[tuple[float, float], tuple[float, float]]:
    if cut.axis == "x":
        return (cut.at_mm, cut.start_mm), (cut.at_mm, cut.end_mm)
    return (cut.start_mm, cut.at_mm), (cut.end_mm, cut.at_mm)


def _number(value: float) -> str:
    """Return mm to a thousandth, without trailing zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
