"""The sheets of a run say the same, read ahead or when they are asked for, by this process or another."""

from __future__ import annotations

import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from quoting.core import InputError
from quoting.intake import SheetsAsked, every_alternative, read_all
from quoting.intake import for_run as module
from quoting.intake.for_run import read_ahead, read_for_run
from quoting.shop import load_shop
from tests.quoting.intake.sheets import GOOD, HEAD, write_rows
from tests.scheduler.conftest import DEMO

TODAY = date(2026, 11, 30)
UNSIDED = ["2", "1", "30", "", "1/4", "24", "A36"]


def _asked(*paths: Path) -> SheetsAsked:
    return {
        "orders": paths,
        "shop_dir": DEMO / "shop",
        "today": TODAY,
        "answers": (),
        "customer": "",
        "language": "de",
        "prefixes": None,
    }


@pytest.fixture(autouse=True)
def _nothing_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_ahead", [])


def test_a_run_reads_what_its_sheets_say_with_each_choice(tmp_path: Path) -> None:
    shop, path = load_shop(DEMO / "shop"), write_rows(tmp_path, HEAD, GOOD, UNSIDED)
    (plain,) = read_all([path], shop, today=TODAY)
    read = read_for_run((_asked(path), None))
    (order,) = read["orders"]
    assert (order.lines, order.questions, order.language) == (plain.lines, plain.questions, "de")
    assert read["alternatives"] == every_alternative([plain], shop)
    assert {one.choice for one in read["alternatives"]} >= {"inside (ID)", "outside (OD)"}
    assert (read["shop"], read["lost"]) == (shop, [])
    assert any("--customer" in note for note in read["notes"])


def test_what_was_read_ahead_is_taken_for_the_same_question_alone(tmp_path: Path) -> None:
    path = write_rows(tmp_path, HEAD, GOOD)
    asked = _asked(path)
    read_ahead(asked)
    path.unlink()
    ahead = read_for_run((_asked(path), None))
    assert len(ahead["orders"][0].lines) == 1
    for other in (({**asked, "language": ""}, None), (asked, ahead["shop"])):
        with pytest.raises(InputError):  # the sheet is not there any more
            read_for_run(other)  # type: ignore[arg-type]


def test_getting_ready_reads_nothing() -> None:
    read_ahead(None)
    assert module._ahead == []


IN_ANOTHER = """
import sys
from scheduler.commands.cli import main
try:
    main(sys.argv[1:])
except SystemExit as end:
    print("code", end.code, "here" if "quoting.intake" in sys.modules else "elsewhere")
"""


@pytest.mark.skipif(sys.platform != "linux", reason="processes are forked on Linux alone")
@pytest.mark.parametrize(("workers", "where"), [("2", "elsewhere"), ("1", "here")])
def test_with_two_workers_another_process_reads(tmp_path: Path, workers: str, where: str) -> None:
    path = write_rows(tmp_path, HEAD, GOOD, UNSIDED)
    words = ["quote", str(path), "--shop", str(DEMO / "shop"), "--out", str(tmp_path / "out"), "--no-ledger"]
    words += ["--today", TODAY.isoformat(), "--effort", "quick", "--workers", workers]
    done = subprocess.run(
        [sys.executable, "-c", IN_ANOTHER, *words], capture_output=True, text=True, check=True, timeout=120
    )
    assert done.stdout.splitlines()[-1] == f"code 1 {where}"
