"""Sheets in inches from the United States and Canada."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import FLATS, ID, IN, OD, PRE_BENT, Cell, Formula
from tests.data.sheet_parts import arc, ask, chord, cone, cyl, flat, ignore, line, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "dust_collector_bom", "xlsx", "en-US", "a bill of material with bought parts, rolled parts among them",
        r("BOM / Vapor Dust Collectors (invented) / unit DC-9", None, None, None, None, None, None),
        r("FIND", "QTY", "NOMENCLATURE", "SIZE", "STOCK", "WT", "SRC"),
        p(cyl(54, OD, 0.1875, 71.5, 2, "A36", u=IN), 1, 2, "HOUSING SHELL, ROLLED", "54\" OD X 71-1/2\" LG", "3/16 PL A36", 640, "ROLL"),
        p(cone(54, 12, OD, 42.25, 0.1875, 1, "A36", u=IN), 2, 1, "HOPPER CONE, ROLLED (CONC)", "54 OD X 12 OD X 42 1/4 VERT HT", "3/16 PL A36", 310, "ROLL"),
        p(ignore("bought part"), 3, 1, "ROTARY VALVE", "12\"", "-", None, "BUY"),
        p(ignore("bought part"), 4, 24, "HEX BOLT", "1/2 X 1 1/2", "GR 5", None, "BUY"),
        p(ask("12 NB collar: nominal size, wall", "pipe", "basis", "thickness"), 5, 1, "COLLAR, ROLLED", "12 NB X 6 LG", "A36", 25, "ROLL"),
        p(arc(27.1875, ID, 60, 0.25, 8, 4, "A36", u=IN), 6, 4, "LUG PAD, ROLLED", "27-3/16 I.R. X 60 DEG X 8 WIDE", "1/4 PL A36", None, "ROLL"),
        p(ignore("sheet cut flat"), 7, 1, "ACCESS DOOR", "18 X 18", "10 GA A1011", None, "CUT"),
    ),
    sheet(
        "phone_notes", "csv", "en-US", "notes taken on the phone, lower case, no rule lines",
        r("for", "made up millwrights (invented) call back fri", "", ""),
        r("how many", "what", "stuff", "when"),
        p(cyl(60, ID, 0.375, 40, 1, "A36", u=IN, due=date(2026, 12, 11)), "1", "60 in id ring 40 wide 3/8", "a36", "dec 11"),
        p(line_or_ask("same as the line above, a size apart", cyl(60, OD, 0.375, 40, 1, "A36", u=IN, due=date(2026, 12, 11)), doubts=("reference", "length", "thickness")), "1", "same but 60 od", "a36", "dec 11"),
        p(arc(45, ID, 90, 0.5, 36, 4, "AR400", u=IN, due=date(2026, 12, 18)), "4", "quarter rounds 45 inside rad 36 wide 1/2", "ar400", "dec 18"),
        p(ask("dia bare", "basis"), "2", "28 dia x 18 x 1/4", "a36", "dec 18"),
        p(ask("to match what they have", "reference", "diameter", "basis"), "1", "liner to match the old one", "ar400", "?"),
    ),
    sheet(
        "water_tank_rings", "xlsx", "en-US", "feet diameters, ring plates per ring, one ring on hold",
        r("STANDPIPE No. 4 - plate schedule", None, None, None, None, None),
        r("Nonesuch Tank Erectors (invented)"),
        r("Ring", "Plates per ring", "Tank dia (inside)", "Plate thk", "Plate size", "Grade", "Edges"),
        p(line_or_ask("four plates make the ring: 90 degrees each, girth agrees", arc(15 * 12 / 2, ID, 90, 0.5, 96, 4, "A36", u=IN, say="bevel"),
                      flat(141.764, 90, ID, 0.5, 96, 4, "A36", u=IN, say="bevel"), doubts=("quantity", "bevel", "angle")),
          1, 4, "15'-0\"", "1/2", "96 x 11'-9 3/4\"", "A36", "bevel per API"),
        p(line_or_ask("four plates make the ring", arc(90, ID, 90, 0.375, 96, 4, "A36", u=IN), doubts=("quantity", "angle")), 2, 4, "15'-0\"", "3/8", "96 x 11'-9 5/8\"", "A36", "square"),
        p(ask("hold", "status"), 3, 4, "15'-0\"", "5/16", "96 x 11'-9 5/8\"", "A36", "HOLD"),
        p(ask("roof knuckle", "not rolled", "shape", or_left_out=True), "K", 8, "15'-0\"", "3/8", "knuckle 24\" R, dished", "A36", None),
    ),
    sheet(
        "stainless_ductwork_ga", "ods", "en-US", "gauge stainless, lap seam, gauge against decimals",
        r("Mirage HVAC (invented) - welded duct, material 316L"),
        r("Tag", "Qty", "Gage", "ID", "Sect. Lgth", "Comment"),
        p(line_or_ask("stainless gauge table", cyl(24, ID, 0.141, 60, 6, "316L", u=IN), cyl(24, ID, 0.1406, 60, 6, "316L", u=IN), doubts=("gauge", "thickness")), "D1", 6, "10 ga", "24", "60", None),
        p(line_or_ask("stainless gauge table", cyl(18, ID, 0.1094, 48.5, 3, "316L", u=IN), cyl(18, ID, 0.109, 48.5, 3, "316L", u=IN), doubts=("gauge", "thickness")), "D2", 3, "12 ga", "18", "48 1/2", None),
        p(ask("gauge against a decimal", "gauge", "contradiction", "thickness"), "D3", 3, "12 ga (.125)", "18", "36", None),
        p(cyl(16, ID, 0.1875, 30, 2, "316L", u=IN), "D4", 2, "3/16", "16", "30", "heavy wall"),
        p(ask("square duct is not rolled", "shape", "not rolled", or_left_out=True), "D5", 2, "12 ga", "16 x 16 square", "30", None),
    ),
    sheet(
        "chords_and_arclengths", "csv", "en-US", "architect's curved fascia by chord, arc length, radius to outside",
        r("piece", "no.", "thickness", "geometry", "height", "alloy", "finish"),
        p(chord(120, 6.5, OD, 0.25, 24, 3, "304L|304", u=IN), "F1", "3", "1/4", "120\" outside chord w/ 6.5\" rise", "24", "304L", ""),
        p(flat(94.2, 180, OD, 0.1875, 30, 2, "5052-H32|5052", u=IN), "F2", "2", "3/16", "180\" outside radius, flat length 94.2\"", "30", "5052-H32", "mill"),
        p(ask("arc length on which face, or neutral", "basis", "length", "angle"), "F3", "2", ".19", "R 150, arc length 80\"", "30", "5052-H32", "mill"),
        p(ask("mirror finish: which side out", "extra", "material", "scope"), "F4", "1", "1/4", "96\" outside radius x 45 deg", "18", "304L", "No. 8 mirror, no roll marks"),
        p(ask("compound curve", "not rolled", "shape", or_left_out=True), "F5", "1", "1/8", "compound curve, see model", "20", "5052-H32", ""),
    ),
    sheet(
        "pile_sleeves_revision_b", "xlsx", "en-US", "part and rev, revised quantities struck in the cell, totals",
        r("Part No", "Rev", "Rev'd Qty", "O.D.", "W.T.", "Lg", "Mat'l Spec", "Cert", "Prep"),
        p(cyl(42, OD, 0.75, 84, 5, "A572-50", u=IN, part="PS-42-1", rev="B", cert=True, say="bevel"), "PS-42-1", "B", Cell("5", struck="4 "), "42\"", "3/4\"", "7'-0\"", "A572-50", "Y", "bevel one end 30 deg"),
        p(cyl(42, OD, 1, 60, 3, "A572-50", u=IN, part="PS-42-2", rev="A", cert=True), "PS-42-2", "A", 3, "42\"", "1\"", "5'-0\"", "A572-50", "Y", "square"),
        p(ask("revision not fixed", "revision", "status", "reference"), "PS-36-1", "latest", 2, "36\"", "3/4\"", "4'-0\"", "A572-50", "Y", "square"),
        p(ignore("superseded"), "PS-36-0", "A", 2, "36\"", "5/8\"", "4'-0\"", "A572-50", "Y", "superseded by PS-36-1"),
        p(ignore("total"), None, None, Formula("=SUM(C2:C5)", 12), None, None, None, None, None, "pcs"),
    ),
    sheet(
        "ranch_culverts", "txt", "en-CA", "a farmer's message",
        r("hello from Nowhere Ranch (invented)"),
        p(cyl(48, ID, 0.25, 96, 3, "A36", u=IN), "3 culvert pipes 48\" inside, 1/4\" A36 plate, 8' long"),
        p(arc(24, ID, 180, 0.25, 72, 2, "A36", u=IN, ends=FLATS), "2 half pipes for feed troughs, 24\" inside radius, 1/4\" A36, 6' long, flat edges fine"),
        p(ask("what is old plate, customer's", "free issue", "material", "thickness"), "1 ring out of the plate I have here, about 5 ft across"),
        r("can pick up any day but Sunday"),
    ),
    sheet(
        "two_options_bid", "xlsx", "en-US", "bid with alternates, price breaks, pre-bend in note",
        r("Bid item", "Base qty", "Also price", "Desc", "Spec"),
        p(cyl(36, ID, 0.375, 60, 10, "A36", u=IN, ends=PRE_BENT), "1", 10, "25, 50", "shell 36 ID x 3/8 x 60", "A36"),
        p(ask("alternate to 1", "option", "contradiction"), "1 ALT", 10, "25, 50", "shell 36 ID x 5/16 x 60 in lieu of 1", "A36"),
        p(cyl(36, ID, 0.25, 12, 20, "A36", u=IN, ends=PRE_BENT), "2", 20, None, "band 36 ID x 1/4 x 12", "A36"),
        p(line_or_ask("a row twice", cyl(36, ID, 0.25, 12, 20, "A36", u=IN, ends=PRE_BENT), doubts=("duplicate",)), "2", 20, None, "band 36 ID x 1/4 x 12", "A36"),
        r("All ends pre-bent."),
    ),
    sheet(
        "welding_shop_form", "xlsx", "en-US", "labels without colon in the head, values beneath",
        r("Customer", "Date", "Quote due"),
        r("Figment Welding (invented)", "Nov 28 2026", "Dec 2"),
        r(),
        r("Cust PN", "Rolled to", "Plate T x W", "Pcs", "Type of steel", "Seam"),
        p(cyl(20, OD, 0.25, 30, 8, "A36", u=IN, part="FW-1"), "FW-1", "20 O.D. full circle", "1/4 x 30", 8, "A36", "by us"),
        p(cyl(19.5, ID, 0.25, 12, 8, "A36", u=IN, part="FW-2"), "FW-2", "19 1/2 I.D. full circle", "1/4 x 12", 8, "A36", "by us"),
        p(arc(60, ID, 35, 0.5, 20, 2, "A36", u=IN, part="FW-3"), "FW-3", "60 inside rad., 35 deg", "1/2 x 20", 2, "A36", None),
        p(line(cyl(24, OD, 0.25, 24, 1, "304L", u=IN, part="FW-4", say="date")), "FW-4", "24 O.D. full circle", "1/4 x 24", 1, "304L", "by us, RUSH"),
    ),
)  # fmt: skip
