"""Numbers as typed: thousands, decimals, units in cells, ranges, words, dates for fractions, swapped columns."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import FT, ID, IN, OD, Cell
from tests.data.sheet_parts import ask, cyl, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "quarter_became_january", "xlsx", "en-US", "a spreadsheet made dates of fractions",
        r("Item", "Qty", "Thk", "OD", "Length", "Material"),
        p(ask("1/4 became a date", "fraction", "thickness"), 1, 2, Cell(date(2026, 1, 4), fmt="d-mmm"), 36, 48, "A36"),
        p(ask("3/8 became a date", "fraction", "thickness"), 2, 1, Cell(date(2026, 3, 8), fmt="m/d"), 30, 48, "A36"),
        p(cyl(30, OD, 0.375, 40, 1, "A36", u=IN), 3, 1, Cell(0.375, fmt="# ?/?"), 30, 40, "A36"),
        p(cyl(30, OD, 0.3125, 44, 1, "A36", u=IN), 4, 1, "5/16", 30, 44, "A36"),
        p(ask("a third of an inch is no plate", "thickness", "number"), 5, 1, "1/3", 30, 44, "A36"),
    ),
    sheet(
        "thousands_and_decimals", "csv", "de-DE", "points and commas that settle each other, or do not",
        r("Pos", "Stk", "Di", "s", "Länge", "Werkstoff"),
        p(cyl(1250, ID, 8, 2500, 1, "S235JR"), "1", "1", "1.250", "8", "2.500", "S235JR"),
        p(cyl(1250.5, ID, 8.5, 2500, 1, "S235JR"), "2", "1", "1.250,5", "8,5", "2.500,0", "S235JR"),
        p(cyl(980, ID, 10, 1000, 2, "S235JR"), "3", "2", "980", "10", "1.000", "S235JR"),
        p(line_or_ask("point as a decimal mark among commas", cyl(980.5, ID, 10, 1000, 2, "S235JR"), doubts=("number",)), "4", "2", "980.5", "10", "1000", "S235JR"),
        p(ask("a range", "thickness", "tolerance"), "5", "1", "980", "8-10", "1000", "S235JR"),
        separator=";",
    ),
    sheet(
        "units_in_cells", "xlsx", "en-US", "mm, cm, m, feet and inches mixed cell by cell",
        r("Item", "Qty", "Inside Dia.", "Thickness", "Length", "Grade"),
        p(cyl(1200, ID, 10, 1500, 1, "A36"), 1, 1, "1200mm", "10mm", "1.5 m", "A36"),
        p(cyl(48 * IN, ID, 10, 5 * FT, 1, "A36"), 2, 1, "48\"", "10 mm", "5 ft", "A36"),
        p(cyl(900, ID, 8, 600, 2, "A36"), 3, 2, "90 cm", "8 mm", "60 cm", "A36"),
        p(ask("no units among mixed units", "unit"), 4, 1, "60", "10", "50", "A36"),
        p(cyl(4 * FT, ID, 0.5 * IN, 6 * FT + 3.5 * IN, 1, "A36"), 5, 1, "4'", "0.5\"", "6ft 3 1/2in", "A36"),
        p(ask("10 inch plate at 24 inch", "unit", "thickness"), 6, 1, "24\"", "10", "36\"", "A36"),
    ),
    sheet(
        "words_ranges_and_doubts", "csv", "en-US", "numbers in words, approx, plus-minus, minimum wall, either-or",
        r("no", "how many", "dia", "plate", "long", "steel"),
        p(cyl(40, ID, 0.25, 36, 6, "A36", u=IN), "1", "six", "40 inside", "quarter inch", "36", "A36"),
        p(cyl(40, ID, 0.25, 36, 12, "A36", u=IN), "2", "a dozen", "40 inside", "1/4", "three feet", "A36"),
        p(ask("about", "tolerance", "number", "diameter"), "3", "2", "approx 40 inside", "1/4", "36", "A36"),
        p(line_or_ask("minimum wall", cyl(40, ID, 0.25, 36, 2, "A36", u=IN), doubts=("tolerance", "thickness")), "4", "2", "40 inside", "1/4 min", "36", "A36"),
        p(ask("either of two plates", "thickness", "option"), "5", "2", "40 inside", "1/4 or 5/16", "36", "A36"),
        p(cyl(40, ID, 0.25, 36, 2, "A36", u=IN, say="tolerance"), "6", "2", "40 inside +1/8 -0", "1/4", "36", "A36"),
        p(ask("length has a question mark", "length", "number", "status"), "7", "2", "40 inside", "1/4", "36?", "A36"),
    ),
    sheet(
        "which_number_is_which", "txt", "en-GB", "bare strings of numbers",
        r("please price, all S275JR, sizes mm"),
        p(cyl(1000, OD, 10, 2000, 2, "S275JR"), "2 off 1000 o/d x 10 x 2000"),
        p(ask("which number is which, and no basis", "number", "basis", "diameter"), "3 off 1000 x 900 x 10"),
        p(ask("two numbers only", "number", "length", "thickness"), "1 off 1200 i/d x 1500"),
        p(ask("basis", "basis"), "1 off dia 600, 8 thick, 500 wide"),
        p(cyl(600, ID, 8, 500, 4, "S275JR"), "4 off I/D 600, 8 thick, 500 wide"),
        p(ask("both diameters disagree with the plate", "contradiction", "basis", "thickness"), "1 off 600 i/d 620 o/d x 8 thk x 500"),
        p(cyl(600, ID, 10, 500, 1, "S275JR"), "1 off 600 i/d 620 o/d x 500 long"),
    ),
)  # fmt: skip
