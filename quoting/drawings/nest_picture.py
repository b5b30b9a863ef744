"""Pictures of cut plates: pieces, drops kept and what is trimmed off, in greys that print.

Pieces are light with a dark outline and their label, drops are hatched and say so, mill-edge trim is a dashed
line: nothing is told by colour alone.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from math import cos, radians, sin
from typing import TYPE_CHECKING, Any, TypeAlias

from quoting.core import Outline, Rectangle, Sector
from quoting.nesting import CutPlate, Drop, NestProblem, Notch, Placement

if TYPE_CHECKING:
    from matplotlib.figure import Figure

LengthText: TypeAlias = Callable[[float], str]
Point: TypeAlias = tuple[float, float]

_INK, _PIECE, _DROP, _SCRAP = "#1F3A4A", "#E3ECF0", "#FFFFFF", "#C9CDD0"
_DPI = 110
_COLOURS = 32
_DROP_WORDS = "drop kept"
_ARC_STEP_DEG = 3.0
_TITLE_INCH = 0.34
_MARGIN_INCH = 0.06


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
    from matplotlib.backends.backend_agg import FigureCanvasAgg  # noqa: PLC0415 - heavy
    from matplotlib.figure import Figure  # noqa: PLC0415 - heavy

    width, height = picture_size(problem, plates, width_inch, longest_mm)
    scale = _scale(problem, plates, width_inch, longest_mm)
    figure = Figure(figsize=(width, height), dpi=_DPI)
    canvas: Any = FigureCanvasAgg(figure)
    top = height
    for plate in plates:
        top -= _TITLE_INCH
        title = (_MARGIN_INCH / width, (top + 0.07) / height)
        figure.text(*title, plate.title, fontsize=7.5, color=_INK, weight="bold", parse_math=False)
        top -= problem.plate(plate.cut.plate).width_mm * scale
        _draw(_Page(figure, scale, top), problem, plate, (length, drop_length or length))
    canvas.draw()
    return _png(canvas.get_width_height(), bytes(canvas.buffer_rgba()))


def _png(size: tuple[int, int], pixels: bytes) -> bytes:
    """Return the drawing with few colours, which is small; they are chosen the same way every time."""
    from PIL import Image  # noqa: PLC0415 - heavy

    image = (
        Image.frombytes("RGBA", size, pixels)
        .convert("RGB")
        .quantize(_COLOURS, method=Image.Quantize.FASTOCTREE)
    )
    target = BytesIO()
    image.save(target, format="png", dpi=(_DPI, _DPI))
    return target.getvalue()


class _Page:
    """Draws in mm of one plate on the page, without axes: they take more time than all the rest."""

    def __init__(self, figure: Figure, scale: float, bottom_inch: float) -> None:
        from matplotlib.transforms import Affine2D  # noqa: PLC0415 - heavy

        self._figure, self.scale = figure, scale
        self._to_page = Affine2D().scale(scale * _DPI).translate(_MARGIN_INCH * _DPI, bottom_inch * _DPI)

    def polygon(self, points: Sequence[Point], **style: Any) -> None:
        """Draw a closed outline."""
        from matplotlib.patches import Polygon  # noqa: PLC0415 - heavy

        self._figure.add_artist(Polygon(points, closed=True, transform=self._to_page, **style))

    def text(self, at: Point, text: str, **style: Any) -> None:
        """Write a text centred at a point."""
        self._figure.text(
            *at,
            text,
            transform=self._to_page,
            ha="center",
            va="center",
            color=_INK,
            parse_math=False,
            **style,
        )


def _scale(
    problem: NestProblem, plates: Sequence[PlatePicture], width_inch: float, longest_mm: float
) -> float:
    """Return inches of paper for one mm of plate."""
    longest = max(longest_mm, *(problem.plate(plate.cut.plate).length_mm for plate in plates))
    return (width_inch - 2 * _MARGIN_INCH) / longest


def _draw(
    page: _Page, problem: NestProblem, plate: PlatePicture, lengths: tuple[LengthText, LengthText]
) -> None:
    stock = problem.plate(plate.cut.plate)
    edge = _plate_outline(stock.length_mm, stock.width_mm, stock.notch)
    page.polygon(edge, facecolor=_SCRAP, edgecolor=_INK, linewidth=1.2)
    for drop in plate.cut.drops:
        _drop(page, drop, lengths[1])
    for placed in plate.cut.placements:
        outline = problem.piece(placed.piece).outline
        page.polygon(placed_outline(placed, outline), facecolor=_PIECE, edgecolor=_INK, linewidth=0.8)
        label = f"{plate.labels.get(placed.piece, placed.piece)}\n{_size(outline, lengths[0])}"
        _label(page, placed, outline, label)
    margin = problem.cutting.margin_mm(stock)
    if stock.edge == "mill" and margin:
        inner = (stock.length_mm - 2 * margin, stock.width_mm - 2 * margin)
        box = [(margin + x * inner[0], margin + y * inner[1]) for x, y in ((0, 0), (1, 0), (1, 1), (0, 1))]
        page.polygon(box, fill=False, edgecolor=_INK, linewidth=0.6, linestyle=(0, (4, 3)))


def placed_outline(placed: Placement, outline: Outline) -> list[Point]:
    """Return the corners of a placed piece in mm on the plate; arcs as chords of a few degrees."""
    turn = radians(placed.angle_deg)
    turned = [(x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)) for x, y in _corners(outline)]
    low_x = min(x for x, _ in turned)
    low_y = min(y for _, y in turned)
    return [(x - low_x + placed.x_mm, y - low_y + placed.y_mm) for x, y in turned]


def _corners(outline: Outline) -> list[Point]:
    if isinstance(outline, Rectangle):
        return [(0, 0), (outline.length_mm, 0), (outline.length_mm, outline.width_mm), (0, outline.width_mm)]
    steps = max(4, round(outline.angle_deg / _ARC_STEP_DEG / 2) * 2)
    angles = [radians(outline.angle_deg * (step / steps - 0.5)) for step in range(steps + 1)]
    outer = [(outline.outer_radius_mm * cos(a), outline.outer_radius_mm * sin(a)) for a in angles]
    inner = [(outline.inner_radius_mm * cos(a), outline.inner_radius_mm * sin(a)) for a in reversed(angles)]
    return outer + inner


def _plate_outline(length_mm: float, width_mm: float, notch: Notch | None) -> list[Point]:
    if notch is None:
        return [(0, 0), (length_mm, 0), (length_mm, width_mm), (0, width_mm)]
    x, y = length_mm - notch.length_mm, width_mm - notch.width_mm
    return [(0, 0), (length_mm, 0), (length_mm, y), (x, y), (x, width_mm), (0, width_mm)]


def _drop(page: _Page, drop: Drop, length: LengthText) -> None:
    x, y, dx, dy = drop.x_mm, drop.y_mm, drop.dx_mm, drop.dy_mm
    corners = [(x, y), (x + dx, y), (x + dx, y + dy), (x, y + dy)]
    page.polygon(corners, facecolor=_DROP, edgecolor="#8A9297", hatch="///", linewidth=0.6)
    _text(page, (x + dx / 2, y + dy / 2), (dx, dy), f"{_DROP_WORDS}\n{length(dy)} x {length(dx)}")


def _label(page: _Page, placed: Placement, outline: Outline, text: str) -> None:
    centre = (placed.x_mm + placed.dx_mm / 2, placed.y_mm + placed.dy_mm / 2)
    room = (placed.dx_mm, placed.dy_mm)
    if isinstance(outline, Sector):
        ring = (outline.inner_radius_mm + outline.outer_radius_mm) / 2
        points = placed_outline(placed, outline)
        middle = points[len(points) // 4]
        towards = radians(placed.angle_deg)
        depth = outline.outer_radius_mm - ring
        centre = (middle[0] - depth * cos(towards), middle[1] - depth * sin(towards))
        room = (2 * depth, placed.dy_mm) if not placed.turned else (placed.dx_mm, 2 * depth)
    _text(page, centre, room, text)


def _text(page: _Page, centre: Point, room: tuple[float, float], text: str) -> None:
    """Write a text where it has room: along the longer side, smaller, in a row, or its first line."""
    upright = room[1] > 1.6 * room[0]
    across, along = (room[1], room[0]) if upright else room
    for shown in (text, text.replace("\n", ": "), text.split("\n", maxsplit=1)[0]):
        rows = shown.split("\n")
        points = min(
            8.0,
            across * page.scale * 72 / (0.56 * max(len(row) for row in rows)),
            along * page.scale * 72 / (1.25 * len(rows)),
        )
        if points >= 4.5:
            box = {"facecolor": "white", "edgecolor": "none", "pad": 0.8, "alpha": 0.85}
            page.text(
                centre,
                shown,
                fontsize=points,
                rotation=90 if upright else 0,
                bbox=box if shown.startswith(_DROP_WORDS) else None,
            )
            return


def _size(outline: Outline, length: LengthText) -> str:
    if isinstance(outline, Rectangle):
        return f"{length(outline.width_mm)} x {length(outline.length_mm)}"
    return f"R {length(outline.outer_radius_mm)} / {length(outline.inner_radius_mm)}"
