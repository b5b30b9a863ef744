"""E-mails pasted into a text file or into column A of a book."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, IN, OD, Part
from tests.data.sheet_parts import arc, ask, cone, cyl, flat, ignore, line, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "pasted_mail_short", "txt", "en-US", "one part a line, greeting and signature",
        r("Hey Sam,"),
        r("need a price on the following by tomorrow noon if you can:"),
        r(""),
        p(cyl(36, OD, 0.25, 60, 2, "A36", u=IN), "2 - 36\" OD x 1/4 x 60\" long A36"),
        p(cyl(48, ID, 0.375, 96, 1, "A36", u=IN), "1 - 48\" ID x 3/8 x 8'-0 A36, seam open"),
        p(ask("no ID or OD", "basis"), "3 - 24\" dia x 3/16 x 36\" A36"),
        p(arc(40, ID, 180, 0.25, 48, 2, "304L", u=IN), "2 half rounds, 1/4\" 304L, 40\" inside radius x 48\" long"),
        r(""),
        r("delivery ARO? we pick up"),
        r("thx, Pat Nobody / Made-Up Iron (invented) / 555-0100"),
    ),
    sheet(
        "pasted_mail_in_column_a", "xlsx", "en-GB", "a mail pasted into a book, bullets and a quoted history",
        r("From: Chris Nemo (invented)  Sent: 27 November 2026 16:42"),
        r("Subject: RE: RE: rolling - request for quote 208"),
        r("Hi, as discussed please quote:"),
        p(cyl(1500, ID, 10, 2000, 4, "S275JR|S275", due=date(2026, 12, 18)), "• 4 no. shells 1500 i/d x 10 thk x 2000 lg, S275JR, by 18/12/2026"),
        p(cyl(762, OD, 12, 1500, 2, "S355J2|S355J2+N"), "• 2 no. shells 762 o.d. x 12 x 1500 lg in S355J2+N"),
        p(ask("what is 'the usual' material", "material"), "• 1 no. shell 900 i/d x 8 x 1000 lg in the usual"),
        p(ask("quantity", "quantity"), "• some 500 i/d x 6 x 300 lg collars S275JR, maybe 10 or 12"),
        r("Plate certs with delivery please."),
        r("> On 20 November you wrote:"),
        p(ignore("quoted old mail"), "> 3 no. shells 1400 i/d x 10 thk x 2000 lg S275JR - £ 2,400 each"),
        r("Kind regards"),
    ),
    sheet(
        "german_mail", "txt", "de-DE", "Aufzählung mit 1. 2. 3., Dezimalkomma",
        r("Guten Morgen,"),
        r("wir bitten um Ihr Angebot für folgende Walzteile (Maße in mm):"),
        p(cyl(1200, ID, 8, 1500, 2, "S235JR"), "1. 2 Stück Zylinder, di = 1200, s = 8, L = 1500, S235JR"),
        p(cyl(406.4, OD, 6.3, 1000, 5, "S355J2|S355J2+N"), "2. 5 Stück Rohrschuss Ø außen 406,4 x 6,3 x 1000, S355J2+N"),
        p(arc(750, ID, 90, 10, 800, 8, "S355J2|S355J2+N"), "3. 8 Segmente 90°, Innenradius 750, 10 mm dick, 800 breit, S355J2+N"),
        p(ask("lichte Höhe? welches Maß", "length", "number"), "4. 1 Stück Zylinder, di = 600, s = 5, S235JR, Länge wie besprochen"),
        p(ask("und dieselben noch einmal in Edelstahl", "material", "reference", "option"), "5. Pos. 1 alternativ in Edelstahl"),
        r("Mit freundlichen Grüßen, Erika Niemand (erfunden)"),
    ),
    sheet(
        "chatty_mail_one_part", "txt", "en-US", "one paragraph, one part, wrapped over lines",
        r("Morning, could you roll us one piece 1/2 plate A36 to a 30 inch inside"),
        r("radius, plate is 48 wide and 94 and a quarter long, so a half circle."),
        r("No hurry. Jo Person (invented)"),
        parts=(Part(line_or_ask("the part is told over two lines of a paragraph", flat(94.25, 30, ID, 0.5, 48, 1, "A36", u=IN),
                                arc(30, ID, 180, 0.5, 48, 1, "A36", u=IN)), 1, 2),),
        may_refuse=True,
    ),
    sheet(
        "forwarded_spanish_mail", "txt", "es-ES", "líneas con guiones, uds., ext. e int.",
        r("Buenos días, necesitamos precio para:"),
        p(cyl(1016, OD, 10, 1500, 3, "S275JR"), "- 3 uds. virola Ø ext. 1016 x 10 x 1500, S275JR"),
        p(cyl(1200, ID, 12, 800, 1, "S355J2|S355J2+N"), "- 1 ud. virola Ø int. 1200 x 12 x 800, S355J2+N"),
        p(arc(500, ID, 180, 6, 1000, 4, "S275JR"), "- 4 uds. media caña R int. 500 x 6 x 1000, S275JR"),
        p(ask("sin int. ni ext.", "basis"), "- 2 uds. virola Ø 600 x 8 x 400, S275JR"),
        r("Plazo: lo antes posible. Saludos, Fulano de Tal (inventado)"),
    ),
    sheet(
        "mail_with_flat_plates", "txt", "en-US", "roll flat plates to radius; rolled to; odd separators",
        r("Rolling only quote pls. Our plate? No - you supply."),
        p(flat(75.4, 24, ID, 0.25, 60, 2, "A36", u=IN), "(2) PL 1/4 x 60 x 75.4 A36 rolled to 24\" inside radius, axis along the 60"),
        p(cone(30, 12, ID, 20, 0.1875, 1, "A36", u=IN), "(1) cone 30 ID / 12 ID x 20 vert ht x 3/16 A36"),
        p(line(cyl(20, OD, 0.25, 24, 4, "A36", u=IN), cyl(20, OD, 0.25, 36, 2, "A36", u=IN)),
          "(6) 20 OD x 1/4 A36: 4 @ 24\" lg + 2 @ 36\" lg"),
        p(ask("roll to match the customer's tank", "reference", "basis", "diameter"), "(1) PL 3/8 x 48 x 96 A36 roll to suit existing tank"),
        r("Thanks!!"),
    ),
)  # fmt: skip
