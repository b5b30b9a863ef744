"""What a run writes does not depend on how many processes work, nor on what else the machine does."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from openpyxl import Workbook

from quoting.core.known_results import NOT_KEPT
from scheduler.commands.cli import main
from tests.scheduler.conftest import DEMO


def _files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


LINES = (
    ("Item", "Description", "Qty", "Dia", "Length", "Thk", "Material", "Due"),
    (1, "Shell", 4, '48" ID', '60"', '1/4"', "A36", "2026-12-11"),
    (2, "Shell", 2, '36" ID', '48"', '3/8"', "A36", "2026-12-14"),
    (3, "Duct", 6, '24" OD', '48"', '1/8"', "304", "2026-12-11"),
    (4, "Sleeve", 3, '30"', '24"', '1/4"', "A36", "2026-12-15"),  # inside or outside: a question with choices
)


def _sheet(path: Path) -> None:
    """Four lines on three kinds of plate, one of them asked about."""
    book = Workbook(write_only=True)
    sheet = book.create_sheet("RFQ")
    for line in LINES:
        sheet.append(line)
    book.save(path)


def _run(out: Path, shop: Path, workers: int) -> dict[str, bytes]:
    asked = ["run", str(shop.parent / "orders.xlsx"), "--shop", str(shop), "--out", str(out)]
    asked += ["--today", "2026-11-30", "--effort", "quick", "--sensitivities", "--no-ledger"]
    asked += ["--workers", str(workers)]
    done = CliRunner().invoke(main, asked)
    assert done.exit_code in (0, 1), done.output
    return _files(out)


@pytest.mark.slow
def test_every_file_is_the_same_with_one_two_and_eight_workers_and_under_load(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop = tmp_path / "shop"
    shutil.copytree(DEMO / "shop", shop, ignore=shutil.ignore_patterns("ledger.db*"))
    _sheet(tmp_path / "orders.xlsx")
    alone = _run(tmp_path / "1", shop, 1)
    assert {"result.json", "questions-2026-11-30.xlsx", "travellers-2026-12-01.pdf"} < alone.keys()
    assert _run(tmp_path / "2", shop, 2) == alone
    monkeypatch.delenv(NOT_KEPT)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    load = [subprocess.Popen([sys.executable, "-c", "while True: pass"]) for _ in range(2)]
    try:
        assert _run(tmp_path / "8", shop, 8) == alone
    finally:
        for process in load:
            process.kill()
            process.wait()
    results = [path for path in (tmp_path / "cache" / "rollwright" / "results").rglob("*") if path.is_file()]
    assert len(results) > 5
    assert _run(tmp_path / "known", shop, 2) == alone
    assert all(path.exists() for path in results)
