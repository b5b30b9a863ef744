"""Lists from Spain and Latin America: virolas, desarrollo, media caña, espesor said once above a block."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, IN, OD
from tests.data.sheet_parts import arc, ask, cone, cyl, flat, ignore, p, r, sheet

SHEETS = (
    sheet(
        "solicitud_virolas", "xlsx", "es-ES", "espesor as a heading over each block, fechas con día primero",
        r("Calderería Inventada S.L. (ficticia)   SOLICITUD DE OFERTA 77/26"),
        r("Pos.", "Cant.", "Denominación", "Øint", "Altura", "Calidad", "Plazo", "Obs."),
        r("Espesor 6 mm", bold=True),
        p(cyl(1000, ID, 6, 1500, 2, "S235JR", due=date(2026, 12, 10)), 1, 2, "virola", 1000, 1500, "S235JR",
          "10/12/2026", None),
        p(cyl(1000, ID, 6, 750, 1, "S235JR", due=date(2026, 12, 10)), 2, 1, "virola", 1000, 750, "S235JR",
          "10/12/2026", None),
        r("Espesor 10 mm", bold=True),
        p(cyl(1400, ID, 10, 2000, 3, "P265GH", due=date(2026, 12, 18)), 3, 3, "virola", 1400, 2000, "P265GH",
          "18/12/2026", None),
        p(ask("suspendido", "status"), 4, 1, "virola", 1400, 1000, "P265GH", "18/12/2026", "EN ESPERA, no fabricar"),
        p(ignore("anulado"), 5, 1, "virola", 1400, 500, "P265GH", None, "anulado"),
        p(ignore("total"), "TOTAL", 8, "piezas", None, None, None, None, None),
    ),
    sheet(
        "presupuesto_tolvas", "csv", "es-MX", "Spanish words, inches and calibre, decimal point",
        r("Partida", "Pzas", "Descripción", "Esp.", "Ø ext (pulg)", "Largo (pulg)", "Material"),
        p(cyl(30, OD, 0.25, 48, 2, "A36", u=IN), "1", "2", "cilindro rolado", "1/4\"", "30", "48", "A-36"),
        p(cyl(24, OD, 0.1345, 60.5, 1, "A1011 CS|A1011", u=IN), "2", "1", "cilindro rolado", "cal 10", "24", "60.5", "A1011"),
        p(cone(40, 16, OD, 24, 0.1875, 1, "A36", u=IN), "3", "1", "cono concéntrico Ø menor 16 ext", "3/16\"", "40", "24", "A-36"),
        p(ask("sin grado", "material"), "4", "2", "cilindro rolado", "3/16\"", "18", "36", "inoxidable"),
        p(ask("cono excéntrico", "eccentric"), "5", "1", "cono excéntrico Ø menor 10", "3/16\"", "20", "18", "A-36"),
        p(ask("transición cuadrado-redondo", "not rolled", "shape", or_left_out=True), "6", "1", "transición 20x20 a redondo",
          "cal 12", "14", "12", "A1011"),
    ),
    sheet(
        "chapas_curvadas_por_desarrollo", "xlsx", "es-ES", "flat sizes plus radius, media caña, tercios",
        r(None, "Chapas a curvar", None, None, None, None),
        r("Marca", "Uds.", "Chapa (e x ancho x desarrollo)", "Radio", "Material", "Notas"),
        p(flat(1570, 1000, ID, 8, 1500, 4, "S275JR"), "M1", "4 uds.", "8 x 1500 x 1570", "1000 int.", "S275JR", "bordes rectos admitidos"),
        p(flat(1200, 600, OD, 10, 1000, 2, "S355J2|S355J2+N"), "M2", "2 uds.", "10 x 1000 x 1200", "600 ext.", "S355J2+N", None),
        p(arc(450, ID, 180, 6, 2000, 3, "S235JR"), "M3", "3 uds.", "media caña e=6, largo 2000", "450 int.", "S235JR", None),
        p(arc(450, ID, 120, 6, 1000, 3, "S235JR"), "M4", "3 uds.", "tercio de virola e=6, largo 1000", "450 int.", "S235JR", None),
        p(ask("radio sin decir", "basis"), "M5", "1 ud.", "6 x 1000 x 900", "R500", "S235JR", None),
    ),
)  # fmt: skip
