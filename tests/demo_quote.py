"""One quote of the three demo sheets, for all tests that only read what it wrote."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from filelock import FileLock

DEMO = Path(__file__).resolve().parents[1] / "demo_orders"


@pytest.fixture(scope="session")
def demo_quote(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The output folder, made by the first worker that asks; nobody may change a file in it."""
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if os.environ.get("PYTEST_XDIST_WORKER") else base
    done, making = shared / "demo-quote", shared / "demo-quote-in-the-making"
    with FileLock(shared / "demo-quote.lock"):
        if not done.exists():
            sheets = [str(path) for path in sorted(DEMO.glob("orders-*.xlsx"))]
            usual = ["--shop", str(DEMO / "shop"), "--today", "2026-11-30", "--effort", "quick"]
            command = [sys.executable, "-m", "scheduler", "quote", *sheets, *usual, "--no-ledger"]
            made = subprocess.run(
                [*command, "--out", str(making)], cwd=DEMO.parent, capture_output=True, text=True, check=False
            )
            assert made.returncode == 1, made.stderr  # some lines of the messy sheet wait for answers
            making.rename(done)
    return done
