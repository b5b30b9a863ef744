"""Plain lists, nearly every row of which can be priced."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, IN, OD, PRE_BENT
from tests.data.sheet_parts import arc, ask, cyl, ignore, p, r, sheet

SHEETS = (
    sheet(
        "kettle_shells_monthly", "xlsx", "en-US", "a buyer's standard list, diameters with their mark in the cell",
        r("Would-Be Kettles (invented) / monthly shells / 304L U.N.O. / ends prebent"),
        r("LN", "P/N", "REV", "QTY", "DIAMETER", "THICK.", "WIDTH", "MATL", "WANTED"),
        p(cyl(30, ID, 0.125, 36, 6, "304L", u=IN, ends=PRE_BENT, part="K-30", rev="2", due=date(2026, 12, 17)), 1, "K-30", 2, 6, "30 ID", "1/8", "36", None, "12/17/2026"),
        p(cyl(36, ID, 0.125, 36, 6, "304L", u=IN, ends=PRE_BENT, part="K-36", rev="2", due=date(2026, 12, 17)), 2, "K-36", 2, 6, "36 ID", "1/8", "36", None, "12/17/2026"),
        p(cyl(42, ID, 0.1875, 48, 2, "304L", u=IN, ends=PRE_BENT, part="K-42", rev="1", due=date(2026, 12, 17)), 3, "K-42", 1, 2, "42 ID", "3/16", "48", None, "12/17/2026"),
        p(cyl(48.5, ID, 0.1875, 48, 2, "304L", u=IN, ends=PRE_BENT, part="K-48", rev="1", due=date(2026, 12, 22)), 4, "K-48", 1, 2, "48 1/2 ID", "3/16", "48", None, "12/22/2026"),
        p(cyl(60, ID, 0.25, 60, 1, "316L", u=IN, ends=PRE_BENT, part="K-60", rev="3", due=date(2026, 12, 22)), 5, "K-60", 3, 1, "60 ID", "1/4", "60", "316L", "12/22/2026"),
        p(cyl(62, OD, 0.1875, 40, 1, "304L", u=IN, ends=PRE_BENT, part="J-60", rev="3", due=date(2026, 12, 22)), 6, "J-60 jacket", 3, 1, "62 OD", "3/16", "40", None, "12/22/2026"),
        p(ask("diameter bare", "basis"), 7, "J-48", 1, 1, "50", "3/16", "36", None, "12/22/2026"),
        p(ignore("a total"), None, None, None, 19, "pcs total", None, None, None, None),
    ),
    sheet(
        "guards_and_covers", "csv", "en-GB", "plain arcs: radius with face, degrees, widths",
        r("Mark", "No.", "Inside rad", "Deg", "Plate", "Width", "Grade"),
        p(arc(450, ID, 180, 3, 600, 4, "S235JR"), "G1", "4", "450", "180", "3", "600", "S235JR"),
        p(arc(450, ID, 90, 3, 600, 4, "S235JR"), "G2", "4", "450", "90", "3", "600", "S235JR"),
        p(arc(612.5, ID, 135, 4, 500, 2, "S235JR"), "G3", "2", "612.5", "135", "4", "500", "S235JR"),
        p(arc(800, ID, 60, 5, 1000, 10, "1.4301"), "G4", "10", "800", "60", "5", "1000", "1.4301"),
        p(arc(1000, ID, 45, 6, 1000, 8, "1.4301"), "G5", "8", "1000", "45", "6", "1000", "1.4301"),
        p(ask("more than a full circle", "angle"), "G6", "1", "1000", "450", "6", "1000", "1.4301"),
    ),
)  # fmt: skip
