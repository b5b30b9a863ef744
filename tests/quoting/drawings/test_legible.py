"""What the cutting table reads: letters large enough, no number over a text, what to mind with a piece."""

from __future__ import annotations

from decimal import Decimal
from xml.etree import ElementTree

from quoting.core import Rectangle
from quoting.drawings import PieceText, PlateSheet, plate_svg
from quoting.drawings.plate_sheet import legible_rows, letter_height
from quoting.drawings.plate_svg import scale_of
from quoting.drawings.stroke_marks import CIRCLE_MM, mark_places
from quoting.nesting import CuttingRule, NestPlate, NestProblem, Piece, nest

SVG = "{http://www.w3.org/2000/svg}"
LEAST_MM = 1.6
LONG = PieceText("Example-12.b", "38 x 700")


def drawn(*pieces: Piece, cutting: CuttingRule | None = None, label: str = "") -> PlateSheet:
    plate = NestPlate("P", 1500, 3000, 1, Decimal(300), heat="H-7")
    problem = NestProblem(pieces, (plate,), cutting or CuttingRule())
    (cut,) = nest(problem).cut_plates
    texts = {p.id: PieceText(label or p.id, "38 x 700") for p in pieces}
    return PlateSheet(problem, cut, ("1. P #1",), texts, tuple(("D",) for _ in cut.drops))


def texts(sheet: PlateSheet) -> list[ElementTree.Element]:
    return list(ElementTree.fromstring(plate_svg(sheet)).iter(f"{SVG}text"))


def test_id_and_size_stand_in_one_row_where_two_would_be_too_small() -> None:
    assert legible_rows(LONG, (700.0, 38.0), 45.0, 24.0) == ("Example-12.b: 38 x 700",)


def test_where_both_are_too_small_the_id_stands_alone() -> None:
    assert legible_rows(LONG, (260.0, 38.0), 45.0, 24.0) == ("Example-12.b",)


def test_where_nothing_is_legible_nothing_is_written() -> None:
    assert legible_rows(LONG, (120.0, 30.0), 45.0, 24.0) == ()


def test_text_is_turned_only_when_that_makes_it_larger() -> None:
    rows = ("D261130-37", "31-5/8 x 22-1/4")
    assert letter_height(rows, (2000.0, 3500.0), 45.0) == (45.0, False)
    assert letter_height(rows, (100.0, 900.0), 45.0)[1]


def test_no_letter_in_the_drawing_is_smaller_than_can_be_read() -> None:
    sheet = drawn(
        Piece("a", Rectangle(38, 700), 12), Piece("b", Rectangle(60, 90), 12), label="Example Works 12.b"
    )
    n = scale_of(3000, 1500)
    sizes = [float(text.attrib["font-size"]) / n for text in texts(sheet)]
    assert min(sizes) >= LEAST_MM


def test_a_piece_too_narrow_for_its_id_carries_a_letter_that_the_list_explains() -> None:
    sheet = drawn(Piece("b", Rectangle(40, 90), 12), label="Example Works 12.b")
    shown = [text.text for text in texts(sheet)]
    assert shown.count("a") == 12
    assert "a = 12 x Example Works 12.b: 38 x 700" in shown


def test_the_list_says_what_keeps_its_grain_and_where_the_heat_number_goes() -> None:
    sheet = drawn(
        Piece("G", Rectangle(600, 900), turn=False),
        Piece("H", Rectangle(500, 800), needs_heat=True),
        Piece("I", Rectangle(400, 700)),
    )
    shown = [text.text for text in texts(sheet)]
    assert "1 x G: 38 x 700, keep to the grain" in shown
    assert "1 x H: 38 x 700, mark heat H-7 on it" in shown
    assert "1 x I: 38 x 700" in shown


def test_the_numbers_of_strokes_cover_no_text_and_no_other_number() -> None:
    sheet = drawn(
        Piece("A", Rectangle(300, 900), 4),
        Piece("B", Rectangle(90, 1000), 6),
        cutting=CuttingRule("shear", stages=3),
    )
    n = scale_of(3000, 1500)
    labels = [
        (p.x_mm + p.dx_mm / 2 - 200, 1500 - p.y_mm - p.dy_mm / 2 - 30, p.x_mm + p.dx_mm / 2 + 200)
        for p in sheet.cut.placements
    ]
    boxes = [(x0, y0, x1, y0 + 60) for x0, y0, x1 in labels]
    places = list(mark_places(sheet.cut.cuts, 1500, n, boxes))
    long = [place for place, cut in zip(places, sheet.cut.cuts, strict=True) if cut.length_mm > 1000]
    assert long
    radius = CIRCLE_MM * n
    for x, y in long:
        for x0, y0, x1, y1 in boxes:
            assert x + radius <= x0 or x - radius >= x1 or y + radius <= y0 or y - radius >= y1
    for k, (x, y) in enumerate(places):
        assert all(abs(x - a) >= radius or abs(y - b) >= radius for a, b in places[:k])
