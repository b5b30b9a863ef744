"""A real spreadsheet program opens the run schedule, recalculates it and prints it."""

from __future__ import annotations

from pathlib import Path

import pytest
from openpyxl import load_workbook

from scheduler.books import write_run_schedule
from tests.office import recalculated
from tests.scheduler.books.sample import LIGHT, sample_week


@pytest.mark.slow
def test_libreoffice_recalculates_the_load(tmp_path: Path) -> None:
    path = tmp_path / "run-schedule.xlsx"
    write_run_schedule(sample_week(), path, inch=True)
    (again,) = recalculated([path], tmp_path / "out")
    book = load_workbook(again, data_only=True)
    load = book["Load"]
    row = next(cell.row for cell in load["A"] if cell.value == LIGHT)
    assert load.cell(row, 8).value == pytest.approx((51 + 160) / 2670)
    assert book.sheetnames[0] == "Week"
