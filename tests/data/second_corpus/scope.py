"""What is said for the whole sheet or for some items elsewhere: sets, grades unless noted, free issue, by others."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from tests.data.sheet_model import FLATS, ID, IN, OD, PRE_BENT
from tests.data.sheet_parts import arc, ask, cyl, ignore, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "for_three_tanks", "xlsx", "en-US", "the title says three tanks, quantities may be for one",
        r("Never-Was Tank Co (invented): shell courses for 3 tanks"),
        r("Course", "Qty", "ID", "Thk", "Width", "Grade"),
        p(ask("quantity times 3 tanks", "quantity"), "1 (bottom)", 4, "30'-0\"", "1/4", "72", "A36"),
        p(ask("quantity times 3 tanks", "quantity"), "2", 4, "30'-0\"", "3/16", "72", "A36"),
        r("Notes: each course in 4 plates, seams by erector"),
    ),
    sheet(
        "per_unit_and_units", "csv", "en-GB", "a column of pieces per unit and one of units",
        r("Item", "Per unit", "Units", "Description", "Material"),
        p(cyl(700, ID, 6, 900, 12, "S275JR"), "1", "2", "6", "Shell 700 ID x 6 x 900 long", "S275JR"),
        p(cyl(400, OD, 8, 300, 6, "S275JR"), "2", "1", "6", "Neck 400 OD x 8 x 300 long", "S275JR"),
        p(ask("per unit without units", "quantity"), "3", "2", "", "Neck 300 OD x 8 x 300 long", "S275JR"),
    ),
    sheet(
        "all_304l_unless_noted", "xlsx", "en-US", "grade for all in a note, exceptions in remarks, item 4 free issue",
        r("Ghost Brewing Systems (invented)"),
        r("All 304L 2B unless noted. Pre-bend all ends U.N.O."),
        r("#", "QTY", "OD", "THK", "LG", "NOTES"),
        p(cyl(48, OD, 0.1875, 60, 2, "304L", u=IN, ends=PRE_BENT), 1, 2, 48, "3/16", 60, None),
        p(cyl(30, OD, 0.125, 40, 4, "304L", u=IN, ends=FLATS), 2, 4, 30, "1/8", 40, "flats OK"),
        p(cyl(30, OD, 0.25, 12, 1, "316L", u=IN, ends=PRE_BENT), 3, 1, 30, "1/4", 12, "316L"),
        p(ask("free issue by the note below", "free issue", "material"), 4, 2, 24, "1/4", 36, None),
        p(cyl(24, OD, 0.25, 18, 2, "A36", u=IN, ends=PRE_BENT), 5, 2, 24, "1/4", 18, "A36 - base"),
        r("item 4 plate free issue"),
    ),
    sheet(
        "sections_by_grade", "xlsx", "en-GB", "bold headings give grade and thickness for rows under them",
        r("Rolling schedule – Illusory Silos (invented)", bold=True),
        r("Mark", "No.", "Inside dia", "Length"),
        r("6mm S275JR", bold=True),
        p(cyl(1800, ID, 6, 1500, 4, "S275JR"), "A1", 4, 1800, 1500),
        p(cyl(1800, ID, 6, 900, 2, "S275JR"), "A2", 2, 1800, 900),
        r("8mm S355J2+N", bold=True),
        p(cyl(1800, ID, 8, 1500, 2, "S355J2|S355J2+N"), "B1", 2, 1800, 1500),
        p(ignore("deleted"), "B2", 2, 1800, 600, strike=True),
        r("5mm stainless", bold=True),
        p(ask("stainless without a grade in the heading", "material"), "C1", 1, 900, 600),
        r("Others", bold=True),
        p(ask("the heading gives neither plate nor grade", "thickness", "material"), "D1", 1, 900, 400),
    ),
    sheet(
        "supply_split", "ods", "en-GB", "remarks say who supplies and who welds, one line at a time",
        r("Item", "Qty", "Part", "OD", "Wall", "Length", "Grade", "Supply"),
        p(cyl(1067, OD, 16, 2000, 2, "S355J2|S355J2+N"), 1, 2, "can", 1067, 16, 2000, "S355J2+N", "plate by roller"),
        p(ask("plate by the customer", "free issue", "material"), 2, 2, "can", 1067, 20, 1500, "S355J2+N", "plate by us"),
        p(cyl(1067, OD, 16, 1000, 1, "S355J2|S355J2+N", say="weld"), 3, 1, "can", 1067, 16, 1000, "S355J2+N", "plate by roller, weld full pen by roller, UT by others"),
        p(ignore("by others"), 4, 2, "can", 1067, 30, 500, "S355J2+N", "by others"),
        p(ignore("not in this enquiry"), 5, 1, "can", 1067, 30, 700, "S355J2+N", "N/A"),
        p(ask("labour only", "free issue", "scope", "material"), 6, 2, "can", 762, 12, 900, "S355J2+N", "labour only"),
    ),
    sheet(
        "sets_pairs_and_hands", "xlsx", "en-US", "pairs, sets, left and right, spares",
        r("Qty as noted. Unlikely Mining (invented)"),
        r("Item", "Qty", "Desc", "Thk", "Mat"),
        p(arc(30, ID, 180, 0.375, 24, 2, "AR400", u=IN), 1, "1 pair", "half liner, 30\" inside radius x 24\" wide", "3/8", "AR400"),
        p(arc(30, ID, 120, 0.5, 24, 9, "AR400", u=IN), 2, "3 sets of 3", "third liner, 30\" inside radius x 24\" wide, 120 deg", "1/2", "AR400"),
        p(ask("what is in a set", "quantity"), 3, "2 sets", "liner, 26\" inside radius x 18\" wide, 60 deg", "1/2", "AR400"),
        p(ask("two and two: hands or spares", "quantity"), 4, "2+2", "liner, 26\" inside radius x 18\" wide, 90 deg", "1/2", "AR400"),
        p(line_or_ask("spares inside or on top", arc(20, ID, 90, 0.375, 12, 11, "AR400", u=IN), doubts=("quantity",)), 5, "10 plus 1 spare", "liner, 20\" inside radius x 12\" wide, 90 deg", "3/8", "AR400"),
        p(ask("four halves or four cylinders", "quantity"), 6, "4 (2 halves = 1)", "liner ring in halves, 40\" ID x 12\" wide", "3/8", "AR400"),
        p(ignore("none wanted now"), 7, 0, "liner, 20\" inside radius x 18\" wide, 90 deg", "3/8", "AR400"),
    ),
)  # fmt: skip
