"""The costing book as written: cached values, inputs and formulas told apart, rows that add up, pages."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from openpyxl.workbook import Workbook

from quoting.books import costing_name, write_costing
from quoting.books.costing import COLUMNS, FIRST_ROW, INDEX
from quoting.core import PAPERS
from quoting.estimating import LineResult
from quoting.pricing import INPUTS, LINE_FORMULAS, priced_at
from tests.quoting.books import factories
from tests.quoting.books.package import book, cells, named, parts, texts

SHEETS = ["Settings", "Lines", "Orders", "Owner", "Why", "How", "Minutes", "Nests", "Rows"]


@pytest.fixture(scope="module")
def costing(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("costing") / "costing.xlsx"
    write_costing(factories.run(), path)
    return path


@pytest.fixture(scope="module")
def formulas(costing: Path) -> Workbook:
    return book(costing)


@pytest.fixture(scope="module")
def values(costing: Path) -> Workbook:
    return book(costing, values=True)


def _priced() -> list[LineResult]:
    return [result for result in factories.run().lines if result.price]


def _cell(workbook: Workbook, position: int, name: str) -> object:
    return workbook["Lines"].cell(FIRST_ROW + position + 1, INDEX[name] + 1).value


def test_the_sheets_have_plain_names_in_reading_order(formulas: Workbook) -> None:
    assert formulas.sheetnames == SHEETS


def test_every_part_of_every_price_is_a_formula_with_its_value(formulas: Workbook, values: Workbook) -> None:
    for position, result in enumerate(_priced()):
        price = result.price
        assert price is not None
        for formula in LINE_FORMULAS:
            assert str(_cell(formulas, position, formula.name)).startswith("="), formula.name
        assert Decimal(str(_cell(values, position, "unit"))) == price.unit
        assert Decimal(str(_cell(values, position, "extended"))) == price.extended
        assert _cell(values, position, "cost") == pytest.approx(float(price.parts.cost), abs=1e-9)
        assert _cell(values, position, "under_floor") == ("UNDER FLOOR" if price.under_floor else "kept")


def test_every_formula_of_the_book_has_a_value(formulas: Workbook, values: Workbook) -> None:
    found = 0
    for cell in cells(formulas):
        if cell.data_type == "f":
            found += 1
            assert values[cell.parent.title][cell.coordinate].value is not None, cell.coordinate
    assert found > 300


def test_inputs_have_names_and_can_be_changed_formulas_are_protected(formulas: Workbook) -> None:
    for given in INPUTS:
        if given.owner != "line" and given.name != "shop_keeps_drop":
            assert not named(formulas, given.name).protection.locked, given.name
    assert named(formulas, "shop_keeps_drop").protection.locked
    for name in ("Settings", "Lines", "Orders", "Owner"):
        assert formulas[name].protection.sheet
        assert not formulas[name].protection.password
    for column in COLUMNS:
        cell = formulas["Lines"].cell(FIRST_ROW + 1, INDEX[column.name] + 1)
        if column.block == "What it costs":
            assert cell.protection.locked, column.name


def test_a_price_set_by_hand_is_kept_and_flagged(tmp_path: Path) -> None:
    run = factories.run()
    order = run.orders[0]
    first = order.lines[0]
    assert first.price is not None
    cheap = replace(first, price=priced_at(first.price, Decimal("1.00")))
    changed = replace(run, orders=(replace(order, lines=(cheap, *order.lines[1:])), *run.orders[1:]))
    write_costing(changed, tmp_path / "c.xlsx")
    workbook = book(tmp_path / "c.xlsx", values=True)
    assert _cell(workbook, 0, "by_hand") == 1
    assert _cell(workbook, 0, "sold") == 1
    assert _cell(workbook, 0, "under_floor") == "UNDER FLOOR"
    assert any("1 line is sold under the floor" in text for text in texts(workbook, "Owner"))


def test_customers_text_is_never_a_formula(formulas: Workbook) -> None:
    for cell in cells(formulas):
        if cell.data_type == "f":
            assert str(cell.value).strip() not in {nasty.strip() for nasty in factories.NASTY}, (
                cell.coordinate
            )
    assert factories.CUSTOMERS["messy.xlsx"] in texts(formulas, "Orders")


def test_rows_account_for_every_row_and_the_counts_add_up(values: Workbook) -> None:
    run = factories.run()
    sheet = values["Rows"]
    table = [row for row in sheet.iter_rows(values_only=True) if isinstance(row[2], int) and row[3]]
    assert len(table) >= sum(len(order.rows) for order in run.orders)
    counts = [row for row in sheet.iter_rows(values_only=True) if "adds up" in str(row[5])]
    assert [row[1:5] for row in counts] == [(6, 4, 0, 1), (2, 2, 0, 0), (5, 1, 2, 0)]
    assert "DOES NOT ADD UP" not in " ".join(texts(values, "Rows"))


def test_how_names_the_limit_the_share_and_the_way_out(values: Workbook) -> None:
    said = "\n".join(texts(values, "How"))
    rolled = factories.run().orders[0].lines[0].routes[0].rollings[0]
    assert rolled.verdict.limit in said
    assert f"{rolled.verdict.used:.0%} used" in said
    assert "NO on" in said
    assert "Way out: " in said
    assert "Pinch gap" in said
    assert "A leads" in said


def test_minutes_add_up_to_what_is_priced(values: Workbook) -> None:
    sheet = values["Minutes"]
    likely = [row for row in sheet.iter_rows(values_only=True) if row[2] == "likely"]
    expected = [rolling.minutes.total.likely for result in _priced() for rolling in result.routes[0].rollings]
    assert [row[-1] for row in likely] == pytest.approx(expected)


def test_nests_show_bound_buy_list_and_a_picture_a_layout(costing: Path, values: Workbook) -> None:
    run = factories.run()
    said = " ".join(texts(values, "Nests"))
    assert "To buy" in said
    assert all(f"{group.nest.cost:,.2f}" in said for group in run.nests)
    drawings = [text for name, text in parts(costing).items() if "drawings/drawing" in name]
    assert sum(text.count("<xdr:pic>") for text in drawings) >= len(run.nests)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_every_sheet_is_set_up_for_the_shops_paper(paper: str, tmp_path: Path) -> None:
    path = tmp_path / "costing.xlsx"
    write_costing(factories.run(paper), path)
    for sheet in book(path).worksheets:
        assert sheet.page_setup.paperSize == PAPERS[paper].workbook_code
        assert sheet.page_setup.orientation in ("landscape", "portrait")
        assert sheet.oddFooter is not None
        assert sheet.oddFooter.right is not None
        assert "Page &P of &N" in str(sheet.oddFooter.right.text)
        fits = sheet.sheet_properties.pageSetUpPr is not None
        assert fits or int(sheet.page_setup.scale or 100) < 100


def test_the_same_run_writes_the_same_bytes(costing: Path, tmp_path: Path) -> None:
    again = tmp_path / "again.xlsx"
    write_costing(factories.run(), again)
    assert again.read_bytes() == costing.read_bytes()
    assert costing_name(factories.run()) == "costing-2026-11-30.xlsx"


def test_a_run_without_a_priced_line_still_gives_a_book(tmp_path: Path) -> None:
    run = factories.run()
    orders = tuple(replace(order, lines=()) for order in run.orders)
    write_costing(replace(run, orders=orders, nests=()), tmp_path / "c.xlsx")
    assert book(tmp_path / "c.xlsx").sheetnames == SHEETS
