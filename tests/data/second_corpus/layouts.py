"""Books laid out in their own way: transposed, side by side, cover sheets, two-row heads, data sheets, hidden rows."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, IN, OD, Cell, Formula, Part, Sheet, Tab
from tests.data.sheet_parts import arc, ask, cone, cyl, ignore, line, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "transposed_three_shells", "xlsx", "en-GB", "a part a column",
        r("Nowhere Vessels (invented) - shells"),
        r("Mark", "V-1", "V-2", "V-3"),
        r("Quantity", 2, 1, 4),
        r("Inside diameter", 1500, 1200, 800),
        r("Thickness", 10, 8, 6),
        r("Length", 2000, 1500, 1000),
        r("Material", "S275JR", "S275JR", "1.4301"),
        r("Required", date(2026, 12, 14), date(2026, 12, 14), date(2026, 12, 21)),
        parts=(
            Part(line(cyl(1500, ID, 10, 2000, 2, "S275JR", due=date(2026, 12, 14))), 2, 8, 2, "V-1"),
            Part(line(cyl(1200, ID, 8, 1500, 1, "S275JR", due=date(2026, 12, 14))), 2, 8, 3, "V-2"),
            Part(line(cyl(800, ID, 6, 1000, 4, "1.4301", due=date(2026, 12, 21))), 2, 8, 4, "V-3"),
        ),
    ),
    sheet(
        "two_lists_side_by_side", "xlsx", "en-US", "carbon at the left, stainless at the right, one heading row",
        r("CARBON", None, None, None, None, "STAINLESS", None, None, None, None),
        r("Item", "Qty", "OD", "Thk", "Len", "Item", "Qty", "OD", "Thk", "Len"),
        r("C1", 2, 36, "1/4", 48, "S1", 1, 30, "3/16", 60),
        r("C2", 1, 42, "3/8", 60, "S2", 3, 24, "1/8", 36),
        r("Carbon is A36, stainless is 304L."),
        parts=(
            Part(line_or_ask("two lists in one row", cyl(36, OD, 0.25, 48, 2, "A36", u=IN)), 3, 3, 1, "C1"),
            Part(line_or_ask("two lists in one row", cyl(30, OD, 0.1875, 60, 1, "304L", u=IN)), 3, 3, 6, "S1"),
            Part(line_or_ask("two lists in one row", cyl(42, OD, 0.375, 60, 1, "A36", u=IN)), 4, 4, 1, "C2"),
            Part(line_or_ask("two lists in one row", cyl(24, OD, 0.125, 36, 3, "304L", u=IN)), 4, 4, 6, "S2"),
        ),
    ),
    Sheet(
        "cover_and_parts_list", "xlsx", "en-GB", "cover sheet with terms, list, a hidden sheet of old revision",
        (
            Tab("Cover", (
                r("REQUEST FOR QUOTATION", None),
                r("From", "Phantom Process Ltd (invented)"),
                r("RFQ", "PP-1190 rev 2"),
                r("Delivery", "8 weeks from order"),
                r("Material", "All 304L unless noted"),
                r("Total pieces", 7),
            )),
            Tab("List", (
                r("Tag", "Service", "No.", "I.D.", "t", "T/T", "Notes"),
                p(cyl(1400, ID, 6, 1800, 2, "304/304L|304L", say="date"), "D-101", "drum", 2, 1400, 6, 1800, None),
                p(cyl(900, ID, 5, 1200, 4, "304/304L|304L", say="date"), "D-102", "drum", 4, 900, 5, 1200, None),
                p(cyl(900, ID, 5, 600, 1, "316/316L|316L", say="date"), "D-103", "boot", 1, 900, 5, 600, "316L"),
            )),
            Tab("List rev 1", (
                r("Tag", "Service", "No.", "I.D.", "t", "T/T"),
                p(ignore("old revision on a hidden page"), "D-101", "drum", 2, 1300, 6, 1800),
            ), hidden=True),
        ),
    ),
    sheet(
        "heads_in_two_rows_merged", "ods", "en-GB", "merged group heads, hidden row, merged material over rows",
        r("Shells for Make-Believe Dairy (invented)", None, None, None, None, None),
        r("No.", "Diameter", None, "Plate", None, "Qty"),
        r(None, "inside", "height", "t", "grade", None),
        p(cyl(2000, ID, 3, 1250, 3, "1.4301"), 1, 2000, 1250, 3, "1.4301", 3),
        p(cyl(2000, ID, 4, 1250, 2, "1.4301"), 2, 2000, 1250, 4, None, 2),
        p(cyl(1600, ID, 4, 1000, 1, "1.4301"), 3, 1600, 1000, 4, None, 1),
        p(line_or_ask("hidden row", cyl(1600, ID, 5, 500, 1, "1.4301"), doubts=("status", "scope", "duplicate")), 4, 1600, 500, 5, None, 1, hidden=True),
        r("Total", None, None, None, None, 7),
        merged=("B2:C2", "D2:E2", "E4:E7"),
    ),
    sheet(
        "data_sheet_of_one_cone", "xlsx", "en-US", "a form: label, value, label, value in one row",
        r("PLATE FORMING INQUIRY FORM", None, None, None),
        r("Company", "Fabled Fabricators (invented)", "Date", "11/24/2026"),
        r("Part name", "hopper bottom", "Part no", "FF-77"),
        r("Shape", "concentric cone", "Qty", 3),
        r("Large end ID", "72\"", "Small end ID", "18\""),
        r("Height (vert)", "40\"", "Plate thk", "1/4\""),
        r("Grade", "A36", "Seam", "customer welds"),
        r("Need by", "12/18/2026", "Ship via", "will call"),
        parts=(Part(line(cone(72, 18, ID, 40, 0.25, 3, "A36", u=IN, due=date(2026, 12, 18), part="FF-77")), 2, 8),),
    ),
    Sheet(
        "a_page_per_tank", "xlsx", "en-US", "three tabs with the same heads, one of them empty, sizes differ",
        (
            Tab("TK-1", (
                r("Course", "Qty", "ID", "Thk", "Ht", "Mat"),
                p(cyl(120, ID, 0.25, 72, 1, "A36", u=IN), 1, 1, "120", "1/4", "72", "A36"),
                p(cyl(120, ID, 0.1875, 72, 1, "A36", u=IN), 2, 1, "120", "3/16", "72", "A36"),
            )),
            Tab("TK-2", (
                r("Course", "Qty", "ID", "Thk", "Ht", "Mat"),
                p(cyl(96, ID, 0.25, 60, 1, "304L", u=IN), 1, 1, "96", "1/4", "60", "304L"),
                p(ask("ht to suit", "length"), 2, 1, "96", "3/16", "to suit roof", "304L"),
            )),
            Tab("Sheet3", ()),
        ),
    ),
    sheet(
        "notes_between_and_below", "csv", "en-US", "wrapped descriptions on a second row, notes that change lines",
        r("LN", "PCS", "DESCRIPTION", "MATL"),
        p(cyl(60, ID, 0.375, 84, 2, "A36", u=IN, say="weld"), "1", "2", "SHELL 60\" ID X 3/8\" X 84\" LONG", "A36"),
        r("", "", "(LONG SEAM WELDED BY YOU, X-RAY BY US)", ""),
        p(cyl(20, OD, 0.5, 10, 4, "A36", u=IN), "2", "4", "NECK 20\" OD X 1/2\" X 10\" LONG", "A36"),
        r("", "", "", ""),
        p(ask("a note below makes it stainless without a grade", "material", "contradiction"), "3", "1", "SHELL 30\" ID X 1/4\" X 40\" LONG", "A36"),
        r("NOTE: ITEM 3 CHANGED TO STAINLESS PER PHONE CALL", "", "", ""),
        r("NOTE: NO PAINT", "", "", ""),
    ),
    sheet(
        "part_totals_and_formulas", "xlsx", "en-US", "weights, unit prices to fill in, formulas, repeat of heads",
        r("Item", "Qty", "OD (in)", "Wall (in)", "Length (in)", "Material", "lb ea", "lb total", "Unit $", "Ext $"),
        p(cyl(36, OD, 0.25, 60, 2, "A36", u=IN), 1, 2, 36, 0.25, 60, "A36", 477.4, Formula("=B2*G2", 954.8), None, Formula("=B2*I2", 0)),
        p(cyl(30, OD, 0.375, 48, 3, "A36", u=IN), 2, 3, 30, Cell(0.375, fmt="# ?/?"), 48, "A36", 474.7, Formula("=B3*G3", 1424.1), None, Formula("=B3*I3", 0)),
        r(None, None, None, None, None, None, "subtotal", Formula("=SUM(H2:H3)", 2378.9), None, None),
        r("Item", "Qty", "OD (in)", "Wall (in)", "Length (in)", "Material", "lb ea", "lb total", "Unit $", "Ext $"),
        p(cyl(24, OD, 0.5, 36, 1, "A572-50", u=IN), 3, 1, 24, 0.5, 36, "A572-50", 376.6, Formula("=B6*G6", 376.6), None, Formula("=B6*I6", 0)),
        p(ask("the weight tells of twice the length or two pieces", "contradiction", "length", "quantity", "number"), 4, 1, 24, 0.5, 18, "A572-50", 376.6, Formula("=B7*G7", 376.6), None, None)
        ,
        p(ignore("a total"), None, None, None, None, None, None, "TOTAL", Formula("=H4+H6+H7", 3132.1), None, None),
    ),
    sheet(
        "mixed_shapes_one_table", "xlsx", "en-GB", "columns A to D mean other sizes for each shape",
        r("Ref", "Type", "A", "B", "C", "t", "Off", "Steel", "Key"),
        r(None, None, None, None, None, None, None, None, "Cyl: A = i/d, B = length.  Cone: A = large i/d, B = small i/d, C = height.  Seg: A = i/rad, B = degrees, C = width"),
        p(line_or_ask("the key tells the columns", cyl(900, ID, 8, 1200, 2, "S235JR"), doubts=("number", "diameter", "length", "shape")), "a", "Cyl", 900, 1200, None, 8, 2, "S235JR", None),
        p(line_or_ask("the key tells the columns", cone(900, 300, ID, 500, 8, 1, "S235JR"), doubts=("number", "diameter", "length", "shape")), "b", "Cone", 900, 300, 500, 8, 1, "S235JR", None),
        p(line_or_ask("the key tells the columns", arc(600, ID, 60, 10, 400, 6, "S235JR"), doubts=("number", "diameter", "length", "shape", "angle")), "c", "Seg", 600, 60, 400, 10, 6, "S235JR", None),
    ),
)  # fmt: skip
