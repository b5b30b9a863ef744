"""What to ask a merchant for: the blanks of lines whose plate is in no list, by grade and thickness."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from openpyxl import load_workbook

from quoting.books.questions import write_questions
from quoting.core import EdgeKind, EdgePlace, EdgePrep
from quoting.estimating import Estimate, estimate
from quoting.estimating.plates_wanted import plates_wanted
from quoting.intake.answers import every_alternative, resolve
from quoting.intake.read_orders import read_orders
from quoting.labour import edge_allowance
from quoting.shop import Shop, load_shop

DAY = date(2026, 12, 1)
ROWS = (
    "Item,Qty,ID (in),Thk (in),Length (in),Material",
    "1,2,48,3/4,60,A36",
    "2,3,48,3/4,60,A36",
    "3,1,48,1/4,60,A36",
    "4,1,48,2,60,A36",
    "5,1,48,3/4,,A36",
)


@pytest.fixture(scope="module")
def shop() -> Shop:
    return load_shop(Path(__file__).parents[3] / "demo_orders" / "shop")


def _found(folder: Path, shop: Shop, answers: dict[str, str] | None = None) -> Estimate:
    file = folder / "order.csv"
    file.write_text("\n".join(ROWS))
    order = resolve(read_orders(file, shop, today=DAY), answers or {}, shop)
    return estimate([order], shop, today=DAY, effort="quick")


@pytest.mark.parametrize("answers", [{}, {"4/stock_thickness": "buy it"}])
def test_blanks_of_lines_that_wait_for_a_plate(tmp_path: Path, shop: Shop, answers: dict[str, str]) -> None:
    first, second = _found(tmp_path, shop, answers).wanted
    assert (first.material, first.thickness_mm, second.thickness_mm) == ("A36", 19.05, 50.8)
    assert second.lines == ("4",)
    # 48 in inside and 3/4 in thick is 48 3/4 in in the middle of the plate, and pi times that long
    ((count, width, length),) = first.blanks
    assert count == 5
    assert width == pytest.approx(60 * 25.4)
    assert length == pytest.approx(3.14159265 * 48.75 * 25.4, abs=3.3)  # less the gap of the seam
    assert first.weight_kg == pytest.approx(5 * width * length * 19.05 * 7.85e-6, rel=0.01)


def test_the_questions_book_lists_them(tmp_path: Path, shop: Shop) -> None:
    write_questions(_found(tmp_path, shop), tmp_path / "questions.xlsx")
    sheet = load_workbook(tmp_path / "questions.xlsx")["Plates to ask for"]
    texts = " ".join(str(cell.value) for row in sheet.iter_rows() for cell in row if cell.value)
    assert '5 x 60" x ' in texts
    assert "rack.xlsx" in texts
    write_questions(_found(tmp_path, shop), tmp_path / "theirs.xlsx", for_customer=True)
    assert "Plates to ask for" not in load_workbook(tmp_path / "theirs.xlsx").sheetnames


def test_a_seam_without_a_gap_and_edges_to_machine_make_the_blank_longer(tmp_path: Path, shop: Shop) -> None:
    found = _found(tmp_path, shop)
    known = every_alternative([one.order for one in found.orders], shop)
    usual = plates_wanted(found, known)[0].blanks[0]
    closed = [replace(one, line=replace(one.line, weld_gap_mm=0.0)) for one in known]
    length = 3.14159265 * 48.75 * 25.4
    assert plates_wanted(found, closed)[0].blanks[0][2] == pytest.approx(length, abs=0.01)
    assert usual[2] == pytest.approx(length - shop.default_weld_gap_mm, abs=0.01)
    bevel = EdgePrep(EdgeKind.BEVEL, EdgePlace.ALL, 4, 30.0, 0.0)
    planed = [replace(one, line=replace(one.line, edge_prep=bevel)) for one in known]
    girth, _ = edge_allowance(bevel, shop.operations.edges)
    assert plates_wanted(found, planed)[0].blanks[0][2] == pytest.approx(usual[2] + girth, abs=0.01)
