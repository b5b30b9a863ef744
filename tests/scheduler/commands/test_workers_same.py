"""What a run writes does not depend on how many processes work, nor on what else the machine does."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from scheduler.commands.cli import main
from tests.scheduler.conftest import DEMO


def _files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def _run(out: Path, shop: Path, workers: int) -> dict[str, bytes]:
    asked = ["run", str(DEMO / "orders-metric-sample-vessels.xlsx"), "--shop", str(shop), "--out", str(out)]
    asked += ["--today", "2026-11-30", "--effort", "quick", "--no-ledger", "--workers", str(workers)]
    done = CliRunner().invoke(main, asked)
    assert done.exit_code in (0, 1), done.output
    return _files(out)


@pytest.mark.slow
def test_every_file_is_the_same_with_one_two_and_eight_workers_and_under_load(tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    shutil.copytree(DEMO / "shop", shop, ignore=shutil.ignore_patterns("ledger.db*"))
    alone = _run(tmp_path / "1", shop, 1)
    assert len(alone) > 20
    assert _run(tmp_path / "2", shop, 2) == alone
    load = [subprocess.Popen([sys.executable, "-c", "while True: pass"]) for _ in range(2)]
    try:
        assert _run(tmp_path / "8", shop, 8) == alone
    finally:
        for process in load:
            process.kill()
            process.wait()
