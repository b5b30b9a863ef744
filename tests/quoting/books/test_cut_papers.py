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
from quoting.books.cutting.drawings import piece_texts, plate_sheet
from quoting.books.cutting.labels import labels_of
from quoting.books.cutting.remnants import by_layout
from quoting.drawings import plate_dxf, plate_svg
from quoting.estimating import Estimate, estimate
from quoting.shop import load_shop
from tests.quoting.books.test_cutting import TODAY, _folder, _order, _run
from tests.quoting.drawings.letters_drawn import letters_drawn

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


def test_blanks_of_a_long_run_share_a_label_with_the_others_of_their_plate(
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    shop = load_shop(_folder(tmp_path_factory.mktemp("long")))
    third = replace(_order().lines[2], quantity=3)
    found = estimate((replace(_order(), lines=(third,)),), shop, today=TODAY, effort="quick")
    longer = replace(found, shop=replace(shop, cutting=replace(shop.cutting, label_each_up_to=2)))
    each, shared = (labels_of(run, cut_sheets(run), ()) for run in (found, longer))
    assert [label.rows[0].split(",")[0] for label in each] == [f"blank {n} of 3" for n in (1, 2, 3)]
    assert [label.rows[0].split(",")[0] for label in shared] == ["blanks 1 to 2 of 3", "blank 3 of 3"]
    assert len({label.code for label in shared}) == 2


def test_a_heat_number_is_never_made_up(found: Estimate) -> None:
    sheets = cut_sheets(found)
    known = {sheet.plate.heat for sheet in sheets if sheet.plate.heat}
    for label in labels_of(found, sheets, remnants(found, sheets)):
        assert label.heat in known | {""}


def _said(path: Path) -> str:
    command = ["pdftotext", "-layout", str(path), "-"]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


CORNER = ("-x", "1250", "-y", "0", "-W", "400", "-H", "300")
"""Of a Letter page on its side at 150 dots an inch: where the code of a cut sheet stands."""


def _codes(path: Path, *part: str, last: int) -> set[str]:
    """Return the codes that another library reads from the pictures of a paper's first pages."""
    zxing = pytest.importorskip("zxingcpp")
    from PIL import Image  # noqa: PLC0415

    stem = path.with_suffix("")
    picture = ["pdftoppm", "-r", "150", "-l", str(last), "-gray", "-png", *part]
    subprocess.run([*picture, str(path), str(stem)], check=True)
    pages = [Image.open(page) for page in path.parent.glob(f"{stem.name}-*.png")]
    return {code.text for page in pages for code in zxing.read_barcodes(page)}


@needs_poppler
@pytest.mark.parametrize(("columns", "rows"), [(2, 5), (3, 8), (1, 3)])
def test_every_code_of_a_page_of_labels_is_read_back(
    found: Estimate, tmp_path: Path, columns: int, rows: int
) -> None:
    cutting = replace(found.shop.cutting, label_columns=columns, label_rows=rows)
    found = replace(found, shop=replace(found.shop, cutting=cutting))
    sheets = cut_sheets(found)
    kept = remnants(found, sheets)
    write_labels(found, sheets, kept, tmp_path / "l.pdf")
    first = labels_of(found, sheets, kept)[: columns * rows]
    assert _codes(tmp_path / "l.pdf", last=1) == {label.code for label in first}


@needs_poppler
def test_the_code_of_every_plate_is_read_back_from_its_cut_sheet(found: Estimate, tmp_path: Path) -> None:
    sheets = cut_sheets(found)
    write_cut_sheets(found, sheets, remnants(found, sheets), tmp_path / "c.pdf")
    assert _codes(tmp_path / "c.pdf", *CORNER, last=99) == {plate_code(sheet) for sheet in sheets}


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_no_letter_at_the_cutting_table_is_under_eight_points(
    found: Estimate, tmp_path: Path, paper: str
) -> None:
    sheets = cut_sheets(found)
    kept = remnants(found, sheets)
    found = replace(found, shop=replace(found.shop, paper=paper))
    with letters_drawn() as drawn:
        write_cut_sheets(found, sheets, kept, tmp_path / "c.pdf")
        write_labels(found, sheets, kept, tmp_path / "l.pdf")
    small = {words for words, mm in drawn if mm < 8 * 25.4 / 72}
    assert not small


def test_no_money_stands_in_what_the_cutting_table_draws(found: Estimate) -> None:
    sheets = cut_sheets(found)
    kept = remnants(found, sheets)
    pieces = piece_texts(found)
    assert kept
    for sheet in sheets:
        drawn = plate_sheet(found, sheet, pieces, by_layout(kept))
        assert found.shop.rates.currency not in plate_svg(drawn)
        assert found.shop.rates.currency not in plate_dxf(drawn).decode("cp1252")


@needs_poppler
def test_a_long_list_of_strokes_says_on_each_page_that_letters_are_lost(
    found: Estimate, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    texts = {piece: replace(text, name="न") for piece, text in piece_texts(found).items()}
    monkeypatch.setattr("quoting.books.cutting.cut_sheet_pdf.piece_texts", lambda _: texts)
    monkeypatch.setattr("quoting.books.cutting.cut_sheet_pdf._ROW", 60.0)  # so that no list fits its page
    sheets = cut_sheets(found)
    kept = remnants(found, sheets)
    sheared = [sheet for sheet in sheets if sheet.cut.cuts][:1]
    write_cut_sheets(found, sheared, kept, tmp_path / "c.pdf")
    pages = _said(tmp_path / "c.pdf").split("\f")[:-1]
    assert len(pages) > 1
    assert all("letters lost" in page for page in pages)


@needs_poppler
def test_shop_paper_has_marks_and_stops_and_no_money(found: Estimate, tmp_path: Path) -> None:
    sheets = cut_sheets(found)
    kept = remnants(found, sheets)
    write_cut_sheets(found, sheets, kept, tmp_path / "c.pdf")
    text = _said(tmp_path / "c.pdf")
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
    assert _said(tmp_path / "l.pdf").count("letters lost, see the order sheet") == 1
