"""Lists from France, Belgium and Quebec: viroles, ép., flèche, narrow no-break spaces, semaine, à façon."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import FLATS, ID, IN, MEAN, OD
from tests.data.sheet_parts import arc, ask, chord, cone, cyl, ignore, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "demande_de_prix_viroles", "xlsx", "fr-FR", "narrow no-break thousands, semaine, annulé, sous-total",
        r("Chaudronnerie Fictive SARL (inventée) – Demande de prix DP-118"),
        r("Délai souhaité : voir colonne"),
        r("Rep.", "Désignation", "Qté", "ép.", "Ø int.", "Long.", "Nuance", "Délai"),
        p(cyl(1250, ID, 8, 2000, 2, "S235JR", due=date(2026, 12, 11)), "1", "virole", 2, "8", "1\u202f250",
          "2\u202f000", "S235JR", "S50"),
        p(cyl(1250, ID, 10, 1500, 1, "S235JR", due=date(2026, 12, 18)), "2", "virole de pied", 1, "10",
          "1\u202f250", "1\u202f500", "S235JR", "sem. 51"),
        p(cyl(406.4, ID, 6.3, 300, 4, "P265GH", due=date(2026, 12, 18)), "3", "piquage", 4, "6,3", "406,4", "300",
          "P265GH", "sem. 51"),
        p(ignore("annulé"), "4", "piquage", 2, "6,3", "508", "300", "P265GH", "annulé"),
        p(arc(800, ID, 180, 5, 1200, 2, "1.4404|316L", say="date"), "5", "demi-virole", 2, "5", "1 600", "1 200", "316L", "à définir"),
        p(ignore("sous-total"), None, "Sous-total", 11, None, None, None, None, None),
    ),
    sheet(
        "liste_toles_cintrees", "csv", "fr-FR", "corde et flèche, rayon fibre neutre, largeur l and longueur L",
        r("n°", "nb", "pièce", "e", "l", "R ou corde", "angle / flèche", "matière"),
        p(arc(1200, MEAN, 60, 10, 800, 3, "S355J2|S355J2+N"), "1", "3", "tôle cintrée", "10", "800", "R 1200 fn", "60°",
          "S355J2+N"),
        p(chord(1000, 134, ID, 6, 500, 2, "S235JR"), "2", "2", "tôle cintrée", "6", "500", "corde int. 1000",
          "flèche 134", "S235JR"),
        p(arc(750, ID, 120, 8, 600, 6, "S235JR", ends=FLATS), "3", "6", "segment (méplats admis)", "8", "600",
          "R int 750", "120", "S235JR"),
        p(ask("rayon sans int. ni ext.", "basis"), "4", "1", "segment", "8", "600", "R 750", "90°", "S235JR"),
        p(ask("tôle larmée: which side", "material", "shape", "thickness"), "5", "1", "tôle larmée cintrée", "5/7",
          "600", "R int 750", "90°", "S235JR"),
        p(ask("spire d'hélice", "not rolled", "shape", or_left_out=True), "6", "4", "spire de vis Ø ext 400", "6", "", "",
          "", "S235JR"),
        encoding="cp1252", separator=";",
    ),
    sheet(
        "reservoir_quebec", "xlsx", "fr-CA", "French words and inches",
        r("Réservoirs Imaginaires (inventé), demande 2026-44 / tout en pouces"),
        r("Item", "Qté", "Description", "Épaisseur", "Dia. ext.", "Hauteur", "Acier", "Remarque"),
        p(cyl(60, OD, 0.25, 96, 1, "A36", u=IN), 1, 1, "virole", "1/4", "60", "96", "A36", None),
        p(cyl(60, OD, 0.1875, 72, 2, "A36", u=IN), 2, 2, "virole", "3/16", "60", "72", "A36", None),
        p(cone(60, 12, OD, 30, 0.25, 1, "A36", u=IN), 3, 1, "cône droit, petit bout 12\" ext.", "1/4", "60", "30", "A36",
          "joint par nous"),
        p(cyl(24, OD, 0.375, 6.5, 2, "A36", u=IN), 4, 2, "col de trou d'homme", "3/8", "24", "6 1/2", "A36", None),
        p(ask("inox sans nuance", "material"), 5, 1, "virole", "10 ga", "30", "40", "inox", None),
    ),
    sheet(
        "roulage_a_facon", "xlsx", "fr-BE", "customer's plate, roulé soudé, en option, par autrui",
        r("Roulage à façon : tôles fournies par nous (repères 1 à 3). Repères 4 et 5 : fourniture + roulage"),
        r("Rep", "pièces", "dimensions", "qualité", "obs."),
        p(ask("tôle fournie", "free issue", "material"), 1, 4, "virole Ø ext 711 x 8 x 1000", "S235JR", None),
        p(ask("tôle fournie", "free issue", "material"), 2, 2, "virole Ø int 900 x 10 x 1250", "S355J2+N", None),
        p(ask("tôle fournie et sans int. ni ext.", "free issue", "basis", "material"), 3, 2, "virole Ø 600 x 6 x 500",
          "S235JR", None),
        p(cyl(900, ID, 10, 1250, 2, "S355J2|S355J2+N", say="weld"), 4, 2, "virole Ø int 900 x 10 x 1250", "S355J2+N",
          "roulé soudé, pleine pénétration"),
        p(line_or_ask("en option", cyl(900, ID, 10, 625, 1, "S355J2|S355J2+N"), doubts=("option", "status")), 5, 1,
          "virole Ø int 900 x 10 x 625", "S355J2+N", "en option"),
        p(ignore("par autrui"), 6, 2, "fond bombé Ø 900", "P265GH", "par autrui"),
    ),
)  # fmt: skip
