"""The commands why, reprice and owner as a user meets them."""

from __future__ import annotations

import json
import os
from pathlib import Path

import openpyxl
import pytest
from click.testing import Result

from quoting.books.costing import FIRST_ROW, INDEX
from tests.scheduler.commands.test_run_job import SHEET, call, run


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    sheet = tmp_path_factory.mktemp("in") / "orders-yard.csv"
    sheet.write_text(SHEET)
    folder = tmp_path_factory.mktemp("out")
    result = run(sheet, folder, "--sensitivities")
    assert result.exit_code == 0, result.output
    return folder


def _edited(out: Path, folder: Path, **changes: object) -> Path:
    workbook = openpyxl.load_workbook(out / "costing-2026-11-30.xlsx")
    for name, value in changes.items():
        workbook["Lines"].cell(FIRST_ROW + 1, INDEX[name] + 1).value = value  # type: ignore[assignment]
    workbook.save(folder / "costing.xlsx")
    return folder / "costing.xlsx"


def _reprice(out: Path, costing: Path, into: Path) -> Result:
    options = ("--record", out / "result.json", "--out", into, "--today", "2026-12-02")
    return call("reprice", costing, *options)


def test_why_says_ten_lines_and_what_would_change_them(out: Path) -> None:
    result = call("why", out / "result.json", "1")
    assert result.exit_code == 0
    lines = result.output.strip().split("\n")
    assert lines[0].startswith("Line 1, 2 x Cylinder 30")
    assert len(lines) == 15
    assert any(line.startswith("Plate +8%: ") for line in lines)


def test_quotes_come_as_workbook_and_pdf(out: Path) -> None:
    names = sorted(name for name in os.listdir(out) if name.startswith("quote-"))
    assert [Path(name).suffix for name in names] == [".pdf", ".xlsx"]
    assert Path(names[0]).stem == Path(names[1]).stem


def test_a_changed_book_becomes_revision_two(out: Path, tmp_path: Path) -> None:
    costing = _edited(out, tmp_path, by_hand=999, why_by_hand="agreed")
    result = _reprice(out, costing, tmp_path / "rev")
    assert result.exit_code == 0, result.output
    assert "999.00 each (agreed)" in result.output
    names = {name.rpartition("-")[2] for name in os.listdir(tmp_path / "rev")}
    assert names == {"rev2.xlsx", "rev2.pdf", "rev2.json", "rev2.eml"}
    before, after = (
        json.loads(path.read_text()) for path in (out / "result.json", tmp_path / "rev" / "result-rev2.json")
    )
    assert after["revision"]["replaces"] == before["id"]
    assert after["lines"][0]["price"]["unit"] == "999"
    assert after["lines"][1]["price"] == before["lines"][1]["price"]
    assert after["schedule"] == before["schedule"]


def test_wrong_edits_leave_nothing_behind(out: Path, tmp_path: Path) -> None:
    costing = _edited(out, tmp_path, setup_minutes="soon")
    result = _reprice(out, costing, tmp_path / "rev")
    assert result.exit_code == 2
    assert 'sheet "Lines", row 8' in result.output
    assert not (tmp_path / "rev").exists()


def test_a_book_without_a_change_is_said_so(out: Path, tmp_path: Path) -> None:
    result = _reprice(out, out / "costing-2026-11-30.xlsx", tmp_path / "rev")
    assert result.exit_code == 2
    assert "no boxed cell differs" in result.output


def test_the_owners_page_counts_a_revision_once(out: Path, tmp_path: Path) -> None:
    costing = _edited(out, tmp_path, by_hand=999, why_by_hand="agreed")
    _reprice(out, costing, tmp_path / "results")
    (tmp_path / "results" / "result.json").write_text((out / "result.json").read_text())
    result = call("owner", tmp_path / "results", "--out", tmp_path / "owner")
    assert result.exit_code == 0, result.output
    assert "1 replaced or given twice" in result.output
    assert os.listdir(tmp_path / "owner") == ["owner-2026-12-02.xlsx"]


def test_a_folder_without_results_is_one_message(tmp_path: Path) -> None:
    result = call("owner", tmp_path, "--out", tmp_path / "owner")
    assert result.exit_code == 2
    assert "holds no result*.json" in result.output
