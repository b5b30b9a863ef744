"""Sheets full of shop talk: odd work among plain shells, odd dates, sums elsewhere, remarks that cost money."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import FLATS, ID, IN, OD, PRE_BENT, Cell
from tests.data.sheet_parts import any_of, arc, ask, chord, cone, cyl, flat, ignore, line_or_ask, p, r, sheet

S355 = "S355J2|S355J2+N"
SHEETS = (
    sheet(
        "friday_afternoon_list", "xlsx", "en-US", "odd work of every kind among plain shells",
        r("Daydream Metalworks (invented) - Request for quote 7003"),
        r("IT", "QTY", "DESCRIPTION", "T", "MATL", "SPECIAL"),
        p(cyl(50, ID, 0.5, 48., 1, "A36", u=IN, say="weld"), 1, "1", "50 I.D. x 48. HT shell", ".500", "A36", "full pen weld by roller"),
        p(cyl(22.125, OD, 0.125, 10.5, 12, "304L", u=IN), 2, "12", "22-1/8 O.D. x 10½ HT band", ".125", "304L", "2B finish"),
        p(ask("last job but longer", "reference", "length"), 3, "2", "same shell as PO from June, 4 in. longer", "1/4", "A36", None),
        p(ask("ellipse", "oval", "shape"), 4, "1", "ellipse 60 x 42 x 20 long", "3/16", "A36", None),
        p(ask("flights", "not rolled", "shape", or_left_out=True), 5, "10", "auger flight sections 20 OD 6 pipe", "3/8", "AR400", None),
        p(ask("expanded metal", "material", "not rolled", "thickness"), 6, "1", "cage, expanded metal #9 flat, 30 OD x 60", None, "A36", None),
        p(any_of(cyl(84, ID, 0.375, 72, 2, "A36", u=IN), cyl(84, ID, 0.375, 144, 1, "A36", u=IN, say="courses")), 7, "1", "84 I.D. x 144 OAL, 2 courses of 72", "3/8", "A36", None),
        p(ask("U shape", "shape", "not rolled", "length", "angle"), 8, "3", "U-trough 12 rad bottom, 14 straight sides x 96", "1/4", "A36", None),
        p(arc(12, ID, 180, 0.25, 96, 3, "A36", u=IN, ends=PRE_BENT), 9, "3", "half round bottoms 12 I.R. x 96 lg", "1/4", "A36", "prebend edges"),
        p(ask("tube sheet", "not rolled", "shape", or_left_out=True), 10, "2", "tubesheet blank 30 OD, 1-3/4 thk", None, "A516-70", None),
    ),
    sheet(
        "delivery_words", "csv", "en-GB", "delivery in words; the day is Monday 30 November 2026",
        r("Item", "Qty", "O/D", "Wall", "Ht", "Grade", "Wanted"),
        p(cyl(400, OD, 6, 800, 1, "S275JR", due=date(2026, 12, 17)), "1", "1", "400", "6", "800", "S275JR", "Thu 17 Dec"),
        p(cyl(410, OD, 6, 800, 1, "S275JR", due=date(2027, 1, 11)), "2", "1", "410", "6", "800", "S275JR", "11/01/27"),
        p(cyl(420, OD, 6, 800, 1, "S275JR", say="date"), "3", "1", "420", "6", "800", "S275JR", "4 wks from order"),
        p(cyl(430, OD, 6, 800, 1, "S275JR", say="date"), "4", "1", "430", "6", "800", "S275JR", "31 November"),
        p(cyl(440, OD, 6, 800, 1, "S275JR", say="date"), "5", "1", "440", "6", "800", "S275JR", "mid Feb"),
        p(cyl(450, OD, 6, 800, 1, "S275JR", say="date"), "6", "1", "450", "6", "800", "S275JR", "before shutdown"),
        p(cyl(460, OD, 6, 800, 1, "S275JR", say="date"), "7", "1", "460", "6", "800", "S275JR", "7-11 Dec"),
        p(cyl(470, OD, 6, 800, 1, "S275JR", say="date"), "8", "1", "470", "6", "800", "S275JR", "1/1/9999"),
        p(cyl(480, OD, 6, 800, 1, "S275JR", say="date"), "9", "1", "480", "6", "800", "S275JR", "Mon 17 Dec"),
    ),
    sheet(
        "notes_rule_the_lines", "xlsx", "en-GB", "notes under the table change lines above it",
        r("Wraith Engineering (invented)", None, None, None, None, None),
        r("Ref", "Off", "Inside dia", "Plate", "Length", "Steel"),
        p(cyl(1500, ID, 10, 2000, 2, "S275JR", ends=PRE_BENT), "A", 2, 1500, 10, 2000, "S275JR"),
        p(cyl(1500, ID, 10, 1000, 1, "S275JR", ends=PRE_BENT), "B", 1, 1500, 10, 1000, "S275JR"),
        p(ask("plate by the customer, from the note", "free issue", "material"), "C", 1, 1200, 12, 1000, "S275JR"),
        p(ignore("deleted by the note"), "D", 1, 1200, 12, 500, "S275JR"),
        p(ask("the note gives another plate", "contradiction", "thickness"), "E", 1, 900, 8, 500, "S275JR"),
        r("Notes"),
        r("1. Ends to be pre-bent."),
        r("2. Ref C: plate is in your yard, ours."),
        r("3. Ref D deleted 26 Nov."),
        r("4. Ref E to be 10 mm if you have it, else 12."),
        r("5. No painting."),
    ),
    sheet(
        "roll_these_flats", "csv", "en-GB", "plates given flat, with a radius on a face; third and quarter",
        r("no.", "off", "plate (thk x across rolls x girth)", "to", "spec", "ends"),
        p(flat(1600, 1016, OD, 16, 1000, 2, S355, ends=FLATS), "1", "2", "16 x 1000 x 1600", "R1016 outside", "S355J2+N", "flats left"),
        p(flat(3110.2, 1980, ID, 10, 2000, 1, "S275JR"), "2", "1", "10 x 2000 x 3110.2", "R1980 inside", "S275JR", ""),
        p(ask("face not said", "basis"), "3", "1", "10 x 2000 x 1500", "R1500", "S275JR", ""),
        p(arc(900, ID, 120, 8, 1250, 3, "S275JR"), "4", "3", "8 x 1250, third of a circle", "R900 inside", "S275JR", ""),
        p(chord(1100, 90, ID, 8, 1250, 2, "S275JR"), "5", "2", "8 x 1250", "1100 chord, 90 rise, both on inside", "S275JR", ""),
        p(ask("girth more than the circle", "contradiction", "length", "angle", "diameter"), "6", "1", "6 x 1000 x 3000", "R400 inside", "S275JR", ""),
    ),
    sheet(
        "exhaust_stacks_two", "ods", "en-US", "quantities for both stacks said in the head; weights as a check",
        r("Quantities below are totals for both stacks", None, None, None, None, None, None),
        r("SECT", "TOTAL QTY", "ID", "THK", "LG", "STEEL", "WT EA (LB)"),
        p(cyl(48, ID, 0.25, 96, 8, "A588", u=IN), "A", 8, "48\"", "1/4\"", "96\"", "A588", 1031),
        p(cyl(48, ID, 0.1875, 96, 6, "A588", u=IN), "B", 6, "48\"", "3/16\"", "96\"", "A588", 773),
        p(cone(60, 48, ID, 30, 0.25, 2, "A588", u=IN), "T", 2, "60\" to 48\" conc.", "1/4\"", "30\"", "A588", None),
        p(line_or_ask("base ring: may be cut flat or rolled", cyl(60, ID, 1, 8, 2, "A588", u=IN), doubts=("shape", "not rolled")), "R", 2, "60\"", "1\"", "8\"", "A588", 434),
        p(ignore("struck through"), "X", Cell(2, strike=True), Cell("48\"", strike=True), Cell("3/16\"", strike=True), Cell("48\"", strike=True), Cell("A588", strike=True), None),
        p(ignore("a total"), "Total lb", None, None, None, None, None, 14494),
    ),
)  # fmt: skip
