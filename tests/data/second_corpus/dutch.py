"""Lists from the Netherlands and Flanders: mantelplaten, uitw./inw., straal, RVS, week, vervalt."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import FLATS, ID, OD
from tests.data.sheet_parts import arc, ask, chord, cyl, ignore, p, r, sheet

SHEETS = (
    sheet(
        "prijsaanvraag_walswerk", "xlsx", "nl-NL", "walswerk, week, vervalt, RVS without a number",
        r("Prijsaanvraag walswerk", None, None, "Verzonnen Tankbouw BV (bestaat niet)"),
        r("leverweek zie lijst; prijs af fabriek"),
        r("pos", "aantal", "omschrijving", "dikte", "inw. Ø", "hoogte", "materiaal", "week"),
        p(cyl(1800, ID, 6, 1500, 3, "S235JR", due=date(2026, 12, 11)), 1, 3, "mantelplaat", 6, 1800, 1500, "S235JR", 50),
        p(cyl(1800, ID, 8, 1500, 1, "S235JR", due=date(2026, 12, 11)), 2, 1, "mantelplaat onder", 8, 1800, 1500, "S235JR", 50),
        p(cyl(600, ID, 5, 400, 2, "304/304L|304|1.4301", due=date(2026, 12, 18)), 3, 2, "mangathals", 5, 600, 400, "RVS 304", 51),
        p(ask("RVS zonder nummer", "material"), 4, 2, "hals", 4, 300, 200, "RVS", 51),
        p(ignore("vervalt"), 5, 2, "hals", 4, 250, 200, "RVS 304", "vervalt"),
        p(ask("in de wacht", "status"), 6, 1, "mantelplaat", 6, 1800, 1000, "S235JR", "on hold"),
    ),
    sheet(
        "gebogen_platen", "csv", "nl-NL", "straal en koorde, kwart en half, gemengd in een kolom",
        r("merk", "st.", "plaat", "maat", "kwaliteit"),
        p(arc(900, ID, 90, 10, 1200, 4, "S355J2|S355J2+N"), "G1", "4", "gewalste plaat 10 mm, breed 1200", "straal inw. 900, 90 graden", "S355J2+N"),
        p(chord(1200, 160.8, ID, 6, 600, 2, "S235JR"), "G2", "2", "gewalste plaat 6 mm, breed 600", "koorde inw. 1200, pijl 160,8", "S235JR"),
        p(arc(500, OD, 180, 5, 1000, 2, "S235JR", ends=FLATS), "G3", "2", "halve schaal 5 mm, lang 1000, recht eind toegestaan", "straal uitw. 500", "S235JR"),
        p(arc(500, OD, 90, 5, 1000, 4, "S235JR"), "G4", "4", "kwart schaal 5 mm, lang 1000", "straal uitw. 500", "S235JR"),
        p(ask("hoek ontbreekt", "angle"), "G5", "1", "segment 8 mm, breed 400", "straal inw. 700", "S235JR"),
        p(ask("hart of binnen", "basis"), "G6", "1", "segment 8 mm, breed 400, 60 graden", "straal 700", "S235JR"),
        separator=";",
    ),
    sheet(
        "offerte_buizen_havens", "xlsx", "nl-BE", "stalen buizen, dates with dashes and slashes, no-break spaces",
        r("Buispalen Fantasiehaven (verzonnen)"),
        r("Item", "Stuks", "Uitw. diameter [mm]", "Wanddikte [mm]", "Lengte [mm]", "Staal", "Gewenste levering", "Opm."),
        p(cyl(1420, OD, 16, 2500, 6, "S355J2|S355J2+N", due=date(2027, 1, 15)), 1, 6, "1\u00a0420", "16", "2\u00a0500", "S355J2+N", "15-01-2027", None),
        p(cyl(1420, OD, 18, 1000, 2, "S355J2|S355J2+N", due=date(2027, 1, 15), say="bevel"), 2, 2, "1\u00a0420", "18", "1\u00a0000", "S355J2+N", "15-01-2027", "LNV 30° beide zijden"),
        p(cyl(1220, OD, 14, 2000, 1, "S355J2|S355J2+N", say="date"), 3, 1, "1\u00a0220", "14", "2\u00a0000", "S355J2+N", "30-02-2027", None),
        p(cyl(1220, OD, 14, 1500, 1, "S355J2|S355J2+N", say="date"), 4, 1, "1\u00a0220", "14", "1\u00a0500", "S355J2+N", "spoed", None),
    ),
)  # fmt: skip
