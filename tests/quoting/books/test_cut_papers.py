"""Cut sheets and labels: what is printed is what is nested, and the codes say the same as the letters."""

from __future__ import annotations

import shutil
import subprocess
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from quoting.books.cutting import cut_sheets, remnants, write_cut_sheets, write_labels
from quoting.books.cutting.cut_sheet_pdf import plate_code
from quoting.books.cutting.labels import labels_of
from quoting.estimating import Estimate
from tests.quoting.books.test_cutting import _folder, _run

needs_poppler = pytest.mark.skipif(
    shutil.which("pdftoppm") is None, reason="poppler is not here: no page is looked at"
)


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> Estimate:
    return _run(_folder(tmp_path_factory.mktemp("shop")))


def test_every_blank_and_drop_has_one_label(found: Estimate) -> None:
    sheets = cut_sheets(found)
    kept = remnants(found, sheets)
    labels = labels_of(found, sheets, kept)
    placed = sum(len(cut.placements) for sheet in sheets for cut in sheet.cuts)
    assert len(labels) == placed + len(kept)
    assert max(Counter(label.code for label in labels).values()) == 1
    for label in labels:
        assert label.code.split("/")[0] in ("PIECE", "DROP")


def test_a_heat_number_is_never_made_up(found: Estimate) -> None:
    sheets = cut_sheets(found)
    known = {sheet.plate.heat for sheet in sheets if sheet.plate.heat}
    for label in labels_of(found, sheets, remnants(found, sheets)):
        assert label.heat in known | {""}


@needs_poppler
@pytest.mark.parametrize(("columns", "rows"), [(2, 5), (3, 8), (1, 3)])
def test_every_code_is_read_back_from_its_page(
    found: Estimate, tmp_path: Path, columns: int, rows: int
) -> None:
    zxing = pytest.importorskip("zxingcpp")
    from PIL import Image  # noqa: PLC0415

    cutting = replace(found.shop.cutting, label_columns=columns, label_rows=rows)
    found = replace(found, shop=replace(found.shop, cutting=cutting))
    sheets = cut_sheets(found)
    kept = remnants(found, sheets)
    write_labels(found, sheets, kept, tmp_path / "l.pdf")
    write_cut_sheets(found, sheets, kept, tmp_path / "c.pdf")
    read: dict[str, set[str]] = {}
    for name in "lc":
        paths = [str(tmp_path / f"{name}.pdf"), str(tmp_path / name)]
        subprocess.run(["pdftoppm", "-r", "200", "-gray", "-png", *paths], check=True)
        pages = [Image.open(page) for page in tmp_path.glob(f"{name}-*.png")]
        read[name] = {code.text for page in pages for code in zxing.read_barcodes(page)}
    assert read["l"] == {label.code for label in labels_of(found, sheets, kept)}
    assert read["c"] == {plate_code(sheet) for sheet in sheets}


@needs_poppler
def test_shop_paper_has_marks_and_stops_and_no_money(found: Estimate, tmp_path: Path) -> None:
    sheets = cut_sheets(found)
    kept = remnants(found, sheets)
    write_cut_sheets(found, sheets, kept, tmp_path / "c.pdf")
    command = ["pdftotext", "-layout", str(tmp_path / "c.pdf"), "-"]
    text = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    assert found.shop.rates.currency not in text
    for drop in kept:
        assert drop.id[:9] in text
    if any(sheet.cut.cuts for sheet in sheets):
        assert "stop" in text


@needs_poppler
def test_a_label_says_that_letters_of_it_are_lost(
    found: Estimate, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = labels_of(found, cut_sheets(found), ())[:2]
    spoilt = (replace(made[0], rows=("न", *made[0].rows[1:])), made[1])
    monkeypatch.setattr("quoting.books.cutting.labels.labels_of", lambda *_: spoilt)
    write_labels(found, (), (), tmp_path / "l.pdf")
    command = ["pdftotext", str(tmp_path / "l.pdf"), "-"]
    said = subprocess.run(command, check=True, capture_output=True, text=True).stdout
    assert said.count("letters lost, see the order sheet") == 1
