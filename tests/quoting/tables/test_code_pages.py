"""Text sheets in old code pages: the letters come out as the customer typed them."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.tables import Limits, read_sheets

SHEETS = {
    "spanish": ("cp1252", "Descripción;Ø interior;Fondo Klöpper;año"),
    "german": ("cp1252", "Stück;Länge;Größe;Wölbung;Höhe"),
    "french": ("cp1252", "épaisseur;diamètre;où;œuvre;tôle;œillet de levage;2 œillets"),
    "italian": ("cp1252", "quantità;più;perché;può;lunedì"),
    "danish": ("cp1252", "størrelse;højde;længde;på;rør"),
    "areas": ("cp1252", "m³ per piece;5 m² plate;¼ inch;10°"),
    "czech": ("cp1250", "Poptávka;Vnitřní průměr;Délka;Termín;Plášť"),
    "polish": ("cp1250", "Ilość;Grubość;Średnica wewnętrzna;Długość;Płaszcz"),
    "chinese": ("gb18030", "件号;名称;规格;材质;数量;备注;筒体"),
}


@pytest.mark.parametrize("name", SHEETS)
def test_letters_of_an_old_code_page_are_read_as_typed(tmp_path: Path, name: str) -> None:
    encoding, header = SHEETS[name]
    file = tmp_path / "order.csv"
    file.write_bytes(f"{header}\r\n1;2;3\r\n".encode(encoding))
    (sheet,) = read_sheets(file, Limits())
    assert ";".join(str(cell) for cell in sheet.rows[0] if cell) == header
