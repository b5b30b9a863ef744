"""Long plain lists, as most sheets are: nearly every row can be priced, each shop with habits of its own."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, IN, OD
from tests.data.sheet_parts import arc, ask, cyl, ignore, p, r, sheet

S355 = "S355J2|S355J2+N"
DEC18 = date(2026, 12, 18)

SHEETS = (
    sheet(
        "monthly_call_for_prices", "xlsx", "en-US", "a buyer's standard list: part and rev, decimals, one bad row",
        r("VENDOR RFQ", None, None, None, "Mock Mechanical (invented)", None, None, None, None, None),
        r("RFQ 88-1203", None, "Due back 12/02/2026"),
        r(),
        r("Ln", "Part Number", "Rv", "Description", "Qty", "O/D", "Wall", "Length", "Material", "Req Date"),
        p(cyl(12.75, OD, 0.25, 24, 10, "A36", u=IN, part="MM-3001", rev="A", due=DEC18), 1, "MM-3001", "A", "SPOOL", 10, "12.750", "0.250", "24.000", "A36", date(2026, 12, 18)),
        p(cyl(16, OD, 0.25, 24, 10, "A36", u=IN, part="MM-3002", rev="A", due=DEC18), 2, "MM-3002", "A", "SPOOL", 10, "16.000", "0.250", "24.000", "A36", date(2026, 12, 18)),
        p(cyl(18, OD, 0.375, 18.5, 4, "A36", u=IN, part="MM-3003", rev="C", due=DEC18), 3, "MM-3003", "C", "SPOOL", 4, "18.000", "0.375", "18.500", "A36", date(2026, 12, 18)),
        p(cyl(20, OD, 0.375, 30.25, 4, "A36", u=IN, part="MM-3004", rev="B", due=DEC18), 4, "MM-3004", "B", "SPOOL", 4, "20.000", "0.375", "30.250", "A36", date(2026, 12, 18)),
        p(cyl(24, OD, 0.5, 36, 2, "A36", u=IN, part="MM-3005", rev="A", due=DEC18), 5, "MM-3005", "A", "SPOOL", 2, "24.000", "0.500", "36.000", "A36", date(2026, 12, 18)),
        p(ask("no wall", "thickness"), 6, "MM-3006", "A", "SPOOL", 2, "24.000", None, "36.000", "A36", date(2026, 12, 18)),
        p(cyl(30, OD, 0.375, 48, 1, "A516-70", u=IN, part="MM-3010", rev="A", due=date(2027, 1, 8)), 7, "MM-3010", "A", "BOOT", 1, "30.000", "0.375", "48.000", "SA-516-70", date(2027, 1, 8)),
        p(cyl(36, OD, 0.375, 60, 1, "A516-70", u=IN, part="MM-3011", rev="A", due=date(2027, 1, 8)), 8, "MM-3011", "A", "BOOT", 1, "36.000", "0.375", "60.000", "SA-516-70", date(2027, 1, 8)),
        p(cyl(14, OD, 0.1875, 40, 6, "304L", u=IN, part="MM-3020", rev="D", due=date(2027, 1, 8)), 9, "MM-3020", "D", "FILTER", 6, "14.000", "0.1875", "40.000", "304L", date(2027, 1, 8)),
        p(cyl(14, OD, 0.1875, 44, 6, "304L", u=IN, part="MM-3021", rev="D", due=date(2027, 1, 8)), 10, "MM-3021", "D", "FILTER", 6, "14.000", "0.1875", "44.000", "304L", date(2027, 1, 8)),
        r("END OF RFQ"),
    ),
    sheet(
        "hopper_maker_metric", "csv", "en-GB", "the usual shells of one maker, two of them half shells",
        r("pos", "descr", "ID", "t", "H", "mat", "pcs"),
        p(cyl(600, ID, 4, 1000, 2, "S275JR"), "1", "hopper body", "600", "4", "1000", "S275JR", "2"),
        p(cyl(800, ID, 4, 1000, 2, "S275JR"), "2", "hopper body", "800", "4", "1000", "S275JR", "2"),
        p(cyl(1000, ID, 5, 1250, 2, "S275JR"), "3", "hopper body", "1000", "5", "1250", "S275JR", "2"),
        p(cyl(1200, ID, 5, 1250, 1, "S275JR"), "4", "hopper body", "1200", "5", "1250", "S275JR", "1"),
        p(cyl(1400, ID, 6, 1500, 1, "S275JR"), "5", "hopper body", "1400", "6", "1500", "S275JR", "1"),
        p(arc(300, ID, 180, 6, 750, 4, "AR400"), "6", "half liner", "600", "6", "750", "AR400", "4"),
        p(arc(400, ID, 180, 6, 750, 4, "AR400"), "7", "half liner", "800", "6", "750", "AR400", "4"),
        p(cyl(250, ID, 6, 200, 8, "S275JR"), "8", "outlet stub", "250", "6", "200", "S275JR", "8"),
        p(cyl(300, ID, 6, 200, 8, "S275JR"), "9", "outlet stub", "300", "6", "200", "S275JR", "8"),
        p(ignore("sum"), "", "total pieces", "", "", "", "", "32"),
    ),
    sheet(
        "rohrbau_liste", "xlsx", "de-DE", "viele Rohrschüsse in einer Tabelle, Zahlen als Zahlen",
        r("Walzliste Dezember – Luftschloss Rohrbau (erfunden)"),
        r("Pos.", "Bauteil", "Anzahl", "Außen-Ø", "Wand", "Länge", "Werkstoff", "APZ"),
        p(cyl(406.4, OD, 8.8, 1000, 4, S355, cert=True), 10, "Rohrschuss", 4, 406.4, 8.8, 1000, "S355J2+N", "3.1"),
        p(cyl(457, OD, 8.8, 1000, 4, S355, cert=True), 20, "Rohrschuss", 4, 457, 8.8, 1000, "S355J2+N", "3.1"),
        p(cyl(508, OD, 10, 1250, 2, S355, cert=True), 30, "Rohrschuss", 2, 508, 10, 1250, "S355J2+N", "3.1"),
        p(cyl(610, OD, 10, 1250.5, 2, S355, cert=True), 40, "Rohrschuss", 2, 610, 10, 1250.5, "S355J2+N", "3.1"),
        p(cyl(711, OD, 12.5, 1500, 2, S355, cert=True), 50, "Rohrschuss", 2, 711, 12.5, 1500, "S355J2+N", "3.1"),
        p(cyl(813, OD, 12.5, 1500, 1, "S235JR"), 60, "Rohrschuss", 1, 813, 12.5, 1500, "S235JR", None),
        p(cyl(914, OD, 12.5, 2000, 1, "S235JR"), 70, "Rohrschuss", 1, 914, 12.5, 2000, "S235JR", None),
        p(cyl(1016, OD, 16, 2000, 1, "S235JR"), 80, "Rohrschuss", 1, 1016, 16, 2000, "S235JR", None),
        p(ignore("Übertrag"), None, "Übertrag", 17, None, None, None, None, None),
    ),
    sheet(
        "nominal_sizes_dn", "ods", "en-GB", "DN beside an outside diameter, and DN alone",
        r("Tag", "No.", "Size", "Wall", "Cut length", "Grade", "Remark"),
        p(cyl(711, OD, 10, 1500, 2, S355), "P1", 2, "DN 700 (OD 711)", 10, 1500, "S355J2+N", "fabricated pipe"),
        p(cyl(1016, OD, 12, 1500, 1, S355), "P2", 1, "DN1000, 1016 OD", 12, 1500, "S355J2+N", "fabricated pipe"),
        p(ask("DN alone is no diameter", "pipe", "basis", "diameter"), "P3", 1, "DN 900", 12, 1500, "S355J2+N", "fabricated pipe"),
        p(ask("DN alone with a schedule", "pipe", "basis", "thickness", "diameter"), "P4", 1, "DN 600", "Sch 40", 1000, "S355J2+N", None),
        p(ask("DN and an outside diameter that do not go together", "contradiction", "pipe", "diameter", "basis"), "P5", 1, "DN 700 (OD 813)", 10, 1000, "S355J2+N", None),
    ),
    sheet(
        "no_heads_at_all", "csv", "en-US", "a list without a heading row, marks in the cells",
        p(cyl(36, OD, 0.25, 60, 2, "A36", u=IN), "2 pcs", "36\" OD", "1/4\" thk", "60\" long", "A36"),
        p(cyl(30, ID, 0.375, 48, 1, "A36", u=IN), "1 pc", "30\" ID", "3/8\" thk", "48\" long", "A36"),
        p(cyl(24, OD, 0.1875, 40, 5, "304L", u=IN), "5 pcs", "24\" OD", "3/16\" thk", "40\" long", "304L"),
        p(ask("no inside or outside", "basis"), "1 pc", "20\" dia", "3/16\" thk", "40\" long", "304L"),
    ),
    sheet(
        "columns_of_blanks_pasted", "txt", "en-GB", "a table pasted as text with runs of blanks, thin spaces, Cyrillic x",
        r("Item   Off   Size (i/d х thk х lg)          Grade"),
        p(cyl(1200, ID, 8, 1500, 2, "S275JR"), "1      2     1\u2009200 х 8 х 1\u2009500             S275JR"),
        p(cyl(900, ID, 6, 1000, 4, "S275JR"), "2      4     900 х 6 х 1\u2009000               S275JR"),
        p(cyl(900, ID, 6, 750, 1, "1.4301"), "3      1     900 х 6 х 750                 1.4301"),
        p(ignore("void"), "4      1     900 х 6 х 500                 void"),
        r("-----------------------------------------------------"),
    ),
)  # fmt: skip
