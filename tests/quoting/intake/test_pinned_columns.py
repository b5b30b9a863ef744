"""With a customer named, the pin file is really written: with what answers said, and for a sheet not read."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from quoting.core import InputError
from quoting.intake.answers import WrittenAnswer
from quoting.intake.customer_files import CustomerFiles
from tests.quoting.intake.small_shop import small_shop

DAY = date(2026, 11, 30)
ODD = "Mark,Off,OD in,Plate in,Zeug,Grade\nA,2,48,1/4,60,A36\nB,1,50,1/4,72,A36\n"


def _files(tmp_path: Path) -> CustomerFiles:
    return CustomerFiles(tmp_path / "shop", "Muster")


def test_an_answered_column_is_pinned_and_read_the_next_time(tmp_path: Path) -> None:
    (tmp_path / "shop").mkdir()
    sheet = tmp_path / "order.csv"
    sheet.write_text(ODD)
    files = _files(tmp_path)
    (open_,) = files.read([sheet], small_shop(), today=DAY, answers={})
    (asked,) = (one for one in open_.questions if one.blocking)
    answers = {asked.id: WrittenAnswer("it is the length")}
    (order,) = files.read([sheet], small_shop(), today=DAY, answers=answers)
    assert len(order.lines) == 2
    files.keep([sheet], [order], DAY)
    assert '"zeug" = "length"' in files.map_path.read_text()
    (again,) = _files(tmp_path).read([sheet], small_shop(), today=DAY, answers={})
    assert len(again.lines) == 2
    assert not any("Zeug" in one.text for one in again.questions)


def test_a_sheet_that_cannot_be_read_leaves_a_map_to_mend(tmp_path: Path) -> None:
    (tmp_path / "shop").mkdir()
    sheet = tmp_path / "order.csv"
    sheet.write_text("Zba,Kov,Trel,Mip,Laz,Grun\n1,2,600,6,1200,A36\n")
    files = _files(tmp_path)
    with pytest.raises(InputError, match=r"say in .* what its columns hold"):
        files.read([sheet], small_shop(), today=DAY, answers={})
    text = files.map_path.read_text()
    assert '"mip" = "carried"' in text
    for word, meaning in (
        ("zba", "number"),
        ("kov", "quantity"),
        ("trel", "diameter outside mm"),
        ("mip", "thickness mm"),
        ("laz", "length mm"),
        ("grun", "material"),
    ):
        text = text.replace(f'"{word}" = "carried"', f'"{word}" = "{meaning}"')
    files.map_path.write_text(text)
    (order,) = _files(tmp_path).read([sheet], small_shop(), today=DAY, answers={})
    assert len(order.lines) == 1
