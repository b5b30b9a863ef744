"""The sheet "Contours": how round the shells with a roundness limit are expected to come out, drawn."""

from __future__ import annotations

from io import BytesIO

from quoting.books.costing.costing_sheet import costing_sheet
from quoting.books.look import Book, BookColumn, BookSheet
from quoting.core import MM_PER_INCH, ToleranceOn, part_words
from quoting.drawings import contour_sketch, sketch_png
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
    return sketch_png(contour_sketch(contours, radius, title), dots_per_inch=_DPI)
