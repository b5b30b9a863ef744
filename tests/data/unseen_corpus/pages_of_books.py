"""Books of several pages, transposed tables, hidden pages and section headings."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, IN, OD, Cell, Part, Sheet, Tab
from tests.data.sheet_parts import arc, ask, cone, cyl, ignore, line, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "transposed_us_four", "csv", "en-US", "a part a column, one of them void, one without basis",
        r("PART", "A", "B", "C", "D"),
        r("PCS", "2", "1", "3", "1"),
        r("ID", "36", "", "48", ""),
        r("OD", "", "30", "", ""),
        r("DIA", "", "", "", "24"),
        r("THK", "1/4", "3/8", "1/4", "1/4"),
        r("LONG", "60", "48", "36", "30"),
        r("MATL", "A36", "A36", "A36", "A36"),
        r("STATUS", "go", "go", "VOID", "go"),
        parts=(
            Part(line(cyl(36, ID, 0.25, 60, 2, "A36", u=IN)), 1, 9, 2, "A"),
            Part(line(cyl(30, OD, 0.375, 48, 1, "A36", u=IN)), 1, 9, 3, "B"),
            Part(ignore("void"), 1, 9, 4, "C"),
            Part(ask("dia bare", "basis"), 1, 9, 5, "D"),
        ),
    ),
    Sheet(
        "vessel_book_with_cover", "xlsx", "en-GB", "cover says three vessels, list is per vessel; weld map page without parts",
        (
            Tab("Front", (
                r("Enquiry 2611", None),
                r("Customer", "Unbuilt Vessels (invented)"),
                r("Scope", "3 vessels; list is per vessel"),
                r("Plate", "P265GH unless stated"),
            )),
            Tab("Shells", (
                r("Tag", "Qty", "ID", "THK", "Length"),
                p(line_or_ask("three vessels: quantity per vessel", cyl(1600, ID, 12, 2000, 6, "P265GH"), doubts=("quantity",)), "S1", 2, 1600, 12, 2000),
                p(line_or_ask("three vessels: quantity per vessel", cyl(1600, ID, 12, 900, 3, "P265GH"), doubts=("quantity",)), "S2", 1, 1600, 12, 900),
                p(line_or_ask("three vessels: quantity per vessel", cyl(600, ID, 10, 700, 3, "P265GH"), doubts=("quantity",)), "BOOT", 1, 600, 10, 700),
            )),
            Tab("Weld map", (
                r("Seam", "Type", "Length"),
                p(ignore("a seam"), "L1", "long", 2000),
                p(ignore("a seam"), "C1", "circ", 5064),
            )),
        ),
    ),
    sheet(
        "bold_sections_us", "xlsx", "en-US", "section headings hold grade and basis; struck rows; comments",
        r("Ghost River Plant (invented)", bold=True),
        r("Mk", "Qty", "Dia", "Lg", "Thk"),
        r("CARBON A36 - ALL DIAMETERS O.D.", bold=True),
        p(cyl(40, OD, 0.25, 60, 2, "A36", u=IN), "C1", 2, 40, 60, "1/4"),
        p(cyl(40, OD, 0.375, 24, 1, "A36", u=IN), "C2", 1, 40, 24, "3/8"),
        p(ignore("struck through"), "C3", 1, 40, 30, "3/8", strike=True),
        r("STAINLESS 316L - ALL DIAMETERS I.D.", bold=True),
        p(cyl(20, ID, 0.1875, 48, 3, "316L", u=IN), "S1", 3, 20, 48, "3/16"),
        p(line_or_ask("a cell comment changes it", cyl(20, ID, 0.1875, 36, 1, "316L", u=IN), doubts=("quantity", "status", "number")),
          "S2", Cell(1, comment="may become 2, will call"), 20, 36, "3/16"),
        r("NOT YET RELEASED", bold=True),
        p(ask("not released", "status", "basis", "material"), "X1", 1, 50, 48, "1/4"),
    ),
    Sheet(
        "two_pages_metric_and_inch", "ods", "en-CA", "one page in mm, one in inches, said in the heads",
        (
            Tab("metric", (
                r("Item", "Qty", "OD (mm)", "Wall (mm)", "Length (mm)", "Material"),
                p(cyl(1016, OD, 12, 2000, 2, "A36"), 1, 2, 1016, 12, 2000, "A36"),
                p(cyl(914, OD, 10, 1500.5, 1, "A36"), 2, 1, 914, 10, 1500.5, "A36"),
            )),
            Tab("imperial", (
                r("Item", "Qty", "OD (in)", "Wall (in)", "Length (ft)", "Material"),
                p(cyl(36 * IN, OD, 0.5 * IN, 5 * 304.8, 2, "A36"), 3, 2, 36, 0.5, 5, "A36"),
                p(cyl(24 * IN, OD, 0.25 * IN, 2.5 * 304.8, 4, "A36", due=date(2026, 12, 18)), 4, 4, 24, "1/4", 2.5, "A36 / need Dec 18"),
                p(ask("25 inch wall", "unit", "thickness", "number"), 5, 1, 24, 25, 2, "A36"),
            )),
        ),
    ),
    sheet(
        "arc_and_cone_tables", "xlsx", "en-GB", "two tables on a page, each with heads of its own",
        r("1. SEGMENTS"),
        r("No", "Qty", "Ri", "Angle", "Thk", "Width", "Steel"),
        p(arc(800, ID, 90, 8, 600, 4, "S275JR"), 1, 4, 800, 90, 8, 600, "S275JR"),
        p(arc(1200, ID, 22.5, 10, 600, 16, "S275JR"), 2, 16, 1200, "22.5", 10, 600, "S275JR"),
        r(),
        r("2. CONES (concentric, inside dims)"),
        r("No", "Qty", "D1", "D2", "Thk", "Height", "Steel"),
        p(cone(900, 450, ID, 400, 6, 2, "S275JR"), 3, 2, 900, 450, 6, 400, "S275JR"),
        p(cone(600, 200, ID, 350, 6, 1, "S275JR"), 4, 1, 200, 600, 6, 350, "S275JR"),
        p(ask("both ends alike: a cylinder?", "contradiction", "shape", "diameter"), 5, 1, 600, 600, 6, 350, "S275JR"),
        p(ignore("a total"), "total", 24, None, None, None, None, None),
    ),
)  # fmt: skip
