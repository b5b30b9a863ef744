"""Customers' sheets as files: what was written down is what another program reads back."""

from __future__ import annotations

import csv
import zipfile
from datetime import date
from pathlib import Path

import openpyxl
import pytest
from python_calamine import CalamineWorkbook

from tests.data.sheet_model import ID, Cell, Expect, Formula, Part, Sheet, Tab
from tests.data.sheet_parts import cyl, line, p, r, sheet
from tests.data.sheet_writer import corpus, main, write_sheet

ROWS = (
    r("SAMPLE WORKS (invented)", None, bold=True),
    r("Item", "Size"),
    p(cyl(600, ID, 10, 1000), 1, "600 ID x 10 <&>"),
    p(cyl(700, ID, 10, 1000), Cell(2, strike=True), Cell("10", struck="12 "), strike=True),
    r("Total", Formula("=SUM(A3:A4)", 3.0), hidden=True),
    r(date(2026, 12, 11), Cell(0.25, fmt="# ?/?", comment="quarter")),
)


def test_a_book_keeps_looks_values_and_merges(tmp_path: Path) -> None:
    file = write_sheet(
        sheet("try", "xlsx", "en", "", *ROWS, merged=("A1:B1",), hidden_columns=(2,)), tmp_path
    )
    page = openpyxl.load_workbook(file, rich_text=True)["Sheet1"]
    assert [str(area) for area in page.merged_cells.ranges] == ["A1:B1"]
    assert page["A4"].font.strike
    assert page["A1"].font.b
    assert str(page["B4"].value) == "12 10"
    assert page.row_dimensions[5].hidden
    assert page.column_dimensions["B"].hidden
    assert page["B6"].number_format == "# ?/?"
    assert page["B6"].comment.text == "quarter"
    assert openpyxl.load_workbook(file, data_only=True)["Sheet1"]["B5"].value == 3


def test_an_open_document_reads_back(tmp_path: Path) -> None:
    file = write_sheet(sheet("try", "ods", "en", "", *ROWS, merged=("A1:B1",)), tmp_path)
    rows = CalamineWorkbook.from_path(str(file)).get_sheet_by_name("Sheet1").to_python()
    assert rows[2] == [1.0, "600 ID x 10 <&>"]
    assert rows[5] == [date(2026, 12, 11), 0.25]
    assert rows[0][0] == "SAMPLE WORKS (invented)"
    content = zipfile.ZipFile(file).read("content.xml").decode()
    assert content.count('table:style-name="struck"') == 2
    assert content.count('table:visibility="collapse"') == 1
    assert 'table:number-columns-spanned="2"' in content


def test_text_files_keep_encoding_and_separator(tmp_path: Path) -> None:
    one = sheet(
        "try", "csv", "de", "", r("Stück", "Länge"), r(1, "1.250,5"), encoding="cp1252", separator=";"
    )
    text = write_sheet(one, tmp_path).read_bytes().decode("cp1252")
    assert list(csv.reader(text.splitlines(), delimiter=";")) == [["Stück", "Länge"], ["1", "1.250,5"]]
    mail = sheet("mail", "txt", "en", "", r("Hi,"), r("2 off", "600 ID"))
    assert write_sheet(mail, tmp_path).read_text() == "Hi,\n2 off\t600 ID\n"


def test_an_unknown_kind_and_a_second_page_of_text_are_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="none of"):
        write_sheet(sheet("try", "pdf", "en", "", *ROWS), tmp_path)
    two = Sheet("two", "csv", "en", "", (Tab("a", ()), Tab("b", ())))
    with pytest.raises(ValueError, match="too many"):
        write_sheet(two, tmp_path)


def test_parts_know_their_places() -> None:
    beside = Part(line(cyl(600, ID, 10, 1000)), 1, 6, 2, "B")
    one = Sheet("try", "xlsx", "en", "", (Tab("List", ROWS, parts=(beside,)),))
    assert [(part.tab, part.first, part.column) for part in one.parts()] == [
        ("List", 3, 0),
        ("List", 4, 0),
        ("List", 1, 2),
    ]


@pytest.mark.parametrize(("name", "least"), [("second_corpus", 64), ("unseen_corpus", 26)])
def test_a_corpus_is_large_and_can_be_written(tmp_path: Path, name: str, least: int) -> None:
    main([str(tmp_path), name])
    sheets = corpus(name)
    assert len({one.name for one in sheets}) == len(sheets) == len(list(tmp_path.iterdir()))
    assert len(sheets) >= least
    kinds = {part.want.kind for one in sheets for part in one.parts()}
    assert {Expect.LINE, Expect.ASK, Expect.IGNORE} <= kinds
    assert len({one.language.split("-")[0] for one in sheets}) >= 8
    assert all(one.parts() for one in sheets)


def test_the_two_corpora_share_no_sheet() -> None:
    rows = [
        {tab.rows for one in corpus(name) for tab in one.tabs} for name in ("second_corpus", "unseen_corpus")
    ]
    assert not rows[0] & rows[1]
