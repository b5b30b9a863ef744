"""Sheets in millimetres in English and German."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import FLATS, ID, MEAN, OD, PRE_BENT, Part
from tests.data.sheet_parts import arc, ask, cone, cyl, ignore, line, line_or_ask, p, r, sheet

S355 = "S355J2|S355J2+N"
SHEETS = (
    sheet(
        "wind_tower_door_frames", "xlsx", "en-GB", "mean diameters, cans with two wall thicknesses, dates by week",
        r("Aeolian Dream Towers (invented), section S3", None, None, None, None),
        r("Can", "Dm [mm]", "t [mm]", "H [mm]", "Steel", "Pcs", "wk"),
        p(cyl(3200, MEAN, 18, 2400, 1, S355, due=date(2026, 12, 18)), "S3-1", 3200, 18, 2400, "S355J2+N", 1, 51),
        p(cyl(3200, MEAN, 20, 2400, 1, S355, due=date(2026, 12, 18)), "S3-2", 3200, 20, 2400, "S355J2+N", 1, 51),
        p(cone(3200, 3050, MEAN, 2400, 18, 1, S355, due=date(2027, 1, 15)), "S3-3 (conical, conc.)", "3200/3050", 18, 2400, "S355J2+N", 1, "2/2027"),
        p(ask("two walls in one can", "thickness"), "S3-4", 3050, "16/18", 2400, "S355J2+N", 1, "2/2027"),
        p(ask("void of size", "status", "length", "number"), "S3-5", 3050, 16, "tbd", "S355J2+N", 1, None),
    ),
    sheet(
        "maintenance_shutdown", "csv", "en-GB", "customer plate for some, re-rolling, repair patches, void",
        r("WO", "Task", "Qty", "Grade", "Status"),
        p(arc(1250, OD, 40, 12, 800, 2, "P265GH"), "881", "repair patch 1250 outside radius x 40 deg x 800 wide x 12 thk", "2", "P265GH", "open"),
        p(ask("customer's plate", "free issue", "material"), "882", "roll our plate 2000 x 1000 x 10 to 900 inside radius", "1", "P265GH", "open"),
        p(ignore("void"), "883", "repair patch 1250 outside radius x 60 deg x 800 wide x 12 thk", "2", "P265GH", "void"),
        p(ask("customer's part again", "re-roll"), "884", "re-round flue 1600 OD x 8 x 2000, seam rewelded by us", "1", "S235JR", "open"),
        p(cyl(1600, OD, 8, 500, 1, "S235JR"), "885", "new flue piece 1600 OD x 8 x 500", "1", "S235JR", "open"),
        p(ask("insert for a worn shell as built", "reference", "diameter", "basis"), "886", "insert to suit worn shell, survey to follow", "1", "S235JR", "open"),
    ),
    sheet(
        "pumpensumpf", "xlsx", "de-DE", "zweizeiliger Kopf, Innen oder Außen als Buchstabe, Wunschtermin",
        r("Anfrage Walzbleche   Traumpumpen KG (erfunden)   Bearb.: Niemand"),
        r("Nr", "St.", "Ø", None, "Blech", "Höhe", "Mat.", "bis"),
        r(None, None, "Maß", "i/a", "mm", "mm", None, None),
        p(cyl(1000, ID, 6, 1200, 2, "1.4301", due=date(2026, 12, 18)), 1, 2, 1000, "i", 6, 1200, "1.4301", "18.12.2026"),
        p(cyl(1024, OD, 6, 400, 2, "1.4301", due=date(2026, 12, 18)), 2, 2, 1024, "a", 6, 400, "1.4301", "18.12.2026"),
        p(ask("weder i noch a", "basis"), 3, 1, 800, None, 6, 400, "1.4301", "18.12.2026"),
        p(ask("a und i", "basis", "contradiction"), 4, 1, 800, "i/a", 6, 400, "1.4301", None),
        p(ignore("gestrichen"), 5, 1, 700, "i", 6, 400, "1.4301", None, strike=True),
        p(cyl(1000, ID, 6, 800, 1, "1.4301", say="date"), 6, 1, 1000, "i", 6, 800, "1.4301", "Anfang KW 3"),
    ),
    sheet(
        "schuesse_mit_naht", "csv", "de-DE", "Bemerkungen: Fase, ohne Fase, Lage der Naht, halb, Drittel",
        r("Pos", "Anz", "Teil", "Maße", "Güte", "Bemerkung"),
        p(cyl(1200, OD, 14, 1500, 2, S355, say="bevel"), "10", "2", "Schuss", "Da 1200 x 14 x 1500", "S355J2+N", "Fase 30° beidseitig"),
        p(cyl(1200, OD, 14, 750, 1, S355), "20", "1", "Schuss", "Da 1200 x 14 x 750", "S355J2+N", "ohne Fase"),
        p(arc(593, MEAN, 180, 14, 500, 2, S355, ends=FLATS), "30", "2", "Halbschale", "Rm 593 x 14 x 500", "S355J2+N", "gerade Enden zulässig"),
        p(arc(593, MEAN, 120, 14, 500, 3, S355), "40", "3", "Drittelschale", "Rm 593 x 14 x 500", "S355J2+N", ""),
        p(ask("Satz", "quantity"), "50", "1 Satz", "Schalen", "Rm 593 x 14 x 500", "S355J2+N", "wie besprochen"),
        p(cyl(1200, OD, 14, 300, 1, S355, say="weld"), "60", "1", "Schuss", "Da 1200 x 14 x 300", "S355J2+N", "Längsnaht voll durchgeschweißt, 100 % UT"),
        encoding="cp1252", separator=";",
    ),
    sheet(
        "dairy_shells_free_issue_two", "ods", "en-GB", "items 2 and 5 free issue in a note under the table",
        r("Item", "No. off", "i/d", "ht", "gauge", "spec"),
        p(cyl(2500, ID, 3, 1250, 2, "1.4301"), 1, 2, 2500, 1250, "3 mm", "1.4301"),
        p(ask("free issue", "free issue", "material"), 2, 4, 2500, 1000, "3 mm", "1.4301"),
        p(cyl(1800, ID, 4, 1000, 1, "1.4404"), 3, 1, 1800, 1000, "4 mm", "1.4404"),
        p(ask("SWG", "gauge", "thickness"), 4, 1, 1800, 1000, "10 swg", "1.4404"),
        p(ask("free issue", "free issue", "material"), 5, 1, 1800, 600, "4 mm", "1.4404"),
        r("Plate for items 2 & 5 will be free issued. Shells to be supplied tacked with bracing."),
        r("Quote ref 90-117, Hypothetical Dairies (invented)"),
    ),
    sheet(
        "one_part_data_form", "xlsx", "en-GB", "key and value sheet with notes and a sketch reference",
        r("ROLLED PART DATA", None, None),
        r("client", "Spectral Plant Ltd (invented)", None),
        r("tag", "HX-14 channel shell", None),
        r("no. required", "2", "incl. 1 spare"),
        r("outside diameter", "711", "mm"),
        r("wall", "12", "mm"),
        r("length over ends", "640", "mm, machined by us"),
        r("material", "P265GH", "EN 10204 3.1"),
        r("ends", "pre-bent", None),
        r("delivery", "11 December 2026", None),
        parts=(Part(line(cyl(711, OD, 12, 640, 2, "P265GH", ends=PRE_BENT, due=date(2026, 12, 11), cert=True)), 2, 10),),
    ),
    sheet(
        "silo_cones_in_halves", "xlsx", "en-GB", "cones in halves, half angle, slant, eccentric, tiny small end",
        r("No", "Qty", "Cone", "t", "Steel", "Made in"),
        p(line_or_ask("two halves: how the line is counted", cone(1500, 300, ID, 900, 6, 1, "S275JR"), doubts=("quantity", "shape")), 1, 1, "conc. 1500 ID / 300 ID x 900 vertical", 6, "S275JR", "2 halves"),
        p(line_or_ask("slant told: height is 900", cone(1500, 300, ID, 900, 6, 1, "S275JR"), doubts=("length",)), 2, 1, "conc. 1500 ID / 300 ID x 1081.7 slant height", 6, "S275JR", "1 piece"),
        p(ask("half or included angle", "angle", "length", "number"), 3, 1, "conc. 1200 ID / 300 ID, 60 deg", 6, "S275JR", "1 piece"),
        p(ask("eccentric", "eccentric"), 4, 1, "ecc. 1200 ID / 300 ID x 900 vertical, FOB", 6, "S275JR", "1 piece"),
        p(ask("full cone to a point", "diameter", "shape", "number"), 5, 1, "conc. 1200 ID to point x 700 vertical", 6, "S275JR", "2 halves"),
    ),
)  # fmt: skip
