"""Lists from Poland: Dw and Dz, gr., szt., tydzień, wstrzymane, materiał powierzony."""
# ruff: noqa: E501 - a row of a sheet stays on one line

from __future__ import annotations

from datetime import date

from tests.data.sheet_model import ID, OD
from tests.data.sheet_parts import arc, ask, chord, cone, cyl, ignore, p, r, sheet

SHEETS = (
    sheet(
        "zapytanie_ofertowe", "xlsx", "pl-PL", "Dw, Dz in two columns, no-break thousands, tydzień, razem",
        r("Zapytanie ofertowe ZO/118/2026 – Zbiorniki Zmyślone Sp. z o.o. (firma zmyślona)"),
        r("Lp.", "Nazwa", "Ilość szt.", "Dw", "Dz", "gr.", "wys.", "Gatunek", "Termin"),
        p(cyl(1500, ID, 8, 2000, 2, "S235JR", due=date(2026, 12, 11)), 1, "płaszcz", 2, "1\u00a0500", None, "8", "2\u00a0000", "S235JR", "tydz. 50"),
        p(cyl(508, OD, 6.3, 1250, 4, "S355J2|S355J2+N", due=date(2026, 12, 18)), 2, "rura zwijana", 4, None, "508", "6,3", "1\u00a0250", "S355J2+N", "tydz. 51"),
        p(ask("wstrzymane", "status"), 3, "płaszcz", 1, "1\u00a0500", None, "10", "1\u00a0000", "S235JR", "wstrzymane"),
        p(ignore("anulowane"), 4, "płaszcz", 1, "1\u00a0500", None, "10", "500", "S235JR", "anulowane"),
        p(cyl(800, ID, 4, 1250, 3, "1.4301", due=date(2026, 12, 18)), 5, "płaszcz nierdzewny", 3, "800", None, "4", "1\u00a0250", "1.4301", "tydz. 51"),
        p(ignore("razem"), None, "Razem", 14, None, None, None, None, None, None),
    ),
    sheet(
        "luki_i_polowki", "csv", "pl-PL", "łuki by chord and rise and by angle, półskorupa, accents lost",
        r("poz", "szt", "opis", "gat"),
        p(arc(600, ID, 180, 6, 1200, 4, "S235JR"), "1", "4", "polskorupa R wewn. 600 gr. 6 dl. 1200", "S235JR"),
        p(arc(1000, OD, 75, 10, 500, 2, "S355J2|S355J2+N"), "2", "2", "luk R zewn. 1000 kat 75 st. gr. 10 szer. 500", "S355J2+N"),
        p(chord(800, 100, ID, 5, 600, 3, "S235JR"), "3", "3", "luk cieciwa wewn. 800 strzalka 100 gr. 5 szer. 600", "S235JR"),
        p(ask("promień wewn. czy zewn.", "basis"), "4", "1", "luk R 750 kat 90 gr. 8 szer. 400", "S235JR"),
        p(ask("materiał powierzony", "free issue", "material"), "5", "2", "plaszcz Dw 900 gr. 8 wys. 1000, material powierzony", "S235JR"),
        encoding="cp1250", separator=";",
    ),
    sheet(
        "stozki_i_redukcje", "xlsx", "pl-PL", "stożki, mimośrodowy, by others",
        r(None, "Stożki – wg tabeli", None, None, None, None, None, None),
        r("Poz.", "Szt.", "Rodzaj", "D większa wewn.", "D mniejsza wewn.", "Wysokość", "Grubość", "Materiał"),
        p(cone(1000, 500, ID, 600, 6, 2, "S235JR"), 1, 2, "stożek ścięty", 1000, 500, 600, 6, "S235JR"),
        p(cone(600, 250, ID, 400, 5, 1, "1.4404"), 2, 1, "stożek ścięty", 600, 250, 400, 5, "1.4404"),
        p(ask("mimośrodowy", "eccentric"), 3, 1, "stożek mimośrodowy", 600, 250, 400, 5, "1.4404"),
        p(ask("średnice zamienione w kolumnach", "contradiction", "diameter", "number"), 4, 1, "stożek ścięty", 250, 600, "?", 5, "1.4404"),
        p(ignore("po stronie klienta"), 5, 2, "dennica – po stronie klienta", 1000, None, None, 6, "P265GH"),
    ),
)  # fmt: skip
