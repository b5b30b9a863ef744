"""Lists from Portugal and Brazil: calandrado, chapa, desenvolvimento, meia-cana, polegadas."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, IN, OD, PRE_BENT
from tests.data.sheet_parts import arc, ask, cyl, flat, ignore, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "pedido_de_cotacao", "xlsx", "pt-BR", "chapa em polegadas, diâmetro em mm, por unidade",
        r("PEDIDO DE COTAÇÃO 0457 - Caldeiraria de Mentira Ltda (inventada)"),
        r("Item", "Qtd.", "Descrição", "Espessura", "Ø interno (mm)", "Comprimento (mm)", "Aço", "Prazo"),
        p(cyl(1200, ID, 9.525, 1500, 2, "A36", due=date(2026, 12, 15)), 1, 2, "tubo calandrado", "3/8\"", 1200, 1500, "ASTM A36", "15/12/2026"),
        p(cyl(800, ID, 6.35, 1000.5, 4, "A36", due=date(2026, 12, 15)), 2, 4, "virola calandrada", "1/4\"", 800, "1.000,5", "A-36", "15/12/2026"),
        p(cyl(800, ID, 12.7, 200, 1, "A516-70", due=date(2026, 12, 22)), 3, 1, "anel", "1/2 pol", 800, 200, "A516 Gr.70", "22/12/2026"),
        p(ask("a confirmar", "quantity", "status"), 4, "a confirmar", "virola", "1/4\"", 600, 500, "A36", None),
        p(ignore("cancelado"), 5, 2, "virola", "1/4\"", 500, 500, "A36", "cancelado"),
        p(ask("chapa do cliente", "free issue", "material"), 6, 2, "virola (material do cliente)", "1/4\"", 700, 500, "A36", "22/12/2026"),
    ),
    sheet(
        "chapas_calandradas_porto", "csv", "pt-PT", "raio, desenvolvimento, meia-cana, pontas pré-dobradas",
        r("Ref.", "N.º", "Peça", "Esp.", "Larg.", "Raio / Desenv.", "Material", "Obs."),
        p(arc(650, ID, 180, 8, 1250, 2, "S275JR", ends=PRE_BENT), "P1", "2", "meia-cana", "8", "1250", "R int 650", "S275JR", "pontas pré-dobradas"),
        p(flat(1047.2, 994, ID, 12, 900, 3, "S355J2|S355J2+N"), "P2", "3", "chapa calandrada", "12", "900", "R int 994, desenv. 1047,2", "S355J2+N", ""),
        p(cyl(1100, OD, 10, 1500, 1, "S235JR"), "P3", "1", "virola fechada", "10", "1500", "Ø ext 1100", "S235JR", ""),
        p(line_or_ask("calandrar plana: 360 graus", cyl(2000, ID, 10, 1500, 1, "S235JR"), doubts=("angle", "shape")), "P4", "1", "virola 360°", "10", "1500", "R int 1000", "S235JR", ""),
        p(ask("linha neutra ou interno", "basis"), "P5", "2", "segmento 90°", "10", "400", "R 500", "S235JR", ""),
        separator=";",
    ),
    sheet(
        "silos_para_tres_unidades", "ods", "pt-BR", "quantities per silo, three silos said in the title",
        r("Lista de virolas - quantidades por silo (3 silos)"),
        r("Pos.", "Qtd./silo", "Virola", "Ø int.", "Altura", "Esp.", "Mat."),
        p(line_or_ask("per silo, three silos", cyl(3000, ID, 6, 1500, 6, "S275JR"), doubts=("quantity",)), 1, 2, "inferior", 3000, 1500, 6, "S275JR"),
        p(line_or_ask("per silo, three silos", cyl(3000, ID, 5, 1500, 9, "S275JR"), doubts=("quantity",)), 2, 3, "superior", 3000, 1500, 5, "S275JR"),
        p(ask("number of segments and per silo", "quantity", "angle", "shape"), 3, 1, "anel de topo em segmentos", 3000, 200, 8, "S275JR"),
    ),
    sheet(
        "tubos_offshore", "csv", "pt-BR", "outside diameter in inches, length in metres",
        r("TAG", "QTDE", "DIAM EXT (pol)", "ESP (mm)", "COMPR (m)", "MATERIAL"),
        p(cyl(36 * IN, OD, 19, 2500, 2, "A572-50"), "T-1", "2", "36", "19", "2,5", "A572 GR 50"),
        p(cyl(36 * IN, OD, 25.4, 1200, 1, "A572-50"), "T-2", "1", "36", "25,4", "1,2", "A572 GR 50"),
        p(cyl(30.5 * IN, OD, 16, 3000, 4, "A572-50"), "T-3", "4", "30 1/2", "16", "3", "A572 GR 50"),
        p(ask("length missing", "length"), "T-4", "1", "30", "16", "", "A572 GR 50"),
        separator=";",
    ),
)  # fmt: skip
