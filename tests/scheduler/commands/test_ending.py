"""However a command ends: one message, the right exit code, no traceback, nothing half."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import pytest

import quoting.commands  # noqa: F401 - so that a test can exchange a function in it
from scheduler.commands import ending
from tests.scheduler.commands.test_run_job import call
from tests.scheduler.conftest import DEMO

ROOT = Path(__file__).parents[3]
SHEET = "Line,Qty,Part,OD in,Thk in,Length in,Material,Ends\n1,2,T-1,30,0.25,48,A36,pre-bend\n"
SECRET = "Ridge Tank, 12 pieces at 99.50"
unix = pytest.mark.skipif(os.name == "nt", reason="devices and signals of Unix")


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    path = tmp_path / "orders.csv"
    path.write_text(SHEET)
    return path


def quote(sheet: object, out: Path, *more: object) -> tuple[int, str]:
    common = (
        "--shop",
        DEMO / "shop",
        "--out",
        out,
        "--today",
        "2026-11-30",
        "--effort",
        "quick",
        "--no-ledger",
    )
    result = call("quote", sheet, *common, *more)
    return result.exit_code, result.output


def started(*arguments: object, **options: Any) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "scheduler", *map(str, arguments)]
    return subprocess.Popen(command, cwd=ROOT, text=True, stderr=subprocess.PIPE, **options)


def test_a_fault_of_the_program_is_told_with_a_report_that_holds_no_data(
    sheet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise KeyError(SECRET)

    monkeypatch.setattr(sys.modules["quoting.commands.quote_job"], "estimate", broken)
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    code, said = quote(sheet, tmp_path / "out")
    assert code == ending.OUR_FAULT
    assert "this is a fault of the program, not of your files (KeyError)" in said
    (report,) = tmp_path.glob("rollwright-report-*.txt")
    text = report.read_text()
    assert "KeyError" in text
    assert "quoting/commands/quote_job.py" in text
    assert "Ridge" not in text
    assert "99.50" not in text
    assert str(tmp_path) not in text
    assert list((tmp_path / "out").iterdir()) == []


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (("--seed", "-1"), "-1 is not in the range"),
        (("--today", "9999-12-31"), "is no day to plan on; give one from 2000-01-01 to 2099-12-31"),
        (("--today", "0001-01-01"), "is no day to plan on"),
    ],
)
def test_misuse_is_unusable_input(sheet: Path, tmp_path: Path, more: tuple[str, ...], told: str) -> None:
    code, said = quote(sheet, tmp_path / "out", *more)
    assert code == ending.UNUSABLE
    assert told in said


def test_a_file_that_cannot_be_told_by_its_name_is_quoted_all_the_same(tmp_path: Path) -> None:
    try:
        odd = Path(os.fsdecode(bytes(tmp_path) + b"/orders-\xff\xfe.xlsx"))
        shutil.copy(DEMO / "orders-tidy-example-tank-works.xlsx", odd)
    except OSError:
        pytest.skip("this file system keeps no such names")
    code, said = quote(odd, tmp_path / "out")
    assert code in (ending.DONE, ending.LINES_WAIT), said
    assert (tmp_path / "out" / "result.json").is_file()
    code, said = quote(tmp_path / ("x" * 5_000 + ".xlsx"), tmp_path / "out")
    assert code == ending.UNUSABLE
    assert len(said) < 400


def test_a_quantity_of_400_digits_is_a_question(tmp_path: Path) -> None:
    sheet = tmp_path / "orders.csv"
    for number in ("9" * 400, "1" + ",000" * 30, "9" * 3_000):
        sheet.write_text(SHEET.replace("1,2,T-1", f'1,"{number}",T-1') + "2,2,T-2,30,0.25,48,A36,pre-bend\n")
        code, said = quote(sheet, tmp_path / "out", "--force")
        assert code == ending.LINES_WAIT, said


@unix
def test_a_full_standard_output_is_told_and_the_files_are_whole(sheet: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    command = ("quote", sheet, "--shop", DEMO / "shop", "--out", out, "--effort", "quick", "--no-ledger")
    with open("/dev/full", "w", encoding="utf-8") as full, started(*command, stdout=full) as run:
        _, said = run.communicate()
    assert run.returncode == ending.CANNOT_WRITE
    assert "Traceback" not in said
    assert (out / "result.json").is_file()


@unix
@pytest.mark.parametrize("wait", [0.1, 0.3, 1.0])
def test_a_stopped_run_says_nothing_or_one_line(sheet: Path, tmp_path: Path, wait: float) -> None:
    """Before the interpreter has read its first line nothing can be promised; it takes 0.02 s."""
    out = tmp_path / "out"
    with started(
        "quote", sheet, "--shop", DEMO / "shop", "--out", out, "--no-ledger", stdout=subprocess.PIPE
    ) as run:
        time.sleep(wait)
        run.send_signal(signal.SIGINT)
        _, said = run.communicate()
    if "runpy" in said and "scheduler" not in said:
        pytest.skip("this machine took so long to start the interpreter")
    assert run.returncode == ending.STOPPED, said
    assert "Traceback" not in said
    assert not list(out.glob("*")) or not (out / "result.json").exists()


@unix
@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root can become nobody")
def test_an_ordinary_user_without_a_home_gets_a_quote_and_cannot_write_elsewhere(
    sheet: Path, tmp_path: Path
) -> None:
    open_out, shut_out = tmp_path / "open", tmp_path / "shut"
    open_out.mkdir()
    shut_out.mkdir(mode=0o755)
    open_out.chmod(0o777)
    sheet.chmod(0o644)
    for folder in tmp_path.parents:
        if not folder.stat().st_mode & 0o001:
            pytest.skip("an ordinary user cannot get into this folder of tests")
    for out, code in ((open_out, ending.DONE), (shut_out, ending.CANNOT_WRITE)):
        with started(
            "quote", sheet, "--shop", DEMO / "shop", "--out", out, "--effort", "quick", "--no-ledger",
            stdout=subprocess.PIPE, user=65534, group=65534, env={**os.environ, "HOME": "/root"},
        ) as run:  # fmt: skip
            _, said = run.communicate()
        assert run.returncode == code, said
        assert "Traceback" not in said
