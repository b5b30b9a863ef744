"""The output folder: everything or nothing, and names that are safe everywhere."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.books.output import OutputFolder, safe_name
from quoting.errors import InputError


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
