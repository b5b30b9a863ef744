"""Dates as people give them; the sheet is read on Monday 30 November 2026."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, IN, OD
from tests.data.sheet_parts import cyl, ignore, line_or_ask, p, r, sheet

B = "S235JR"
SHEETS = (
    sheet(
        "dates_german", "csv", "de-DE", "KW in many forms, Ende, Mitte, sofort, Abruf",
        r("Pos", "Stk", "Ø außen", "s", "L", "Güte", "Liefertermin"),
        p(cyl(500, OD, 6, 1000, 1, B, due=date(2026, 12, 11)), "1", "1", "500", "6", "1000", B, "KW 50"),
        p(cyl(510, OD, 6, 1000, 1, B, due=date(2027, 1, 15)), "2", "1", "510", "6", "1000", B, "KW 02/27"),
        p(cyl(520, OD, 6, 1000, 1, B, due=date(2026, 12, 17)), "3", "1", "520", "6", "1000", B, "17.12.26"),
        p(cyl(530, OD, 6, 1000, 1, B, say="date"), "4", "1", "530", "6", "1000", B, "sofort"),
        p(cyl(540, OD, 6, 1000, 1, B, say="date"), "5", "1", "540", "6", "1000", B, "Mitte Januar"),
        p(cyl(550, OD, 6, 1000, 1, B, say="date"), "6", "1", "550", "6", "1000", B, "auf Abruf"),
        p(cyl(560, OD, 6, 1000, 1, B, say="date"), "7", "1", "560", "6", "1000", B, "KW 54"),
        p(cyl(570, OD, 6, 1000, 1, B, say="date"), "8", "1", "570", "6", "1000", B, "3 Wochen nach Bestellung"),
        separator=";",
    ),
    sheet(
        "dates_english", "xlsx", "en-GB", "weekdays, ranges, impossible and long-gone dates, week commencing",
        r("Ref", "Qty", "I.D.", "Thk", "Long", "Grade", "Required by"),
        p(cyl(600, ID, 6, 1000, 1, B, due=date(2026, 12, 11)), "a", 1, 600, 6, 1000, B, "Fri 11 Dec"),
        p(cyl(610, ID, 6, 1000, 1, B, due=date(2026, 12, 18)), "b", 1, 610, 6, 1000, B, date(2026, 12, 18)),
        p(cyl(620, ID, 6, 1000, 1, B, say="date"), "c", 1, 620, 6, 1000, B, "Fri 12 Dec"),
        p(cyl(630, ID, 6, 1000, 1, B, say="date"), "d", 1, 630, 6, 1000, B, "14 - 18 Dec"),
        p(cyl(640, ID, 6, 1000, 1, B, say="date"), "e", 1, 640, 6, 1000, B, "30 February"),
        p(cyl(650, ID, 6, 1000, 1, B, say="date"), "f", 1, 650, 6, 1000, B, "31/12/9999"),
        p(cyl(660, ID, 6, 1000, 1, B, say="date"), "g", 1, 660, 6, 1000, B, date(2025, 12, 18)),
        p(cyl(670, ID, 6, 1000, 1, B, say="date"), "h", 1, 670, 6, 1000, B, "2-3 weeks from order"),
        p(cyl(680, ID, 6, 1000, 1, B, say="date"), "i", 1, 680, 6, 1000, B, "end of Jan"),
        p(cyl(690, ID, 6, 1000, 1, B), "j", 1, 690, 6, 1000, B, None),
        p(cyl(700, ID, 6, 1000, 1, B, due=date(2026, 12, 21)), "k", 1, 700, 6, 1000, B, "21st December 2026"),
    ),
    sheet(
        "dates_american", "csv", "en-US", "month first or day first, ASAP, lead times, week of",
        r("Item", "Qty", "OD", "Thk", "Len", "Mat", "Ship date"),
        p(cyl(24, OD, 0.25, 30, 1, "A36", u=IN, due=date(2026, 12, 18)), "1", "1", "24", "1/4", "30", "A36", "12/18"),
        p(line_or_ask("5 December or 12 May: the column settles it", cyl(24, OD, 0.25, 31, 1, "A36", u=IN, due=date(2026, 12, 5)), doubts=("date",)), "2", "1", "24", "1/4", "31", "A36", "12/5"),
        p(cyl(24, OD, 0.25, 32, 1, "A36", u=IN, say="date"), "3", "1", "24", "1/4", "32", "A36", "ASAP"),
        p(cyl(24, OD, 0.25, 33, 1, "A36", u=IN, due=date(2026, 12, 23)), "4", "1", "24", "1/4", "33", "A36", "Dec 23, 2026"),
        p(cyl(24, OD, 0.25, 34, 1, "A36", u=IN, say="date"), "5", "1", "24", "1/4", "34", "A36", "2 wks ARO"),
        p(cyl(24, OD, 0.25, 35, 1, "A36", u=IN, say="date"), "6", "1", "24", "1/4", "35", "A36", "yesterday :)"),
        p(cyl(24, OD, 0.25, 36, 1, "A36", u=IN, say="date"), "7", "1", "24", "1/4", "36", "A36", "week of 12/14"),
        p(ignore("moved to another order"), "8", "1", "24", "1/4", "37", "A36", "CANCELLED 11/20"),
    ),
    sheet(
        "date_for_all_in_the_head", "xlsx", "en-US", "one date in the title block holds for every line",
        r("Nil Fabrication (invented)", None, None, "PO to follow"),
        r("Delivery required:", None, date(2026, 12, 16)),
        r("Line", "Qty", "ID", "Thk", "Width", "Mat", "Del."),
        p(cyl(36, ID, 0.25, 48, 2, "A36", u=IN, due=date(2026, 12, 16)), 1, 2, 36, "1/4", 48, "A36", None),
        p(cyl(40, ID, 0.25, 48, 1, "A36", u=IN, due=date(2026, 12, 23)), 2, 1, 40, "1/4", 48, "A36", date(2026, 12, 23)),
        p(cyl(40, ID, 0.25, 24, 1, "A36", u=IN, say="date"), 3, 1, 40, "1/4", 24, "A36", "split ship ok, see buyer"),
    ),
    sheet(
        "serial_dates_as_numbers", "csv", "en-GB", "a date column that lost its format",
        r("Item", "Qty", "O.D.", "Wall", "Length", "Material", "Delivery"),
        p(line_or_ask("46366 is 2026-12-10 as a spreadsheet counts", cyl(300, OD, 8, 500, 4, B), doubts=("date",)), "1", "4", "300", "8", "500", B, "46366"),
        p(cyl(320, OD, 8, 500, 4, B, due=date(2026, 12, 10)), "2", "4", "320", "8", "500", B, "10-Dec-26"),
        p(cyl(340, OD, 8, 500, 4, B, due=date(2026, 12, 10)), "3", "4", "340", "8", "500", B, "10.12.2026"),
    ),
)  # fmt: skip
