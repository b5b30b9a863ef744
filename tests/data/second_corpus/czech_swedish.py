"""Lists in Czech, Swedish, Turkish and Hungarian: few words known, figures clear, and some that are not."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, OD
from tests.data.sheet_parts import arc, ask, cyl, ignore, line_or_ask, p, r, sheet

SHEETS = (
    sheet(
        "poptavka_zakruzovani", "xlsx", "cs-CZ", "Czech headings; vnitřní průměr, tloušťka, zrušeno",
        r("Poptávka – Smyšlené nádrže s.r.o. (smyšlená firma)"),
        r("Poz.", "Ks", "Název", "Vnitřní průměr", "Tloušťka", "Výška", "Materiál", "Termín"),
        p(line_or_ask("a language the shop may not read", cyl(1200, ID, 6, 1500, 2, "S235JR", due=date(2026, 12, 14))), 1, 2, "plášť", 1200, 6, 1500, "S235JR", "14.12.2026"),
        p(line_or_ask("a language the shop may not read", cyl(900, ID, 5, 1000, 1, "1.4301", due=date(2026, 12, 14))), 2, 1, "plášť", 900, 5, "1 000", "1.4301", "14.12.2026"),
        p(ignore("zrušeno"), 3, 1, "plášť", 900, 5, 500, "1.4301", "zrušeno"),
        p(ask("excentrický kužel", "eccentric", "shape", "number", "not rolled"), 4, 1, "kužel excentrický 900/400", None, 5, 600, "1.4301", None),
    ),
    sheet(
        "offertforfragan_valsning", "csv", "sv-SE", "Swedish: innerdiameter, godstjocklek, antal, vecka",
        r("Pos", "Antal", "Benämning", "Innerdiameter", "Tjocklek", "Längd", "Material", "Leverans"),
        p(line_or_ask("a language the shop may not read", cyl(1400, ID, 8, 1500, 2, "S355J2|S355J2+N")), "1", "2", "mantel", "1400", "8", "1500", "S355J2+N", "v. 51"),
        p(line_or_ask("a language the shop may not read", cyl(600.5, ID, 6, 300, 4, "S355J2|S355J2+N")), "2", "4", "stuts", "600,5", "6", "300", "S355J2+N", "v. 51"),
        p(ask("utgår = left out, or a question of language", "status", "number", or_left_out=True), "3", "1", "mantel", "1400", "8", "750", "S355J2+N", "utgår"),
        separator=";",
    ),
    sheet(
        "teklif_istegi", "xlsx", "tr-TR", "Turkish headings with English words between",
        r("Item", "Parça / part", "Adet", "Dış çap OD", "Kalınlık thk", "Boy length", "Malzeme"),
        p(line_or_ask("half English", cyl(1016, OD, 12, 2000, 4, "S355J2|S355J2+N")), 1, "silindir / shell", 4, 1016, 12, 2000, "S355J2+N"),
        p(line_or_ask("half English", arc(508, OD, 180, 10, 1000, 2, "S355J2|S355J2+N")), 2, "yarım / half shell", 2, 1016, 10, 1000, "S355J2+N"),
        p(ignore("toplam"), None, "TOPLAM", 6, None, None, None, None),
    ),
)  # fmt: skip
