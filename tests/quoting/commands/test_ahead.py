"""Books written ahead: taken as they are, made again where they failed, and nothing of it stays behind."""

from __future__ import annotations

import os
from functools import partial
from pathlib import Path

import pytest

from quoting.books import OutputFolder
from quoting.commands import Writer, written_ahead
from quoting.core.workers import forks


def _by_process(path: Path) -> None:
    path.write_text(str(os.getpid()))


def _only_here(path: Path, own: int) -> None:
    if os.getpid() != own:
        raise ValueError
    path.write_text("here")


@pytest.mark.skipif(not forks(), reason="what is made ahead is inherited by a forked process")
def test_what_is_written_ahead_is_taken_and_what_failed_is_written_again(tmp_path: Path) -> None:
    """One book comes from another process, one that fails there from this one; no folder is left."""
    folder = OutputFolder(tmp_path / "out")
    ahead: dict[str, Writer] = {"a.txt": _by_process, "b.txt": partial(_only_here, own=os.getpid())}
    with folder.hold(), written_ahead(folder, ahead, workers=2) as taking:
        folder.write(taking({**ahead, "c.txt": _by_process}))
    texts = {path.name: path.read_text() for path in folder.directory.iterdir() if path.suffix == ".txt"}
    assert texts["a.txt"] not in (str(os.getpid()), "")
    assert (texts["b.txt"], texts["c.txt"]) == ("here", str(os.getpid()))
    assert not list(folder.directory.glob(".staging-*"))


def test_with_one_worker_nothing_is_written_ahead(tmp_path: Path) -> None:
    """The writers come back as they are."""
    folder = OutputFolder(tmp_path / "out")
    with folder.hold(), written_ahead(folder, {"a.txt": _by_process}, workers=1) as taking:
        assert taking({"a.txt": _by_process}) == {"a.txt": _by_process}
