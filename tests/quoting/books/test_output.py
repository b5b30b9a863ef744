"""The output folder: everything or nothing, and names that are safe everywhere."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.books import OutputFolder
from quoting.core import InputError, safe_name


def _text(content: str):  # type: ignore[no-untyped-def]
    return lambda path: path.write_text(content) and None


def _fails(path: Path) -> None:
    path.write_text("half")
    raise ValueError("broke in the middle")


def test_all_files_appear_under_their_names(tmp_path: Path) -> None:
    made = OutputFolder(tmp_path / "out").write({"a.txt": _text("a"), "b.txt": _text("b")})
    assert [path.read_text() for path in made] == ["a", "b"]
    assert sorted(os.listdir(tmp_path / "out")) == ["a.txt", "b.txt"]


def test_a_writer_that_breaks_leaves_nothing_and_keeps_the_old(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("old")
    with pytest.raises(ValueError, match="broke"):
        OutputFolder(tmp_path, force=True).write({"a.txt": _text("new"), "b.txt": _fails})
    assert os.listdir(tmp_path) == ["a.txt"]
    assert (tmp_path / "a.txt").read_text() == "old"


def test_an_existing_file_is_kept_without_force_and_replaced_with_it(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("old")
    with pytest.raises(InputError, match=r"would overwrite a\.txt.*--force"):
        OutputFolder(tmp_path).write({"a.txt": _text("new")})
    assert (tmp_path / "a.txt").read_text() == "old"
    OutputFolder(tmp_path, force=True).write({"a.txt": _text("new")})
    assert (tmp_path / "a.txt").read_text() == "new"


def test_a_folder_that_is_a_file_is_one_clear_message(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("I am a file")
    with pytest.raises(InputError, match=r"cannot write into this folder.*--out"):
        OutputFolder(tmp_path / "out").prepare()


_KILLED = """
import os, signal, sys, time
from pathlib import Path
from quoting.books.output.folder import OutputFolder

def first(path):
    path.write_text("new")

def second(path):
    path.write_text("ha")
    print("writing", flush=True)
    os.kill(os.getpid(), signal.SIGKILL)

OutputFolder(Path(sys.argv[1]), force=True).write({"a.txt": first, "b.txt": second})
"""
_HOLDS = """
import sys
from pathlib import Path
from quoting.books.output.folder import OutputFolder

with OutputFolder(Path(sys.argv[1])).hold():
    print("held", flush=True)
    sys.stdin.readline()
"""


@pytest.mark.skipif(os.name == "nt", reason="no kill -9 there")
def test_a_killed_run_leaves_the_old_files_and_the_next_one_clears_up(tmp_path: Path) -> None:
    (tmp_path / "a.txt").write_text("old")
    done = subprocess.run([sys.executable, "-c", _KILLED, str(tmp_path)], capture_output=True, check=False)
    assert done.returncode == -9, done.stderr
    assert (tmp_path / "a.txt").read_text() == "old"
    assert not (tmp_path / "b.txt").exists()
    assert [name for name in os.listdir(tmp_path) if name.startswith(".staging-")]
    OutputFolder(tmp_path, force=True).write({"a.txt": _text("new")})
    assert os.listdir(tmp_path) == ["a.txt"]
    assert (tmp_path / "a.txt").read_text() == "new"


def test_two_runs_into_one_folder_do_not_mix(tmp_path: Path) -> None:
    command = [sys.executable, "-c", _HOLDS, str(tmp_path)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "held\n"
        with pytest.raises(InputError, match=r"another run is working in this folder; wait .*--out"):
            OutputFolder(tmp_path).write({"a.txt": _text("a")})
        assert not (tmp_path / "a.txt").exists()
        other.kill()
    OutputFolder(tmp_path).write({"a.txt": _text("a")})
    assert os.listdir(tmp_path) == ["a.txt"]


def test_the_staging_folder_of_a_run_at_work_is_not_cleared(tmp_path: Path) -> None:
    with OutputFolder(tmp_path).staged() as staging:
        (staging / "a.txt").write_text("a")
        with pytest.raises(InputError, match="another run"), OutputFolder(tmp_path).hold():
            pass
    assert os.listdir(tmp_path) == ["a.txt"]


def _open_elsewhere(monkeypatch: pytest.MonkeyPatch, *names: str) -> None:
    """Refuse to replace these files, as one system does while a program has them open."""
    replace = os.replace

    def refuse(source: Path, target: Path) -> None:
        if Path(target).name in names:
            raise PermissionError(13, "used by another process")
        replace(source, target)

    monkeypatch.setattr(os, "replace", refuse)


def test_a_book_held_open_gives_a_second_name_and_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "a.xlsx").write_text("old")
    (tmp_path / "a-2.xlsx").write_text("of another day")
    _open_elsewhere(monkeypatch, "a.xlsx")
    folder = OutputFolder(tmp_path, force=True)
    made = folder.write({"a.xlsx": _text("new"), "b.xlsx": _text("b")})
    assert [path.name for path in made] == ["a-3.xlsx", "b.xlsx"]
    assert [path.read_text() for path in made] == ["new", "b"]
    assert (tmp_path / "a.xlsx").read_text() == "old"
    assert folder.notes == [
        "a.xlsx is held open by another program and stays as it was; "
        "the new one is a-3.xlsx: close the old one and delete it"
    ]


def test_a_folder_where_no_second_name_works_is_one_message(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _open_elsewhere(monkeypatch, "a.txt", *(f"a-{number}.txt" for number in range(2, 100)))
    with pytest.raises(InputError, match=r"a\.txt cannot be replaced.*close it and run again"):
        OutputFolder(tmp_path).write({"a.txt": _text("new")})
    assert not os.listdir(tmp_path)


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
def test_a_link_in_the_folder_is_replaced_and_never_followed(tmp_path: Path) -> None:
    outside, out = tmp_path / "precious.txt", tmp_path / "out"
    outside.write_text("precious")
    out.mkdir()
    (out / "a.txt").symlink_to(outside)
    (out / "b.txt").symlink_to(tmp_path / "nowhere")
    (out / ".staging-link").symlink_to(tmp_path)
    with pytest.raises(InputError, match=r"would overwrite a\.txt, b\.txt"):
        OutputFolder(out).write({"a.txt": _text("new"), "b.txt": _text("new")})
    OutputFolder(out, force=True).write({"a.txt": _text("new"), "b.txt": _text("new")})
    assert outside.read_text() == "precious"
    assert not (tmp_path / "nowhere").exists()
    assert (out / "a.txt").read_text() == "new"
    assert not (out / "a.txt").is_symlink()


@pytest.mark.skipif(os.name == "nt", reason="links need a right there")
def test_a_link_in_place_of_the_lock_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / ".rollwright.lock").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(InputError, match=r"cannot open the lock file .*; remove it"):
        OutputFolder(tmp_path).write({"a.txt": _text("new")})
    assert not (tmp_path / "elsewhere").exists()


def test_a_folder_in_place_of_a_file_is_named(tmp_path: Path) -> None:
    (tmp_path / "a.txt").mkdir()
    with pytest.raises(InputError, match=r"a\.txt is a folder"):
        OutputFolder(tmp_path, force=True).write({"a.txt": _text("new")})


def test_names_may_lead_into_a_sub_folder(tmp_path: Path) -> None:
    made = OutputFolder(tmp_path).write({"a.txt": _text("a"), "sub/b.txt": _text("b"), "z.txt": _text("z")})
    assert [path.relative_to(tmp_path).as_posix() for path in made] == ["a.txt", "sub/b.txt", "z.txt"]
    assert (tmp_path / "sub" / "b.txt").read_text() == "b"
    assert sorted(os.listdir(tmp_path)) == ["a.txt", "sub", "z.txt"]


def test_a_writer_that_breaks_leaves_no_sub_folder_and_keeps_an_old_one(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="broke"):
        OutputFolder(tmp_path).write({"sub/a.txt": _text("a"), "b.txt": _fails})
    assert os.listdir(tmp_path) == []
    OutputFolder(tmp_path).write({"sub/a.txt": _text("old"), "sub/c.txt": _text("old")})
    with pytest.raises(ValueError, match="broke"):
        OutputFolder(tmp_path, force=True).write(
            {"sub/a.txt": _text("new"), "b.txt": _fails}, stale=("sub/*.txt",)
        )
    assert [path.read_text() for path in sorted((tmp_path / "sub").iterdir())] == ["old", "old"]


def test_files_of_an_earlier_run_go_and_what_the_user_keeps_beside_them_stays(tmp_path: Path) -> None:
    OutputFolder(tmp_path).write({"sub/plate-1.svg": _text("old"), "sub/plate-2.svg": _text("old")})
    (tmp_path / "sub" / "notes.txt").write_text("mine")
    new = {"sub/plate-1.svg": _text("new"), "z.txt": _text("z")}
    with pytest.raises(InputError, match=r"would overwrite sub/ \(2 files\).*--force"):
        OutputFolder(tmp_path).write(new, stale=("sub/plate-*.svg",))
    assert (tmp_path / "sub" / "plate-2.svg").read_text() == "old"
    OutputFolder(tmp_path, force=True).write(new, stale=("sub/plate-*.svg",))
    assert sorted(os.listdir(tmp_path / "sub")) == ["notes.txt", "plate-1.svg"]
    assert (tmp_path / "sub" / "plate-1.svg").read_text() == "new"


@pytest.mark.parametrize("kind", ["file", "link"])
def test_a_sub_folder_that_is_none_is_one_clear_message_and_nothing_moves(tmp_path: Path, kind: str) -> None:
    out, elsewhere = tmp_path / "out", tmp_path / "elsewhere"
    out.mkdir()
    elsewhere.mkdir()
    if kind == "file":
        (out / "sub").write_text("I am a file")
    else:
        (out / "sub").symlink_to(elsewhere, target_is_directory=True)
    with pytest.raises(InputError, match=r"sub stands where a folder should go, and is none; move it away"):
        OutputFolder(out, force=True).write({"a.txt": _text("a"), "sub/b.txt": _text("b")})
    assert os.listdir(out) == ["sub"]
    assert os.listdir(elsewhere) == []


HOSTILE = ["../../etc", "CON", "", "...", "a/b\\c", "名前", "x" * 300, "=cmd|' /C calc'!A0"]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_names_become_safe_ones(text: str) -> None:
    name = safe_name(text)
    assert name
    assert not set(name) & set('/\\:*?"<>|=.')
    assert len(name) <= 60
    assert name.lower() not in {"con", "nul", "aux", "prn"}


@given(st.text())
def test_any_text_makes_a_safe_name(text: str) -> None:
    assert safe_name(text).replace("-", "").isalnum()


def test_long_books_are_begun_first_and_drawings_are_written_together(tmp_path: Path) -> None:
    """The paths come back in the order given, whatever was written first."""
    begun: list[str] = []
    names = ["a.xlsx", "b.dxf", "costing.xlsx", "c.dxf", "labels.pdf", "result.json"]
    heard: list[tuple[int, int]] = []

    def write(path: Path) -> None:
        begun.append(path.name)
        path.touch()

    made = OutputFolder(tmp_path).write(
        dict.fromkeys(names, write),
        long=["labels.pdf", "costing.xlsx"],
        done=lambda number, of: heard.append((number, of)),
    )
    assert begun == ["labels.pdf", "costing.xlsx", "b.dxf", "c.dxf", "a.xlsx", "result.json"]
    assert [path.name for path in made] == names
    assert heard == [(1, 6), (2, 6), (4, 6), (5, 6), (6, 6)]
