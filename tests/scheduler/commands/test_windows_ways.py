"""What another system does otherwise, as far as it can be tried here: names, consoles, locks, `python -m`.

No Windows machine was tried. Held are: names that Windows takes, paths short enough, consoles of its code
pages, its order of removing a lock, and that the commands of the README are the same there.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.books import locked
from quoting.core import InputError, safe_name
from quoting.intake.customer_names import customer_stem
from tests.scheduler.conftest import DEMO

ROOT = DEMO.parent
_FORBIDDEN = re.compile(r'[<>:"/\\|?*\x00-\x1f]')
_DEVICES = {"CON", "PRN", "AUX", "NUL", *(f"{port}{n}" for port in ("COM", "LPT") for n in range(1, 10))}
_LONGEST_PATH = 259
"""Letters of a path that every program there opens, with its drive and folder."""


def windows_takes(name: str) -> bool:
    stem = name.partition(".")[0].upper()
    return not _FORBIDDEN.search(name) and stem not in _DEVICES and name.rstrip(" .") == name and bool(name)


@given(
    st.text(max_size=80)
    | st.sampled_from(sorted(_DEVICES))
    | st.sampled_from(["aux.", "nul .x", "a. ", "..."])
)
def test_names_made_of_what_a_customer_wrote_are_names_on_windows(text: str) -> None:
    assert windows_takes(f"quote-{safe_name(text)}.xlsx")
    assert windows_takes(safe_name(text))
    if any(sign.isalnum() for sign in text):
        assert windows_takes(f"{customer_stem(text)}.toml")


@pytest.mark.slow
def test_every_file_of_a_run_has_a_name_that_windows_takes_and_a_short_path(demo_quote: Path) -> None:
    made = [path.relative_to(demo_quote) for path in demo_quote.rglob("*")]
    assert len(made) > 50
    folder = PureWindowsPath("C:/Users/somebody/Documents/Quotes of the year 2026/Monday 30 November/out")
    for path in made:
        assert all(windows_takes(part) for part in path.parts), path
        assert len(str(folder / path)) <= _LONGEST_PATH, path
    lower = [str(path).lower() for path in made]
    assert len(set(lower)) == len(lower), "two names that differ in capitals only are one file there"


@pytest.mark.parametrize("code_page", ["cp437", "cp850", "cp1252"])
def test_a_console_of_an_old_code_page_shows_codes_and_no_traceback(tmp_path: Path, code_page: str) -> None:
    """The message names a folder whose letters the console lacks, and the sheet that is not there."""
    environment = {**os.environ, "PYTHONIOENCODING": code_page, "PYTHONUTF8": "0"}
    name = "Gr\u00f6\u00dfe \u540d\u524d.xlsx"
    command = [
        sys.executable,
        "-m",
        "scheduler",
        "quote",
        name,
        "--shop",
        str(DEMO / "shop"),
        "--out",
        str(tmp_path),
    ]
    done = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, timeout=120, check=False)
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
    told = done.stderr.decode(code_page)
    assert "there is no such file" in told
    assert "\\u540d" in told


@pytest.mark.parametrize("module", ["scheduler", "scheduler.__main__"])
def test_the_module_is_the_command(module: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", module, "--version"], cwd=ROOT, capture_output=True, timeout=120, check=False
    )
    assert (done.returncode, done.stderr) == (0, b"")


def test_a_lock_is_let_go_before_its_file_is_removed_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """An open file cannot be removed on Windows; and one that the next run holds already stays."""
    monkeypatch.setattr("quoting.books.output.folder_lock.sys.platform", "win32")
    with locked(tmp_path) as kept:
        assert kept
        with pytest.raises(InputError, match="another run is working"), locked(tmp_path):
            pass
    assert list(tmp_path.iterdir()) == []

    def held(*_: object, **__: object) -> None:
        raise PermissionError(13, "used by another process")

    with monkeypatch.context() as patch:
        patch.setattr(Path, "unlink", held)
        with locked(tmp_path):
            pass
    with locked(tmp_path) as again:
        assert again


def test_the_readmes_commands_for_windows_do_the_same() -> None:
    text = (ROOT / "README.md").read_text("utf-8")
    here, there = (re.findall(rf"^{start}.*$", text, re.M) for start in (r"python3 -m venv", r"py -m venv"))
    assert (len(here), len(there)) == (2, 2)
    for unix, windows in zip(here, there, strict=True):
        turned = windows.replace("py -m", "python3 -m", 1).replace("; ", " && ").replace("\\", "/")
        turned = turned.replace("Scripts", "bin").replace(
            "(Get-Item demo_orders/orders-*.xlsx).FullName", "demo_orders/orders-*.xlsx"
        )
        assert turned == unix
