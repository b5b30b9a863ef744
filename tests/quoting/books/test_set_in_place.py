"""A run that is stopped while it puts its files in place: whoever comes next sees one set."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from quoting.books import OutputFolder, settled
from quoting.core import UNFINISHED, CannotWriteError

NAMES = ("quote.txt", "cutting/plate-1.svg", "cutting/plate-2.svg", "result.json")
_KILLED_AT = """
import os, signal, sys
from pathlib import Path
from quoting.books import OutputFolder

left, folder = int(sys.argv[1]), Path(sys.argv[2])
replace = os.replace

def counted(source, target):
    global left
    if Path(target).suffix in (".txt", ".svg", ".json") and ".moves" not in str(target):
        left -= 1
        if left < 0:
            os.kill(os.getpid(), signal.SIGKILL)
    replace(source, target)

os.replace = counted
names = ("quote.txt", "cutting/plate-1.svg", "cutting/plate-2.svg", "result.json")
writers = {name: (lambda path: path.write_text("new") and None) for name in names}
OutputFolder(folder, force=True).write(writers, stale=("cutting/*.svg",))
"""
_FULL = """
import resource, signal, sys
from pathlib import Path
from quoting.books import OutputFolder
from quoting.core import CannotWriteError
import xlsxwriter

def book(path):
    with xlsxwriter.Workbook(str(path)) as out:
        sheet = out.add_worksheet()
        for row in range(3000):
            sheet.write(row, 0, f"text {row * 7919}")

signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (4000, 4000))
try:
    OutputFolder(Path(sys.argv[1]), force=True).write({"a.xlsx": book, "result.json": book})
except CannotWriteError as error:
    print(error)
"""
unix = pytest.mark.skipif(os.name == "nt", reason="no kill -9 and no limits there")


def _put(path: Path, text: str) -> None:
    path.write_text(text)


def write(folder: Path, text: str, *names: str) -> None:
    OutputFolder(folder, force=True).write({name: (lambda path: _put(path, text)) for name in names})


def contents(folder: Path) -> set[str]:
    return {path.read_text() for path in folder.rglob("*") if path.is_file() and path.name != UNFINISHED}


@unix
@pytest.mark.parametrize("moves", range(5))
def test_a_run_killed_at_any_rename_leaves_one_set_for_the_next(tmp_path: Path, moves: int) -> None:
    write(tmp_path, "old", *NAMES, "cutting/plate-3.svg")
    done = subprocess.run([sys.executable, "-c", _KILLED_AT, str(moves), str(tmp_path)], check=False)
    assert done.returncode == (0 if moves == 4 else -9)
    assert (tmp_path / UNFINISHED).exists() is (moves < 4)
    settled(tmp_path)
    assert contents(tmp_path) == {"new"}
    names = {path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*") if path.is_file()}
    assert names == set(NAMES), "the drawing of a plate that is not cut any more is gone too"


@unix
def test_the_next_run_completes_the_set_before_it_looks_what_is_there(tmp_path: Path) -> None:
    write(tmp_path, "old", *NAMES)
    subprocess.run([sys.executable, "-c", _KILLED_AT, "2", str(tmp_path)], check=False)
    folder = OutputFolder(tmp_path, force=True)
    folder.write({"quote.txt": lambda path: _put(path, "newest")})
    assert (tmp_path / "result.json").read_text() == "new"
    assert folder.notes == ["the files of a run that was stopped while it put them in place are complete"]


def test_a_list_that_cannot_be_read_is_one_message_and_nothing_goes(tmp_path: Path) -> None:
    staging = tmp_path / ".staging-x"
    staging.mkdir()
    (staging / ".moves.json").write_text("half")
    (tmp_path / UNFINISHED).write_text("stopped")
    with pytest.raises(CannotWriteError, match=r"its list .* cannot be read; remove \.staging-x"):
        settled(tmp_path)
    assert staging.is_dir()


@unix
def test_a_full_disk_is_one_message_and_keeps_the_old_set(tmp_path: Path) -> None:
    write(tmp_path, "old", "a.xlsx", "result.json")
    done = subprocess.run(
        [sys.executable, "-c", _FULL, str(tmp_path)], capture_output=True, text=True, check=True
    )
    assert "cannot write (File too large); make room, or give another folder with --out" in done.stdout
    assert sorted(os.listdir(tmp_path)) == ["a.xlsx", "result.json"]
    assert contents(tmp_path) == {"old"}


@pytest.mark.parametrize("name", ["../kept.txt", "/{outside}", "cutting/../../kept.txt", "link/kept.txt"])
def test_a_list_that_leads_out_of_the_folder_is_not_followed(tmp_path: Path, name: str) -> None:
    """The folder may have been sent by somebody, with what a stopped run leaves put into it."""
    kept, out = tmp_path / "kept.txt", tmp_path / "out"
    kept.write_text("mine")
    staging = out / ".staging-sent"
    staging.mkdir(parents=True)
    (out / "link").symlink_to(tmp_path)
    (out / UNFINISHED).write_text("")
    named = name.format(outside=str(kept)[1:])
    (staging / ".moves.json").write_text(json.dumps({"move": [], "remove": [named]}))
    with pytest.raises(CannotWriteError, match="cannot be read"):
        settled(out)
    assert kept.read_text() == "mine"
