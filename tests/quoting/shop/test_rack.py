"""The stock rack: what each row means, and the words for a row that cannot be used."""

from __future__ import annotations

import zipfile
from datetime import date
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
import xlsxwriter
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import InputError
from quoting.shop import Edge, Shop, load_shop, read_size
from tests.quoting.shop.shop_folder import book_with, shop_with

QUARTER_4X8 = Decimal("326.71")  # lb: 0.25 x 48 x 96 in = 18,877,898 mm3, at 7,850 kg/m3 148.19 kg


def warning(folder: Path, row: str) -> str:
    """Return the one warning that a rack row leads to, without its file and row."""
    shop = shop_with(folder, rack=row)
    assert shop.stock == ()
    (told,) = shop.warnings
    assert told.startswith("rack.csv, row 2, column ")
    assert told.endswith(" (the row is left out)")
    return told.removeprefix("rack.csv, row 2, column ").removesuffix(" (the row is left out)")


def test_a_row_is_what_it_says(tmp_path: Path) -> None:
    (plate,) = shop_with(tmp_path, rack="P-1,SA-516 Gr 70N,1/2,97,240,mill,2,0.80,lb,H123,no\n").stock
    assert (plate.id, plate.material, plate.edge, plate.count) == ("P-1", "A516-70", Edge.MILL, 2)
    assert (plate.thickness_mm, plate.width_mm, plate.length_mm) == (12.7, 2463.8, 6096)
    assert (plate.heat, plate.remnant, plate.buyable, plate.row) == ("H123", False, False, 2)


@pytest.mark.parametrize(
    ("price", "per", "wanted"),
    [
        ("0.50", "lb", QUARTER_4X8 / 2),
        ("1.00", "kg", Decimal("148.19")),
        ("200", "plate", Decimal("200.00")),
        ("$1,200.50", "each", Decimal("1200.50")),
        ("1,00", "kg", Decimal("148.19")),
        ("", "", Decimal("202.56")),  # the grade's 0.62 per lb
    ],
)
def test_the_price_is_of_the_whole_plate(tmp_path: Path, price: str, per: str, wanted: Decimal) -> None:
    row = f'P-1,A36,0.25,48,96,trimmed,1,"{price}",{per},,\n'
    assert shop_with(tmp_path, rack=row).stock[0].price == pytest.approx(wanted, abs=Decimal("0.01"))


@pytest.mark.parametrize(
    ("price", "per", "remnant", "asked"),
    [
        ("0.85", "lb", "", False),
        ("62", "lb", "", True),
        ("30", "plate", "", True),
        ("30", "plate", "yes", False),
    ],
)
def test_a_price_far_from_the_grades_is_asked_about(
    tmp_path: Path, price: str, per: str, remnant: str, asked: bool
) -> None:
    shop = shop_with(tmp_path, rack=f"P-1,A36,0.25,48,96,trimmed,1,{price},{per},,{remnant}\n")
    told = [text for text in shop.warnings if text.startswith("the rack's price of P-1 (")]
    assert bool(told) == asked
    assert len(shop.stock) == 1


def test_a_remnant_without_a_price_stands_at_what_it_was_kept_for(tmp_path: Path) -> None:
    rows = (
        "N,A36,0.25,48,96,trimmed,1,,,,no\n"
        "R,A36,0.25,48,96,trimmed,1,,,,yes\n"
        "O,A36,0.25,48,96,trimmed,1,150,plate,,yes\n"
    )
    new, kept, own = (plate.price for plate in shop_with(tmp_path, rack=rows).stock)
    assert kept == pytest.approx(new / 2, abs=Decimal("0.01"))  # the book's drop_value_share
    assert own == 150


def test_a_size_may_be_a_gauge_of_the_grade_or_in_mm(tmp_path: Path) -> None:
    rows = (
        "G,galvanized,10 ga,48,120,,1,,,,\nS,A1011,10ga,48,120,,1,,,,\nM,S235,6 mm,1500 mm,3000 mm,,1,,,,\n"
    )
    thicknesses = [plate.thickness_mm for plate in shop_with(tmp_path, rack=rows).stock]
    assert thicknesses == pytest.approx([0.1382 * 25.4, 0.1345 * 25.4, 6.0], abs=1e-3)


def test_empty_cells_mean_mill_edge_one_plate_no_remnant(tmp_path: Path) -> None:
    (plate,) = shop_with(tmp_path, rack=",A36,0.25,60,120,,,,,,\n").stock
    assert (plate.id, plate.edge, plate.count, plate.remnant) == ("rack row 2", Edge.MILL, 1, False)


def test_the_shorter_side_is_the_width(tmp_path: Path) -> None:
    (plate,) = shop_with(tmp_path, rack="P,A36,0.25,120,60,,,,,,\n").stock
    assert (plate.width_mm, plate.length_mm) == (1524, 3048)


def test_a_plate_that_is_used_up_is_no_stock(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, rack="P,A36,0.25,60,120,mill,0,,,,\n")
    assert (shop.stock, shop.warnings) == ((), ())


def test_a_metric_shop_reads_bare_numbers_as_mm(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, {'units = "inch"': 'units = "metric"'}, rack="P,S235,6,1500,3000,,,,,,\n")
    assert shop.stock[0].thickness_mm == 6


def test_the_unit_in_the_heading_wins(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(book_with({}), "utf-8")
    (tmp_path / "rack.csv").write_text("Grade;Thk mm;Width (in);Length [mm]\nS235;6;48;3000\n", "utf-8")
    (plate,) = load_shop(tmp_path).stock
    assert (plate.thickness_mm, plate.width_mm, plate.length_mm) == (6, 1219.2, 3000)


@pytest.mark.parametrize(
    ("row", "wanted"),
    [
        (
            "P,A37,0.25,60,120,mill,1,,,,\n",
            'B (Material): is no grade of this shop - read "A37"; use a known name',
        ),
        ("P,A36,,60,120,mill,1,,,,\n", "C (Thickness): a size is missing"),
        ("P,A36,0.25,-60,120,mill,1,,,,\n", "D (Width): "),
        ("P,A36,0.25,60 OD,120,mill,1,,,,\n", 'D (Width): must be one plain size - read "60 OD"'),
        (
            "P,A36,0.25,60,120,torn,1,,,,\n",
            'F (Edge): is no edge condition - read "torn"; write mill or trimmed',
        ),
        ("P,A36,0.25,60,120,mill,1.5,,,,\n", 'G (Quantity): must be a whole number, 0 or more - read "1.5"'),
        (
            "P,A36,0.25,60,120,mill,1,cheap,lb,,\n",
            'H (Price): must be an amount of money, 0 or more - read "cheap"',
        ),
        (
            "P,A36,0.25,60,120,mill,1,0.6,,,\n",
            "I (Per): the price does not say per what; write lb, kg or plate",
        ),
        ("P,A36,0.25,60,120,mill,1,0.6,lb,,maybe\n", 'K (Remnant): must be yes or no - read "maybe"'),
    ],
)
def test_a_row_that_cannot_be_used_is_left_out_and_named(tmp_path: Path, row: str, wanted: str) -> None:
    assert warning(tmp_path, row).startswith(wanted)


def test_a_plate_without_any_price_is_left_out(tmp_path: Path) -> None:
    line = next(line for line in book_with({}).splitlines() if line.startswith('"2205"'))
    (told,) = shop_with(tmp_path, {line: ""}, rack="P,2205,0.25,60,120,mill,1,,,,\n").warnings
    assert "has no price, nor has 2205 one in shop.toml" in told


def test_the_second_row_of_one_plate_id_is_left_out(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, rack="P,A36,0.25,60,120,,,,,,\nP,A36,0.5,60,120,,,,,,\n")
    assert [plate.thickness_mm for plate in shop.stock] == [6.35]
    assert shop.warnings == (
        'rack.csv, row 3, column A (Plate id): this plate id stands already in row 2 - read "P"; '
        "give each row its own id (the row is left out)",
    )


def test_buyable_sizes_have_no_count_but_lead_days(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, rack="P,A36,0.25,60,120,,,,,,\n", buyable="B,A36,0.25,97,240,mill,0.6,lb,4\n")
    bought = shop.stock[1]
    assert (bought.buyable, bought.count, bought.lead_days) == (True, None, 4)


def test_a_sheet_without_a_table_of_plates_is_refused(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(book_with({}), "utf-8")
    (tmp_path / "rack.csv").write_text("nothing,here\n", "utf-8")
    with pytest.raises(InputError, match="found: no row has the headings Material, Thickness, Width, Length"):
        load_shop(tmp_path)


def test_the_heading_that_is_missing_is_named(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(book_with({}), "utf-8")
    (tmp_path / "rack.csv").write_text("My rack\n\nPlate id,Grade,Thk,Len,Length\n", "utf-8")
    with pytest.raises(InputError, match="no row has the heading Width; put Plate id"):
        load_shop(tmp_path)


def test_a_table_with_lead_days_and_no_quantity_is_of_sizes_to_buy(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(book_with({}), "utf-8")
    (tmp_path / "rack.csv").write_text(
        "Material,Thickness,Width,Length,Lead time days\nA36,0.25,60,120,3\n", "utf-8"
    )
    (plate,) = load_shop(tmp_path).stock
    assert (plate.buyable, plate.lead_days) == (True, 3)


def test_a_cell_of_two_lines_stays_one_cell(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, rack='P,A36,0.25,60,120,mill,1,,,"H1\nH2",no\nQ,A36,0.5,60,120,,,,,,\n')
    assert [(plate.id, plate.heat) for plate in shop.stock] == [("P", "H1\nH2"), ("Q", "")]


def test_a_file_that_is_no_workbook_is_refused(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(book_with({}), "utf-8")
    with zipfile.ZipFile(tmp_path / "rack.xlsx", "w") as archive:
        archive.writestr("readme.txt", "no workbook")
    with pytest.raises(InputError, match=r"rack\.xlsx: cannot be read: it is a zip file, but no workbook"):
        load_shop(tmp_path)


def test_a_size_that_became_a_date_is_named(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(book_with({}), "utf-8")
    with xlsxwriter.Workbook(str(tmp_path / "rack.xlsx")) as book:
        page = book.add_worksheet("Rack")
        page.write_row(2, 0, ["Plate id", "Material", "Thickness", "Width", "Length"])
        page.write_row(3, 0, ["P", "A36"])
        page.write_datetime(3, 2, date(2026, 1, 4), book.add_format({"num_format": "d-mmm"}))
        page.write_row(3, 3, [60, 120])
    (told,) = load_shop(tmp_path).warnings
    assert told.startswith('rack.xlsx, sheet "Rack", row 4, column C (Thickness): the spreadsheet has turned')


def test_an_open_document_rack_is_read(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text(book_with({}), "utf-8")
    _write_ods(tmp_path / "rack.ods", [["Plate id", "Material", "Thickness", "Width", "Length"],
                                       ["P", "A36", "1/4", "60", "120"]])  # fmt: skip
    (plate,) = load_shop(tmp_path).stock
    assert (plate.thickness_mm, plate.length_mm) == (6.35, 3048)


def _write_ods(path: Path, rows: list[list[str]]) -> None:
    """Write the least that makes an OpenDocument spreadsheet (OASIS OpenDocument 1.2)."""
    urn = "urn:oasis:names:tc:opendocument:xmlns"
    names = " ".join(f'xmlns:{name}="{urn}:{name}:1.0"' for name in ("office", "table", "text"))
    body = "".join(f"<table:table-row>{''.join(map(_ods_cell, row))}</table:table-row>" for row in rows)
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        archive.writestr("META-INF/manifest.xml", "<manifest/>")
        archive.writestr(
            "content.xml",
            f"<office:document-content {names}><office:body><office:spreadsheet>"
            f'<table:table table:name="Rack">{body}</table:table>'
            "</office:spreadsheet></office:body></office:document-content>",
        )


def _ods_cell(text: str) -> str:
    return f'<table:table-cell office:value-type="string"><text:p>{text}</text:p></table:table-cell>'


CELLS = st.one_of(
    st.sampled_from(
        ["A36", "304L", "1/4", "0.25", "60", "6 mm", "10 ga", "mill", "lb", "yes", "", "-1", "1e9", "nan"]
    ),
    # without NUL: a file full of them is no text file (the next test)
    st.text(alphabet=st.characters(exclude_characters='"\0', exclude_categories=["Cs"]), max_size=8),
)


@settings(max_examples=60, deadline=None)
@given(st.lists(CELLS, min_size=11, max_size=11))
def test_no_cell_whatever_it_holds_stops_the_run(cells: list[str]) -> None:
    row = ",".join(f'"{cell}"' for cell in cells) + "\n"
    with TemporaryDirectory() as folder:
        shop = shop_with(Path(folder), rack=row)
    assert len(shop.stock) <= 1
    for plate in shop.stock:
        assert 0 < plate.width_mm <= plate.length_mm
        assert plate.price >= 0


def test_a_rack_full_of_zero_bytes_is_told_to_be_no_text(tmp_path: Path) -> None:
    row = ",".join(["A36"] * 7 + ['"\0"'] * 4) + "\n"
    with pytest.raises(InputError, match=r"rack\.csv: is no text file; save the sheet as \.csv or \.xlsx"):
        shop_with(tmp_path, rack=row)


@given(st.floats(min_value=0.01, max_value=1000), st.sampled_from(["steel", "galvanized"]))
def test_a_bare_number_in_a_cell_is_taken_in_the_unit_of_the_column(value: float, table: str) -> None:
    assert read_size(value, inch=True, gauge_table=table) == pytest.approx(value * 25.4, abs=1e-6)
    assert read_size(value, inch=False, gauge_table=table) == pytest.approx(value, abs=1e-6)


@pytest.mark.parametrize("value", [True, None, "", 0, -1.0, float("inf"), "NPS 24", "1/4 - 3/8", "many"])
def test_what_is_no_size_is_refused(value: object) -> None:
    with pytest.raises(ValueError, match=r"."):
        read_size(value, inch=True, gauge_table="steel")


def _rack_with_days(folder: Path, day: str) -> Shop:
    shop_with(folder, rack="P-1,A36,1/4,48,96,mill,1,,,,no\n")
    path = folder / "rack.csv"
    head, row = path.read_text().splitlines()[:2]
    path.write_text(f"{head},Here on\n{row},{day}\n")
    return load_shop(folder)


def test_a_plate_on_its_way_says_the_day_it_is_here(tmp_path: Path) -> None:
    assert [plate.here_on for plate in _rack_with_days(tmp_path, "2026-12-09").stock] == [date(2026, 12, 9)]


def test_an_empty_day_is_a_plate_in_the_house(tmp_path: Path) -> None:
    assert [plate.here_on for plate in _rack_with_days(tmp_path, "").stock] == [None]


def test_a_day_that_is_none_leaves_the_row_out_and_is_told(tmp_path: Path) -> None:
    shop = _rack_with_days(tmp_path, "soon")
    assert not shop.stock
    assert "is no day" in shop.warnings[0]
