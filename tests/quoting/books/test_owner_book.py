"""The owner's book: figures with their formulas, charts drawn from the tables, customers' text as text."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from quoting.books import write_owner
from quoting.estimating import with_risk
from quoting.record import OwnersFigures, owners_figures
from quoting.recording import describe
from tests.quoting.books import factories
from tests.quoting.books.package import book, cells, parts, texts


@pytest.fixture(scope="module")
def found() -> OwnersFigures:
    return owners_figures([describe(with_risk(factories.run()))])


@pytest.fixture(scope="module")
def path(found: OwnersFigures, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("owner") / "owner.xlsx"
    write_owner(found, path)
    return path


def test_two_sheets_with_three_charts(path: Path) -> None:
    assert book(path).sheetnames == ["Owner", "Lines"]
    assert sum(name.startswith("xl/charts/chart") for name in parts(path)) == 3


def test_totals_stand_with_their_formulas(path: Path, found: OwnersFigures) -> None:
    shown, formulas = book(path, values=True)["Owner"], book(path)["Owner"]
    row = next(row for row in range(4, 20) if shown.cell(row, 1).value == "All")
    assert Decimal(str(shown.cell(row, 3).value)) == found.total.sold
    assert formulas.cell(row, 3).value == f"=SUM(C5:C{row - 1})"
    assert shown.cell(row, 9).value == pytest.approx(found.total.an_hour)


def test_every_line_is_on_its_sheet_weakest_first(path: Path, found: OwnersFigures) -> None:
    sheet = book(path, values=True)["Lines"]
    earned = [float(str(row[10])) for row in sheet.iter_rows(min_row=5, values_only=True)]
    assert len(earned) == len(found.lines)
    assert earned == sorted(earned)


def test_customers_text_is_never_a_formula(path: Path) -> None:
    for cell in cells(book(path)):
        if cell.data_type == "f":
            assert str(cell.value).strip() not in {nasty.strip() for nasty in factories.NASTY}


def test_nothing_decided_is_said_in_one_sentence(path: Path) -> None:
    assert "No line is under the floor, and none is priced by hand." in texts(book(path), "Owner")


def test_no_line_at_all_still_gives_a_book(found: OwnersFigures, tmp_path: Path) -> None:
    write_owner(replace(found, lines=(), plates=(), weeks=()), tmp_path / "o.xlsx")
    assert book(tmp_path / "o.xlsx").sheetnames == ["Owner", "Lines"]
