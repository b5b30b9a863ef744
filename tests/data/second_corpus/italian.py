"""Lists from Italy: virole calandrate, sp., sviluppo, L for larghezza, conto lavorazione, settimana."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, OD, PRE_BENT
from tests.data.sheet_parts import arc, ask, cone, cyl, flat, ignore, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "richiesta_offerta_virole", "xlsx", "it-IT", "two-row heading with Di and De columns, settimana, c.s.",
        r("RdO 2026/311 - Serbatoi Inventati Srl (ditta di fantasia)"),
        r("Voce", "Q.tà", "Particolare", "Diametro", None, "Sp.", "H", "Materiale", "Consegna"),
        r(None, "n.", None, "interno", "esterno", "mm", "mm", None, "sett."),
        p(cyl(1500, ID, 8, 2000, 2, "S235JR", due=date(2026, 12, 11)), "1", 2, "virola", 1500, None, 8, 2000, "S235JR", "50"),
        p(cyl(1500, ID, 8, 1200, 1, "S235JR", due=date(2026, 12, 11)), "2", 1, "c.s.", 1500, None, 8, 1200, "c.s.", "50"),
        p(cyl(323.9, OD, 6.3, 500, 4, "S355J2|S355J2+N", due=date(2026, 12, 18)), "3", 4, "tronchetto", None, "323,9", "6,3", 500, "S355J2+N", "51"),
        p(ask("due diametri che non vanno con lo spessore", "contradiction", "basis", "thickness"), "4", 1, "virola", 900, 912, 8, 600, "S235JR", "51"),
        p(ask("materiale da definire", "material", "status"), "5", 1, "virola", 900, None, 6, 600, "da definire", "51"),
        merged=("D2:E2",),
    ),
    sheet(
        "lamiere_calandrate", "csv", "it-IT", "settori, mezze virole, sviluppo, invito ai lembi",
        r("rif", "pz", "descrizione", "materiale", "note"),
        p(arc(700, ID, 180, 6, 1500, 4, "S275JR", ends=PRE_BENT), "A", "4", "mezza virola R int 700 sp. 6 lungh. 1500", "S275JR", "con invito ai lembi"),
        p(flat(942, 600, ID, 5, 1000, 2, "1.4301"), "B", "2", "lamiera 5x1000 sviluppo 942 calandrata R int 600", "1.4301", ""),
        p(arc(1200, OD, 45, 12, 800, 3, "S355J2|S355J2+N"), "C", "3", "settore R est 1200 45° sp.12 largh. 800", "S355J2+N", ""),
        p(ask("esterno o interno", "basis"), "D", "1", "cilindro diam. 450 sp.4 h 900", "1.4301", ""),
        p(ask("conto lavorazione", "free issue", "material"), "E", "2", "virola diam. int. 800 sp.8 h 1000", "S275JR", "lamiera in conto lavorazione"),
        p(ignore("annullato"), "F", "2", "virola diam. int. 800 sp.8 h 500", "S275JR", "ANNULLATO"),
        separator=";",
    ),
    sheet(
        "coni_e_tramogge", "ods", "it-IT", "coni: diametro maggiore e minore, altezza o apotema",
        r("N.", "Pezzi", "Tipo", "D magg. int.", "D min. int.", "Altezza", "Spessore", "Acciaio", "Annotazioni"),
        p(cone(1200, 400, ID, 800, 6, 2, "S235JR"), 1, 2, "tronco di cono", 1200, 400, 800, 6, "S235JR", None),
        p(cone(800, 300, ID, 500, 4, 1, "1.4301"), 2, 1, "tronco di cono", 800, 300, 500, 4, "1.4301", "in 2 pezzi ok"),
        p(ask("cono eccentrico", "eccentric"), 3, 1, "cono eccentrico", 800, 300, 500, 4, "1.4301", None),
        p(ask("apotema sotto altezza", "length", "contradiction"), 4, 1, "tronco di cono", 1000, 500, 650, 5, "S235JR", "650 = apotema"),
        p(ask("tramoggia quadro-tondo", "not rolled", "shape", or_left_out=True), 5, 1, "tramoggia quadro/tondo 600x600", None, 300, 500, 4, "S235JR", None),
        p(line_or_ask("cilindro nella lista dei coni", cyl(300, ID, 4, 200, 1, "1.4301"), doubts=("shape",)), 6, 1, "collare cilindrico", 300, 300, 200, 4, "1.4301", None),
    ),
)  # fmt: skip
