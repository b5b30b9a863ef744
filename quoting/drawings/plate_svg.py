"""One cut plate as a drawing: to a round scale, one unit = 1 mm of plate, greys that print.

Pieces carry id and size, drops are hatched with id and size, shear strokes are numbered in their order,
an arrow shows the grain. A piece too narrow for its id carries a letter, which the list below explains. The
same input gives the same bytes.
"""

from __future__ import annotations

from collections import Counter

from quoting.drawings.cut_path import Path, box_path, middle_of, placed_path, plate_path, room_in
from quoting.drawings.plate_sheet import PlateSheet, legible_rows, letter_height, one_line
from quoting.drawings.sketch import PAPER, Disc, Item, Line, Pen, Sketch, Words, open_line, sketch_svg
from quoting.drawings.stroke_marks import CIRCLE_MM, Box, mark_places
from quoting.nesting import Placement, ShearCut

SCALES = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100)
_PAPER_WIDTH_MM, _PLATE_HEIGHT_MM = 255.0, 130.0
"""What a landscape page holds between its margins, on the smaller of Letter and A4, with the list below."""
_MARGIN_MM, _TEXT_MM, _PIECE_MM, _LEGIBLE_MM = 4.0, 3.3, 4.2, 2.85
"""Margin; letters beside the plate, the largest in a piece, and the least, 8 points."""
_LETTERS = "abcdefghijkmnpqrstuvwxyz"
_ROW_MM = 5.0
_INK, _PIECE, _SCRAP = "#1F3A4A", "#E8EEF1", "#C9CDD0"
_HATCH_MM = 3.0


def scale_of(length_mm: float, width_mm: float, high_mm: float = _PLATE_HEIGHT_MM) -> int:
    """Return n of the round scale 1:n at which a plate of this size fits a landscape page.

    `high_mm` is the height on paper that there is for the plate itself.

    >>> scale_of(6096, 2438.4)
    25
    """
    room = _PAPER_WIDTH_MM - 2 * _MARGIN_MM
    fits = (n for n in SCALES if length_mm / n <= room and width_mm / n <= high_mm)
    return next(fits, max(SCALES[-1], round(max(length_mm / room, width_mm / high_mm) + 0.5)))


def plate_svg(sheet: PlateSheet) -> str:
    """Return the drawing as SVG text."""
    return sketch_svg(plate_sketch(sheet))


def plate_sketch(sheet: PlateSheet, *, high_mm: float = 0.0) -> Sketch:
    """Return the drawing, on `high_mm` of paper where the page has no more: to a smaller scale then, its
    letters as large as ever."""
    beside = (len(sheet.heading) + 0.8 + len({put.piece for put in sheet.cut.placements}) + 3.2) * _ROW_MM
    return _Drawing(sheet, max(high_mm - beside, 20.0) if high_mm else _PLATE_HEIGHT_MM).sketch()


class _Drawing:
    """Places everything, in mm of plate with y upwards."""

    def __init__(self, sheet: PlateSheet, high_mm: float) -> None:
        self._sheet, self._plate = sheet, sheet.plate
        self._n = scale_of(self._plate.length_mm, self._plate.width_mm, min(high_mm, _PLATE_HEIGHT_MM))
        kinds = Counter(placed.piece for placed in sheet.cut.placements)
        self._kinds = tuple(kinds.items())
        self._keys = self._key_letters()
        self._written: list[Box] = []
        self._items: list[Item] = []

    def sketch(self) -> Sketch:
        """Draw all of it."""
        self._heading()
        self._shapes()
        self._cuts()
        self._labels()
        self._numbers()
        self._grain()
        self._list()
        n = self._n
        above = (len(self._sheet.heading) + 0.8) * _ROW_MM
        below = (len(self._kinds) + 3.2) * _ROW_MM
        height = self._plate.width_mm + (above + below) * n
        title = one_line(self._sheet.heading[0]) if self._sheet.heading else one_line(self._plate.id)
        box = (-_MARGIN_MM * n, -below * n, _PAPER_WIDTH_MM * n, height)
        return Sketch(*box, n, tuple(self._items), title)

    def _rows(self, placed: Placement) -> tuple[str, ...]:
        room = room_in(placed, self._sheet.outline(placed))
        return legible_rows(self._sheet.text(placed), room, _PIECE_MM * self._n, _LEGIBLE_MM * self._n)

    def _key_letters(self) -> dict[str, str]:
        """Return a letter for each kind of which a piece is too narrow for its id; two from the 25th on."""
        narrow = dict.fromkeys(put.piece for put in self._sheet.cut.placements if not self._rows(put))
        return {
            piece: _LETTERS[k % len(_LETTERS)] * (1 + k // len(_LETTERS)) for k, piece in enumerate(narrow)
        }

    def _heading(self) -> None:
        rows = len(self._sheet.heading)
        for row, words in enumerate(self._sheet.heading):
            y = self._plate.width_mm + (rows + 0.8 - row - 1) * _ROW_MM * self._n
            self._write(0, y, words, _TEXT_MM + (0.6 if row == 0 else 0), bold=row == 0)

    def _shapes(self) -> None:
        self._path(plate_path(self._plate), Pen(0.5, _INK), fill=_SCRAP)
        for drop in self._sheet.cut.drops:
            box = box_path(drop.x_mm, drop.y_mm, drop.dx_mm, drop.dy_mm)
            self._path(box, Pen(0.2, _INK), fill=PAPER, hatch=_HATCH_MM)
        for placed in self._sheet.cut.placements:
            path = placed_path(placed, self._sheet.outline(placed))
            self._path(path, Pen(0.35, _INK), fill=_PIECE)
        margin = self._sheet.problem.cutting.margin_mm(self._plate)
        strokes_trim = bool(self._sheet.cut.cuts)
        if self._plate.edge == "mill" and margin and not strokes_trim and self._plate.notch is None:
            inner = (self._plate.length_mm - 2 * margin, self._plate.width_mm - 2 * margin)
            self._path(box_path(margin, margin, *inner), Pen(0.2, _INK, (2, 1.2)))

    def _path(self, path: Path, pen: Pen, *, fill: str = "", hatch: float = 0.0) -> None:
        self._items.append(Line(path, pen, fill=fill, hatch=hatch))

    def _cuts(self) -> None:
        for cut in self._sheet.cut.cuts:
            self._items.append(open_line(*_ends(cut), pen=Pen(0.5, dash=(4, 1, 1, 1))))

    def _labels(self) -> None:
        sheet = self._sheet
        for placed in sheet.cut.placements:
            outline = sheet.outline(placed)
            rows = self._rows(placed) or (self._keys[placed.piece],)
            self._centred(middle_of(placed, outline), room_in(placed, outline), rows)
        for drop, rows in zip(sheet.cut.drops, sheet.drops, strict=True):
            middle = (drop.x_mm + drop.dx_mm / 2, drop.y_mm + drop.dy_mm / 2)
            self._centred(middle, (drop.dx_mm, drop.dy_mm), rows, behind=PAPER)

    def _centred(
        self, at: tuple[float, float], room: tuple[float, float], rows: tuple[str, ...], *, behind: str = ""
    ) -> None:
        """Write rows of text about a point, upright where the room is; smaller where there is little room."""
        shown = tuple(filter(None, map(one_line, rows)))
        height, upright = letter_height(shown, room, _PIECE_MM * self._n)
        long, high = 0.56 * height * max(map(len, shown), default=0), 1.25 * height * len(shown)
        across, down = (high, long) if upright else (long, high)
        x, y = at[0], self._plate.width_mm - at[1]
        self._written.append((x - across / 2, y - down / 2, x + across / 2, y + down / 2))
        for row, words in enumerate(shown):
            off = (row - (len(shown) - 1) / 2) * 1.25 * height + 0.36 * height
            place = (at[0] + off, at[1]) if upright else (at[0], at[1] - off)
            size, turn = height / self._n, 90.0 if upright else 0.0
            self._items.append(Words(*place, words, size, "middle", turn=turn, ink=_INK, behind=behind))

    def _numbers(self) -> None:
        """Number the strokes, each near the end it begins at, where it covers no text and no other number."""
        cuts = self._sheet.cut.cuts
        places = mark_places(cuts, self._plate.width_mm, self._n, self._written)
        for cut, (x, down) in zip(cuts, places, strict=True):
            y = self._plate.width_mm - down
            self._items += [
                Disc(x, y, CIRCLE_MM, Pen(0.3), fill=PAPER, mm=True),
                Words(x, y - 1.0 * self._n, str(cut.number), 2.85, "middle", bold=True),
            ]

    def _grain(self) -> None:
        """Draw the arrow below the plate, along its length: that is the way the grain runs."""
        n = self._n
        y = -_ROW_MM * n
        points = ((0, 0), (30, 0), (27, 1.2), (30, 0), (27, -1.2), (30, 0))
        self._items.append(open_line(*((a * n, y + b * n) for a, b in points), pen=Pen(0.5, _INK)))
        scale = f"   (scale 1:{n} when printed at full size)"
        self._write(33 * n, y - n, f"{self._sheet.grain}{scale}", _TEXT_MM)

    def _list(self) -> None:
        """List every kind of piece below the plate: its letter if it has one, and what to mind."""
        y = -2.4 * _ROW_MM * self._n
        for row, (piece, count) in enumerate(self._kinds):
            placed = next(put for put in self._sheet.cut.placements if put.piece == piece)
            text = self._sheet.text(placed)
            called = f"{text.label} ({text.name})" if text.name not in ("", text.label) else text.label
            words = f"{count} x {called}: {text.size}" if text.size else f"{count} x {called}"
            key = f"{self._keys[piece]} = " if piece in self._keys else ""
            words = "".join((key, words, *(f", {note}" for note in self._sheet.notes(placed))))
            self._write(0, y - row * _ROW_MM * self._n, words, _TEXT_MM)

    def _write(self, x: float, y: float, words: str, size_mm: float, *, bold: bool = False) -> None:
        self._items.append(Words(x, y, one_line(words), size_mm, bold=bold, ink=_INK))


def _ends(cut: ShearCut) -> tuple[tuple[float, float], tuple[float, float]]:
    if cut.axis == "x":
        return (cut.at_mm, cut.start_mm), (cut.at_mm, cut.end_mm)
    return (cut.start_mm, cut.at_mm), (cut.end_mm, cut.at_mm)
