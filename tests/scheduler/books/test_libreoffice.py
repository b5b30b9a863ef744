"""A real spreadsheet program opens the run schedule, recalculates it and prints it."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest
from openpyxl import load_workbook

from scheduler.books import write_run_schedule
from tests.scheduler.books.sample import LIGHT, sample_week

SOFFICE = shutil.which("soffice")
pytestmark = pytest.mark.skipif(SOFFICE is None, reason="LibreOffice (soffice) is not installed")


def test_libreoffice_recalculates_the_load(tmp_path: Path) -> None:
    path = tmp_path / "run-schedule.xlsx"
    write_run_schedule(sample_week(), path, inch=True)
    out = tmp_path / "out"
    command = [
        str(SOFFICE),
        "--headless",
        f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}",
        "--convert-to",
        "xlsx:Calc MS Excel 2007 XML",
        "--outdir",
        str(out),
        str(path),
    ]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    book = load_workbook(out / path.name, data_only=True)
    load = book["Load"]
    row = next(cell.row for cell in load["A"] if cell.value == LIGHT)
    assert load.cell(row, 8).value == pytest.approx((51 + 160) / 2670)
    assert book.sheetnames[0] == "Week"
