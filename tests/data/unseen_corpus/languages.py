"""Sheets in French, Spanish, Italian, Dutch, Portuguese, Polish, Chinese, Danish and Finnish."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import FLATS, ID, MEAN, OD, PRE_BENT
from tests.data.sheet_parts import arc, ask, chord, cone, cyl, flat, ignore, line_or_ask, p, r, sheet

S355 = "S355J2|S355J2+N"
SHEETS = (
    sheet(
        "appel_offres_cheminee", "xlsx", "fr-FR", "D.I. et D.E., idem, bords croqués, en attente, fin janvier",
        r("Appel d'offres – Cheminée du Pays Imaginaire (fictif)"),
        r("Poste", "Nbre", "Élément", "D.I.", "D.E.", "ép", "haut.", "matière", "livraison"),
        p(cyl(1800, ID, 8, 2000, 4, "S235JR", due=date(2026, 12, 18), ends=PRE_BENT), 1, 4, "virole, bords croqués", "1 800", None, 8, "2 000", "S235JR", "semaine 51"),
        p(cyl(1200, OD, 6, 1500, 2, "S235JR", due=date(2026, 12, 18)), 2, 2, "virole", None, "1 200", 6, "1 500", "idem", "idem"),
        p(ask("en attente", "status"), 3, 1, "virole", None, "1 200", 6, "750", "S235JR", "en attente"),
        p(cone(1800, 1200, ID, 900, 8, 1, "S235JR", say="date"), 4, 1, "cône droit, petit D.I. 1 200", "1 800", None, 8, "900", "S235JR", "fin janvier"),
        p(ignore("supprimé"), 5, 1, "virole", None, "1 000", 6, "750", "S235JR", "supprimé"),
        p(ask("faux: D.E. plus petit que D.I.", "contradiction", "basis"), 6, 1, "virole", "900", "890", 5, "750", "S235JR", "semaine 51"),
    ),
    sheet(
        "lista_de_chapas", "xlsx", "es-ES", "flecha y cuerda, longitud de arco, fibra neutra, aportado por cliente",
        r("Marca", "Nº piezas", "Espesor", "Ancho", "Geometría", "Material", "Observaciones"),
        p(chord(1500, 200, ID, 8, 1000, 2, "S275JR"), "A", 2, 8, 1000, "cuerda int. 1500, flecha 200", "S275JR", None),
        p(arc(1100, MEAN, 80, 10, 900, 4, S355), "B", 4, 10, 900, "radio fibra neutra 1100, 80°", "S355J2+N", None),
        p(ask("longitud de arco sin cara", "basis", "length"), "C", 4, 10, 900, "radio 1100, arco 1500", "S355J2+N", None),
        p(ask("aportado por el cliente", "free issue", "material"), "D", 1, 12, 900, "radio int. 800, 90°", "S355J2+N", "chapa aportada por cliente"),
        p(cyl(1000, ID, 8, 1250.5, 3, "S275JR", due=date(2026, 12, 16)), "E", 3, 8, "1250,5", "virola cerrada Ø int. 1000", "S275JR", "plazo 16/12/2026"),
    ),
    sheet(
        "ordine_fasciame", "csv", "it-IT", "De in pollici? fasciame in più virole, q.tà per serbatoio",
        r("pos.", "q.tà", "denominazione", "De", "sp", "larghezza", "qualità", "note"),
        p(cyl(1219, OD, 12, 2000, 3, S355), "1", "3", "virola fasciame", "1219", "12", "2000", "S355J2+N", ""),
        p(line_or_ask("fasciame intero in virole", cyl(1219, OD, 12, 7500, 1, S355, say="courses"), doubts=("courses", "length", "quantity")), "2", "1", "fasciame completo L=7500 in più virole", "1219", "12", "", "S355J2+N", "a vs. scelta"),
        p(cyl(1219, OD, 14, 1250, 2, S355, say="bevel"), "3", "2", "virola", "1219", "14", "1250", "S355J2+N", "cianfrino 30° ambo i lati"),
        p(cyl(1219, OD, 14, 1000, 2, S355), "4", "2", "virola", "1219", "14", "1000", "S355J2+N", "senza smusso"),
        p(ignore("escluso"), "5", "2", "fondo bombato", "1219", "14", "", "P265GH", "escluso, a cura di altri"),
        separator=";",
    ),
    sheet(
        "bestelling_silo", "ods", "nl-NL", "koppen met eenheden, idem, aangeleverd, uitslag",
        r("Bestelling nog niet definitief – Luchtkasteel Silo's (verzonnen)"),
        r("Regel", "Aantal", "Omschrijving", "Plaat", "Inw. diam.", "Breedte plaat", "Kwaliteit", "Opmerking"),
        p(cyl(2400, ID, 5, 1500, 4, "S235JR"), 1, 4, "ring", "5 mm", "2.400", "1.500", "S235JR", None),
        p(cyl(2400, ID, 6, 1500, 2, "S235JR"), 2, 2, "idem", "6 mm", "2.400", "1.500", "S235JR", None),
        p(ask("aangeleverd", "free issue", "material"), 3, 2, "ring", "6 mm", "2.400", "1.000", "S235JR", "plaat door ons aangeleverd"),
        p(flat(1885, 1200, ID, 6, 1500, 4, "S235JR", ends=FLATS), 4, 4, "segment, uitslag 1.885, straal inw. 1.200", "6 mm", None, "1.500", "S235JR", "rechte einden ok"),
        p(ask("n.t.b.", "length", "status", "number"), 5, 2, "ring", "6 mm", "2.400", "n.t.b.", "S235JR", None),
    ),
    sheet(
        "orcamento_chamine", "xlsx", "pt-PT", "Ø ext., unidades na célula, conjunto, prazo em semanas",
        r("Orçamento nº 12 – Chaminés Faz-de-Conta Lda (inventada)"),
        r("Item", "Quant.", "Designação", "Ø ext.", "Espessura", "Altura", "Aço", "Prazo"),
        p(cyl(1016, OD, 6, 2000, 5, "S235JR", say="date"), 1, "5 un.", "virola", "1016 mm", "6 mm", "2 m", "S235JR", "3 semanas"),
        p(cyl(1016, OD, 8, 1500, 1, "S235JR", due=date(2026, 12, 18)), 2, "1 un.", "virola da base", "1016 mm", "8 mm", "1,5 m", "S235JR", "semana 51"),
        p(ask("conjunto", "quantity"), 3, "1 conjunto", "meias-canas de reforço", "1036 mm", "10 mm", "300 mm", "S235JR", None),
        p(ask("inox sem grau", "material"), 4, "2 un.", "virola", "600 mm", "3 mm", "1 m", "inox", None),
    ),
    sheet(
        "zamowienie_rury", "csv", "pl-PL", "opis z Dz i Dw, ukosowanie, nierdzewna, termin do ustalenia",
        r("Poz.", "Opis", "Ilość", "Jm", "Materiał", "Uwagi"),
        p(cyl(1020, OD, 10, 2000, 3, S355, say="bevel"), "1", "Rura zwijana Dz 1020 x 10 L=2000", "3", "szt.", "S355J2+N", "ukosowanie obu końców 30°"),
        p(cyl(1200, ID, 12, 1500, 2, S355), "2", "Płaszcz Dw 1200 x 12 L=1500", "2", "szt.", "S355J2+N", "bez fazy"),
        p(ask("nierdzewna bez gatunku", "material"), "3", "Płaszcz Dw 600 x 4 L=800", "2", "szt.", "nierdzewna", ""),
        p(ask("kpl. = ile sztuk", "quantity"), "4", "Półskorupy R wewn. 700 gr. 8 L=500", "1", "kpl.", "S235JR", ""),
        p(cyl(900, ID, 8, 1000, 1, "S235JR", say="date"), "5", "Płaszcz Dw 900 x 8 L=1000", "1", "szt.", "S235JR", "termin do ustalenia"),
        separator=";",
    ),
    sheet(
        "卷板加工单", "xlsx", "zh-CN", "每台 quantities, 甲供, 外径 and 内径 mixed in one column, weeks",
        r("卷板加工单　无此公司（虚构）"),
        r("件号", "名称", "规格 (mm)", "单台数量", "台数", "材质", "备注"),
        p(cyl(900, ID, 8, 1500, 8, "S235JR"), "1", "筒节", "内径900×δ8×长1500", 2, 4, "S235JR", None),
        p(cyl(508, OD, 10, 600, 4, "S355J2"), "2", "卷管", "外径508×δ10×长600", 1, 4, "S355J2", None),
        p(ask("甲供", "free issue", "material"), "3", "筒节", "内径900×δ10×长1000", 1, 4, "S235JR", "甲供材料"),
        p(arc(450, ID, 120, 10, 300, 12, "S235JR"), "4", "弧板", "内R450 120° δ10 宽300", 3, 4, "S235JR", None),
        p(ask("待定", "length", "status", "number"), "5", "筒节", "内径900×δ8×长(待定)", 1, 4, "S235JR", None),
    ),
    sheet(
        "foresporgsel_valsning", "csv", "da-DK", "Danish headings",
        r("Pos.", "Antal", "Emne", "Indv. diameter", "Godstykkelse", "Længde", "Materiale"),
        p(line_or_ask("a language the shop may not read", cyl(1500, ID, 6, 1250, 2, "1.4301")), "1", "2", "svøb", "1500", "6", "1250", "1.4301"),
        p(line_or_ask("a language the shop may not read", cyl(600.5, ID, 5, 300, 1, "1.4404")), "2", "1", "mandehul", "600,5", "5", "300", "1.4404"),
        p(ask("udgår", "status", "number", or_left_out=True), "3", "1", "svøb", "1500", "6", "600", "1.4301 - udgår"),
        separator=";",
    ),
)  # fmt: skip
