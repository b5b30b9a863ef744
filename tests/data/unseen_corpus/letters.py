"""Letters and e-mails pasted as text or into a column of a book."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, IN, OD
from tests.data.sheet_parts import arc, ask, cone, cyl, ignore, p, r, sheet

S355 = "S355J2|S355J2+N"
SHEETS = (
    sheet(
        "buyer_mail_numbered", "txt", "en-GB", "numbered lines, terms, a line withdrawn",
        r("Good afternoon, kindly quote for the following, all in S355J2+N:"),
        p(cyl(1422, OD, 20, 2400, 2, S355), "1) 2 off cans, 1422 O.D. x 20 wall x 2400 long"),
        p(cyl(1422, OD, 16, 1200, 1, S355), "2) 1 off can, 1422 O.D. x 16 wall x 1200 long"),
        p(ignore("withdrawn"), "3) withdrawn"),
        p(ask("no wall", "thickness"), "4) 1 off can, 1422 O.D. x 900 long"),
        p(cyl(1000, ID, 16, 400, 6, "S275JR"), "5) 6 off stubs, 1000 I.D. x 16 wall x 400 long, but in S275JR"),
        r("Payment 60 days. Regards, A. N. Other (invented), Vapour Offshore (invented)"),
    ),
    sheet(
        "courriel_atelier", "txt", "fr-FR", "lignes avec tirets, diamètre int./ext., délai",
        r("Bonjour, merci de chiffrer :"),
        p(cyl(1200, ID, 10, 1500, 2, "S235JR"), "– 2 viroles Ø int. 1 200, ép. 10, hauteur 1 500, S235JR"),
        p(arc(600, OD, 180, 8, 1000, 4, "S235JR"), "– 4 demi-viroles R ext. 600, ép. 8, longueur 1 000, S235JR"),
        p(ask("sans int. ni ext.", "basis"), "– 1 virole Ø 800, ép. 6, hauteur 900, S235JR"),
        p(ask("cône excentré", "eccentric"), "– 1 cône excentré Ø int. 1 200 / 800, ép. 10, hauteur 600, S235JR"),
        r("Cordialement, J. Personne (inventé)"),
    ),
    sheet(
        "us_mail_pasted_in_book", "xlsx", "en-US", "lines in column A, qty at the end of each",
        r("RE: Sample Works (invented) - Request for quote 5120"),
        r("pls quote - seams open, we weld"),
        p(cyl(30, OD, 0.25, 48, 4, "A36", u=IN), "shell 30\" OD x 1/4\" x 48\" A36 - 4 ea"),
        p(cyl(30, ID, 0.25, 20, 2, "A36", u=IN), "shell 30\" ID x 1/4\" x 20\" A36 - 2 ea"),
        p(cone(30, 14, ID, 16, 0.25, 1, "A36", u=IN), "conc. cone 30\" ID x 14\" ID x 16\" vert. ht. x 1/4\" A36 - 1 ea"),
        p(ask("copy of an old order", "reference"), "plus whatever we ordered last March, same qty"),
        p(ask("quantity missing", "quantity"), "shell 42\" ID x 3/8\" x 60\" A36"),
    ),
    sheet(
        "kurze_mail", "txt", "de-DE", "Mail mit Zeilenumbruch je Teil, Termin im Satz",
        r("Hallo zusammen, bitte Preis und Termin:"),
        p(cyl(800, OD, 10, 1200, 3, "S235JR"), "3x Rohr Da=800, t=10, L=1200, S235JR"),
        p(arc(400, ID, 180, 6, 1000, 2, "1.4301"), "2x Halbschale Ri=400, t=6, L=1000, 1.4301"),
        p(ask("beigestellt", "free issue", "material"), "1x Rohr Da=600, t=8, L=1500, Blech stellen wir bei"),
        p(cyl(600, OD, 8, 500, 2, "S235JR", due=date(2026, 12, 18)), "2x Rohr Da=600, t=8, L=500, S235JR, bis 18.12.2026"),
        r("MfG N. N. (erfunden)"),
    ),
)  # fmt: skip
