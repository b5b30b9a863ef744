"""However a command ends: one message, the right exit code, no traceback, nothing half."""

from __future__ import annotations

import io
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
from click.testing import CliRunner

import quoting.commands  # noqa: F401 - so that a test can exchange a function in it
from scheduler.commands import ending, main
from scheduler.commands.options import ShortText
from tests.scheduler.commands.test_run_job import call
from tests.scheduler.conftest import DEMO

ROOT = Path(__file__).parents[3]
SHEET = "Line,Qty,Part,OD in,Thk in,Length in,Material,Ends\n1,2,T-1,30,0.25,48,A36,pre-bend\n"
SECRET = "Ridge Tank, 12 pieces at 99.50"
WITHOUT_LEDGER = shutil.ignore_patterns("ledger*")  # the demo may have been run here before
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


def ordinary() -> tuple[tuple[str, ...], dict[str, Any]]:
    """Return how a command is started for a user who may not write everywhere: before it, and its options.

    As nobody; where nobody cannot get at the interpreter or this code, as root without any of its powers.
    """
    needed = (*Path(os.path.realpath(sys.executable)).parents, *Path(sys.prefix).parents, *ROOT.parents)
    if all(folder.stat().st_mode & 0o001 for folder in needed):
        return (), {"user": 65534, "group": 65534}
    if shutil.which("setpriv") is None:
        pytest.skip("an ordinary user cannot get at the interpreter or this code, and setpriv is missing")
    return ("setpriv", "--bounding-set=-all", "--inh-caps=-all"), {}


def started(*arguments: object, before: tuple[str, ...] = (), **options: Any) -> subprocess.Popen[str]:
    command = [*before, sys.executable, "-m", "scheduler", *map(str, arguments)]
    return subprocess.Popen(command, cwd=ROOT, text=True, stderr=subprocess.PIPE, **options)


def test_a_fault_of_the_program_is_told_with_a_report_that_holds_no_data(
    sheet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise KeyError(SECRET)

    monkeypatch.setattr(sys.modules["quoting.commands.quote_job"], "priced", broken)
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
        (("--customer", "x" * 300), "is longer than 200 letters"),
        (("--shop", "s" * 5_000), "cannot be used (File name too long)"),
    ],
)
def test_misuse_is_unusable_input(sheet: Path, tmp_path: Path, more: tuple[str, ...], told: str) -> None:
    code, said = quote(sheet, tmp_path / "out", *more)
    assert code == ending.UNUSABLE
    assert told in said


@pytest.mark.parametrize("moment", ["9999-12-31 23:59", "0001-01-01 00:00"])
def test_nobody_plans_from_the_end_of_the_calendar(tmp_path: Path, moment: str) -> None:
    for command in (("plan", "--out", tmp_path), ("rush", "A-1", "--by", "2026-12-04")):
        result = call(*command, "--from", moment, "--shop", tmp_path)
        assert result.exit_code == ending.UNUSABLE
        assert "is no day to plan on" in result.output
    result = call("month", "--month", moment[:7], "--shop", tmp_path, "--out", tmp_path)
    assert result.exit_code == ending.UNUSABLE
    assert "is no day to plan on" in result.output


def test_letters_that_the_screen_does_not_have_are_shown_by_their_codes(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """A console of Western letters, and a name that is no text at all."""
    shown = io.TextIOWrapper(io.BytesIO(), encoding="latin-1")
    monkeypatch.setattr(sys, "stdout", shown)
    assert ending.guarded(lambda: print("for 名前 of \udcff.csv") or 0) == ending.DONE
    shown.seek(0)
    assert "for \\u540d\\u524d of \\udcff.csv" in shown.read()


def test_words_for_the_ledger_are_one_line_of_letters(tmp_path: Path) -> None:
    """Neither signs that steer a screen nor broken bytes get into what is kept."""
    assert ShortText().convert("PO\n7\x1b[2J\udcff", None, None) == "PO 7 [2J"
    shop = Path(shutil.copytree(DEMO / "shop", tmp_path / "shop", ignore=WITHOUT_LEDGER))
    result = call("lost", "A\udcff-1\n", "--shop", shop)
    assert result.exit_code == ending.UNUSABLE
    assert "called A -1;" in result.output
    assert not (shop / "ledger.db").exists(), "a command that did nothing begins no ledger"


@unix
def test_things_that_are_no_sheets_beside_a_good_one_are_asked_for_again(sheet: Path, tmp_path: Path) -> None:
    """With a ledger and a customer, which look at each file for themselves; a second time too."""
    shop, odd = tmp_path / "shop", [tmp_path / f"odd-{number}.csv" for number in range(5)]
    shutil.copytree(DEMO / "shop", shop, ignore=WITHOUT_LEDGER)
    odd[0].mkdir()
    os.mkfifo(odd[1])
    odd[2].symlink_to("/dev/zero")
    odd[3].write_bytes(b"PK\x03\x04 and no more")
    for turn in ("one", "two"):
        common = ("--today", "2026-11-30", "--effort", "quick", "--customer", "Yard")
        command = ("quote", *odd, sheet, "--shop", shop, "--out", tmp_path / turn, *common)
        result = CliRunner().invoke(main, [str(one) for one in command], env={"ROLLWRIGHT_NO_LEDGER": ""})
        assert result.exit_code == ending.LINES_WAIT, result.output
        assert "1 priced" in result.output


def test_a_file_that_cannot_be_told_by_its_name_is_quoted_all_the_same(tmp_path: Path) -> None:
    try:
        odd = Path(os.fsdecode(bytes(tmp_path) + b"/orders-\xff\xfe.csv"))
        odd.write_text(SHEET)
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
    numbers = ("9" * 400, "1" + ",000" * 30, "9" * 3_000)
    head, line = SHEET.split("\n1,", 1)
    asked = [f'{n},"{number}",' + line.split(",", 1)[1] for n, number in enumerate(numbers, 1)]
    sheet.write_text(f"{head}\n{''.join(asked)}4,2,T-4,30,0.25,48,A36,pre-bend\n")
    code, said = quote(sheet, tmp_path / "out")
    assert code == ending.LINES_WAIT, said
    assert "1 priced, 3 with questions" in said


@unix
def test_a_full_standard_output_is_told_and_the_files_are_whole(sheet: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    command = ("quote", sheet, "--shop", DEMO / "shop", "--out", out, "--effort", "quick", "--no-ledger")
    with open("/dev/full", "w", encoding="utf-8") as full, started(*command, stdout=full) as run:
        _, said = run.communicate()
    assert run.returncode == ending.CANNOT_WRITE
    assert "Traceback" not in said
    assert (out / "result.json").is_file()


@pytest.mark.parametrize(("word", "code"), [("--version", 0), ("no-such-command", 2)])
def test_what_is_registered_for_the_end_is_done_and_heard_before_the_process_goes(
    word: str, code: int
) -> None:
    """The end is quick: what the run has made is not taken apart."""
    program = f"""
import atexit, sys
class Kept:
    def __del__(self): print("taken apart")
kept = Kept()
atexit.register(print, "the last word")
sys.argv = ["rollwright", "{word}"]
from scheduler.__main__ import run
run()
"""
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, capture_output=True, text=True, timeout=120, check=False
    )
    assert done.returncode == code
    assert done.stdout.endswith("the last word\n")
    assert (done.stderr == "") == (code == 0)


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
    sheet: Path, request: pytest.FixtureRequest
) -> None:
    place = Path(tempfile.mkdtemp())  # pytest's own folders are shut to other users
    request.addfinalizer(lambda: shutil.rmtree(place))
    place.chmod(0o755)
    open_out, shut_out = place / "open", place / "shut"
    open_out.mkdir()
    shut_out.mkdir()
    shut_out.chmod(0o555)
    open_out.chmod(0o777)
    sheet = Path(shutil.copy(sheet, place))
    sheet.chmod(0o644)
    before, user = ordinary()
    for out, code in ((open_out, ending.DONE), (shut_out, ending.CANNOT_WRITE)):
        with started(
            "quote", sheet, "--shop", DEMO / "shop", "--out", out, "--effort", "quick", "--no-ledger",
            before=before, stdout=subprocess.PIPE, env={**os.environ, "HOME": "/root"}, **user,
        ) as run:  # fmt: skip
            _, said = run.communicate()
        assert run.returncode == code, said
        assert "Traceback" not in said
