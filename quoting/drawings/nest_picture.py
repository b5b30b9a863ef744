"""Pictures of cut plates: pieces, drops kept and what is trimmed off, in greys that print.

Pieces are light with a dark outline and their label, drops are hatched and say so, mill-edge trim is a dashed
line: nothing is told by colour alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from quoting.core import MM_PER_INCH, Outline, Rectangle
from quoting.drawings.cut_path import Path, Vertex, box_path, middle_of, placed_path, plate_path, room_in
from quoting.drawings.plate_sheet import PieceText, legible_rows, letter_height
from quoting.drawings.sketch import PAPER, Item, Line, Pen, Sketch, Words, sketch_png
from quoting.nesting import CutPlate, Drop, NestProblem

LengthText: TypeAlias = Callable[[float], str]

_INK, _PIECE, _SCRAP = "#1F3A4A", "#E3ECF0", "#C9CDD0"
_DPI = 110
_DROP_WORDS = "drop kept"
_TITLE_INCH = 0.34
_MARGIN_INCH = 0.06
_TITLE_MM, _MOST_MM, _LEAST_MM = 2.7, 2.8, 1.6
"""Heights of letters: the title, the largest and the smallest in a piece."""
_HATCH_MM = 2.2


@dataclass(frozen=True, slots=True)
class PlatePicture:
    """One plate to draw: its layout, the title over it and the label of each piece id."""

    cut: CutPlate
    title: str
    labels: Mapping[str, str]


def picture_size(
    problem: NestProblem, plates: Sequence[PlatePicture], width_inch: float, longest_mm: float = 0.0
) -> tuple[float, float]:
    """Return width and height in inches of these plates one below the other, all to one scale.

    The longest of them, or `longest_mm` when that is more, fills the width.
    """
    scale = _scale(problem, plates, width_inch, longest_mm)
    height = sum(problem.plate(plate.cut.plate).width_mm * scale + _TITLE_INCH for plate in plates)
    return width_inch, height + _MARGIN_INCH


def nest_picture(
    problem: NestProblem,
    plates: Sequence[PlatePicture],
    length: LengthText,
    *,
    drop_length: LengthText | None = None,
    width_inch: float = 4.6,
    longest_mm: float = 0.0,
) -> bytes:
    """Return a PNG of cut plates one below the other; the same input gives the same bytes.

    The scale is as in `picture_size`. `length` turns mm into what the shop reads,
    `drop_length` does so for drops.
    """
    width, height = (side * MM_PER_INCH for side in picture_size(problem, plates, width_inch, longest_mm))
    scale = _scale(problem, plates, width_inch, longest_mm) * MM_PER_INCH
    items: list[Item] = []
    left, top = _MARGIN_INCH * MM_PER_INCH, height
    for plate in plates:
        top -= _TITLE_INCH * MM_PER_INCH
        items.append(Words(left, top + 1.8, plate.title, _TITLE_MM, bold=True, ink=_INK))
        top -= problem.plate(plate.cut.plate).width_mm * scale
        items += _Place(scale, left, top).plate(problem, plate, length, drop_length or length)
    title = plates[0].title if plates else ""
    return sketch_png(Sketch(0, 0, width, height, 1.0, tuple(items), title), dots_per_inch=_DPI)


def _scale(
    problem: NestProblem, plates: Sequence[PlatePicture], width_inch: float, longest_mm: float
) -> float:
    """Return inches of paper for one mm of plate."""
    longest = max(longest_mm, *(problem.plate(plate.cut.plate).length_mm for plate in plates))
    return (width_inch - 2 * _MARGIN_INCH) / longest


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a plate lies on the picture: mm of paper for one of plate, and its low corner."""

    scale: float
    x: float
    y: float

    def _path(self, path: Path) -> Path:
        return tuple(Vertex(self.x + v.x * self.scale, self.y + v.y * self.scale, v.bulge) for v in path)

    def plate(
        self, problem: NestProblem, plate: PlatePicture, length: LengthText, drop_length: LengthText
    ) -> Iterator[Item]:
        """Yield the plate, its drops, its pieces with their labels, and the trim of a mill edge."""
        stock = problem.plate(plate.cut.plate)
        yield Line(self._path(plate_path(stock)), Pen(0.42, _INK), fill=_SCRAP)
        for drop in plate.cut.drops:
            yield from self._drop(drop, drop_length)
        for placed in plate.cut.placements:
            outline = problem.piece(placed.piece).outline
            yield Line(self._path(placed_path(placed, outline)), Pen(0.28, _INK), fill=_PIECE)
            text = PieceText(plate.labels.get(placed.piece, placed.piece), _size(outline, length))
            yield from self._rows(middle_of(placed, outline), room_in(placed, outline), text)
        margin = problem.cutting.margin_mm(stock)
        if stock.edge == "mill" and margin:
            inner = (stock.length_mm - 2 * margin, stock.width_mm - 2 * margin)
            yield Line(self._path(box_path(margin, margin, *inner)), Pen(0.21, _INK, (1.4, 1.0)))

    def _drop(self, drop: Drop, length: LengthText) -> Iterator[Item]:
        box = box_path(drop.x_mm, drop.y_mm, drop.dx_mm, drop.dy_mm)
        yield Line(self._path(box), Pen(0.21, _INK), fill=PAPER, hatch=_HATCH_MM)
        middle = (drop.x_mm + drop.dx_mm / 2, drop.y_mm + drop.dy_mm / 2)
        text = PieceText(_DROP_WORDS, f"{length(drop.dy_mm)} x {length(drop.dx_mm)}")
        yield from self._rows(middle, (drop.dx_mm, drop.dy_mm), text, PAPER)

    def _rows(
        self, at: tuple[float, float], room: tuple[float, float], text: PieceText, behind: str = ""
    ) -> Iterator[Item]:
        """Yield what of a text is legible in its room: both rows, in one row, the first, or nothing."""
        paper = (room[0] * self.scale, room[1] * self.scale)
        rows = legible_rows(text, paper, _MOST_MM, _LEAST_MM)
        if not rows:
            return
        height, upright = letter_height(rows, paper, _MOST_MM)
        x, y = self.x + at[0] * self.scale, self.y + at[1] * self.scale
        for row, words in enumerate(rows):
            off = (row - (len(rows) - 1) / 2) * 1.25 * height + 0.36 * height
            place = (x + off, y) if upright else (x, y - off)
            turn = 90.0 if upright else 0.0
            yield Words(*place, words, height, "middle", turn=turn, ink=_INK, behind=behind)


def _size(outline: Outline, length: LengthText) -> str:
    if isinstance(outline, Rectangle):
        return f"{length(outline.width_mm)} x {length(outline.length_mm)}"
    return f"R {length(outline.outer_radius_mm)} / {length(outline.inner_radius_mm)}"
