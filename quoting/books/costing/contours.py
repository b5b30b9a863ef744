"""The sheet "Contours": how round the shells with a roundness limit are expected to come out, drawn."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from math import atan2, cos, hypot, pi, sin

from quoting.books.costing.costing_sheet import costing_sheet
from quoting.books.look import Book, BookColumn, BookSheet
from quoting.core import MM_PER_INCH, ToleranceOn, part_words
from quoting.drawings import QUIET, Item, Pen, Sketch, Words, open_line, sketch_png
from quoting.estimating import (
    Estimate,
    LineResult,
    Route,
    expected_contour,
    expected_out_of_round,
    judge_tolerances,
)
from quoting.shop import Shop

_COLUMNS = (BookColumn("Customer and line", 24), BookColumn("Contour", 44), BookColumn("What is held", 60))
_HEAD = 3
_POINTS_HIGH = 240.0
_DPI = 110

Point = tuple[float, float]
_SHOWN = 0.16
"""The largest departure is drawn as this share of the radius."""
_SIZE_MM, _RADIUS_MM = 74.0, 27.0
_PENS = (Pen(0.45), Pen(0.35, QUIET, dash=(2.2, 1.0)))
_TEXT_MM = 2.7


def contours_sheet(book: Book, estimate: Estimate) -> None:
    """Write the sheet, or none where nobody asked for roundness."""
    shown = [result for result in estimate.lines if result.price and _asks(result)]
    if not shown:
        return
    says = (
        "The mean line of the welded shell from the pass plan: flats at the seam and a yield that is not "
        "even. Computed, not measured; prove it on the first piece."
    )
    sheet = costing_sheet(book, estimate, "Contours", _COLUMNS, says=says)
    sheet.heads(_HEAD, _COLUMNS)
    for row, result in enumerate(shown, _HEAD + 1):
        _line(sheet, row, result, estimate.shop)


def _asks(result: LineResult) -> bool:
    return any(asked.on is ToleranceOn.ROUND for asked in result.line.tolerances)


def _line(sheet: BookSheet, row: int, result: LineResult, shop: Shop) -> None:
    line, route = result.line, result.route
    assert route is not None
    name = f"{line.customer}\nline {line.number}\n{part_words(line, inch=shop.inch)}"
    sheet.text(row, 0, name, "text rule")
    said = [f"Tolerance: {one.words(inch=shop.inch)}" for one in judge_tolerances(line, route, shop)]
    image = _picture(result, route, shop)
    if image is None:
        sheet.text(row, 1, "not known: tell from the first piece", "text rule")
    else:
        sheet.fill(row, (1,), "text rule")
        sheet.tall(row, _POINTS_HIGH)
        options = {
            "image_data": BytesIO(image),
            "object_position": 2,
            "x_offset": 8,
            "y_offset": 4,
            "description": f"Expected contour of line {line.number}",
        }
        sheet.raw.insert_image(row, 1, "contour.png", options)
    sheet.text(row, 2, "\n".join(said), "text rule")


def _small(mm: float, shop: Shop) -> str:
    return f'{mm / MM_PER_INCH:.2f}"' if shop.inch else f"{mm:.1f} mm"


def _picture(result: LineResult, route: Route, shop: Shop) -> bytes | None:
    contours = []
    for name, re_rounded in (("as welded", False), ("re-rounded", True)):
        points = expected_contour(result.line, route, shop, re_rounded=re_rounded)
        out = expected_out_of_round(result.line, route, shop, re_rounded=re_rounded)
        if points is None or out is None:
            return None
        contours.append((f"{name}: out of round about {_small(out, shop)}", points))
    radius = route.rollings[0].blank.mean_diameter_mm / 2
    title = f"Expected contour of line {result.line.number}"
    return sketch_png(_contour_sketch(contours, radius, title), dots_per_inch=_DPI)


def _contour_sketch(
    contours: Sequence[tuple[str, Sequence[Point]]], mean_radius_mm: float, title: str
) -> Sketch:
    """Return the circle as a thin line and each contour, named below; the seam is at the bottom.

    Contours are points in mm round the middle, the seam first. All are drawn with one factor, which is said.
    """
    worst = max(abs(hypot(x, y) - mean_radius_mm) for _, points in contours for x, y in points)
    factor = max(1.0, _SHOWN * mean_radius_mm / worst) if worst > 0 else 1.0
    middle = (_SIZE_MM / 2, _SIZE_MM / 2 + 9)
    circle = [(mean_radius_mm * cos(k * pi / 90), mean_radius_mm * sin(k * pi / 90)) for k in range(181)]
    items: list[Item] = [open_line(*_placed(circle, mean_radius_mm, 1.0, middle, 0.0), pen=Pen(0.15, QUIET))]
    for (name, points), pen, row in zip(contours, _PENS, (6.4, 2.6), strict=False):
        turn = -pi / 2 - atan2(points[0][1], points[0][0])
        items.append(open_line(*_placed([*points, points[0]], mean_radius_mm, factor, middle, turn), pen=pen))
        items.append(open_line((2, row + 1), (9, row + 1), pen=pen))
        items.append(Words(11, row, name, _TEXT_MM))
    low = middle[1] - _RADIUS_MM * (1 + _SHOWN) - 3.2
    items.append(Words(middle[0], low, "seam", _TEXT_MM, "middle"))
    items.append(Words(middle[0], middle[1], f"departures x {factor:.0f}", _TEXT_MM, "middle", ink=QUIET))
    return Sketch(0, 0, _SIZE_MM, _SIZE_MM + 11, 1.0, tuple(items), title)


def _placed(points: Sequence[Point], radius: float, factor: float, middle: Point, turn: float) -> list[Point]:
    """Return points on paper, their departure from the circle multiplied."""
    placed = []
    for x, y in points:
        angle = atan2(y, x) + turn
        paper = _RADIUS_MM * (1 + factor * (hypot(x, y) - radius) / radius)
        placed.append((middle[0] + paper * cos(angle), middle[1] + paper * sin(angle)))
    return placed
