"""A new shop's folder: complete, commented, never written over what is there."""

from __future__ import annotations

import re
from pathlib import Path
from zipfile import ZipFile

import pytest
from python_calamine import CalamineWorkbook

from quoting.core import InputError
from quoting.intake.layout.columns import meaning_of
from quoting.shop import add_list, load_shop, write_starter
from quoting.shop.book import starter_text

SETTING = re.compile(r'^(?:# )?("?[\w /.-]+"?) = ')


def test_a_new_shop_loads_without_a_warning(tmp_path: Path) -> None:
    written = write_starter(tmp_path / "new")
    assert [path.name for path in written] == [
        "shop.xlsx",
        "rack.xlsx",
        "order-sheet.xlsx",
        "order-sheet-mm.xlsx",
    ]
    shop = load_shop(tmp_path / "new")
    assert shop.warnings == ()
    assert {plate.buyable for plate in shop.stock} == {True, False}
    assert any(plate.remnant for plate in shop.stock)


def test_nothing_is_written_over(tmp_path: Path) -> None:
    (tmp_path / "rack.xlsx").write_text("mine", "utf-8")
    with pytest.raises(InputError, match=r"would overwrite rack\.xlsx; name another folder"):
        write_starter(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["rack.xlsx"]
    assert (tmp_path / "rack.xlsx").read_text("utf-8") == "mine"


def test_a_folder_that_cannot_be_made_is_one_clear_message(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(InputError, match="cannot write into this folder"):
        write_starter(tmp_path / "file" / "shop")


def test_two_new_shops_are_the_same_byte_for_byte(tmp_path: Path) -> None:
    first, second = write_starter(tmp_path / "a"), write_starter(tmp_path / "b")
    assert [path.read_bytes() for path in first] == [path.read_bytes() for path in second]


def test_every_setting_of_the_starter_book_is_explained() -> None:
    bare = [line for line in starter_text().splitlines() if SETTING.match(line) and " # " not in line[2:]]
    assert bare == []


def test_no_minute_rate_or_price_of_the_starter_book_passes_for_a_fact() -> None:
    section, silent = "", []
    for line in starter_text().splitlines():
        section = line if line.startswith("[") else section
        invented = section in ("[rates]", "[labour]", "[[labour.handling]]", "[setups]", "[price_per_lb]")
        if (
            invented
            and not line.startswith("#")
            and SETTING.match(line)
            and not re.search(r"example|currency|up_to", line)
        ):
            silent.append(line)
    assert silent == []


def test_the_headings_of_the_order_sheet_are_understood(tmp_path: Path) -> None:
    fields = {}
    for path in write_starter(tmp_path)[2:]:
        rows = (
            CalamineWorkbook.from_path(str(path)).get_sheet_by_name("Order").to_python(skip_empty_area=False)
        )
        header = next(row for row in rows if row[0] == "Line")
        fields[path.name] = {heading: meaning_of(str(heading)) for heading in header}
    for meanings in fields.values():
        unknown = {heading for heading, meaning in meanings.items() if not meaning.field}
        assert unknown == set()
    assert {m.unit for m in fields["order-sheet-mm.xlsx"].values()} >= {"mm", "deg"}


def test_the_order_sheet_has_lists_and_no_part_in_it(tmp_path: Path) -> None:
    path = write_starter(tmp_path)[2]
    book = CalamineWorkbook.from_path(str(path))
    rows = book.get_sheet_by_name("Order").to_python(skip_empty_area=False)
    first = next(number for number, row in enumerate(rows) if row[0] == "Line")
    assert all(cell == "" for row in rows[first + 1 :] for cell in row)
    xml = ZipFile(path).read("xl/worksheets/sheet1.xml").decode()
    for words in (
        "cylinder,arc,half shell,cone",
        "ID,OD,mean",
        "leave flat,pre-bend,trim after rolling",
        "A36,",
    ):
        assert f'"{words}' in xml
    assert book.sheet_names == ["Order", "How to fill in"]


def test_a_list_longer_than_the_format_allows_is_refused() -> None:
    with pytest.raises(ValueError, match="255 characters at most"):
        add_list(None, (0, 1), 0, ["x" * 300])
