"""Machine code on disk is never older than the file of any function it calls."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from quoting.core import uncounted

CALLER = """
from quoting.core import compiled
from room.callee import step

@compiled
def twice(x):
    return step(step(x))
"""
CALLEE = """
from quoting.core import inner

@inner
def step(x):
    return x + {step}
"""


def run(folder: Path) -> str:
    return subprocess.run(
        # -B: a .pyc is told by second and size, and the test changes one digit within a second
        [sys.executable, "-B", "-c", "from room.caller import twice; print(twice(0))"],
        cwd=folder,
        env={"PYTHONPATH": f"{folder}:{Path(__file__).resolve().parents[3]}", "PATH": ""},
        capture_output=True,
        text=True,
        check=True,
    ).stdout.strip()


@pytest.mark.slow
def test_a_changed_callee_in_another_file_never_runs_stale(tmp_path: Path) -> None:
    room = tmp_path / "room"
    room.mkdir()
    (room / "__init__.py").touch()
    (room / "caller.py").write_text(CALLER)
    (room / "callee.py").write_text(CALLEE.format(step=1))
    assert run(tmp_path) == "2"
    (room / "callee.py").write_text(CALLEE.format(step=5))
    assert run(tmp_path) == "10"
    assert len(list((room / "__pycache__").glob("compiled-*"))) == 1


def test_arrays_without_their_counters_are_the_same_arrays_and_stay_their_owners() -> None:
    from numba import njit  # noqa: PLC0415 - heavy

    bare = uncounted()
    compiling: Any = njit

    def add(things: Any) -> int:
        number, (first, second) = bare(things)
        second[0] += number
        return int(first.sum() + second.sum())

    first, second = np.arange(3), np.ones((2, 2), np.int32)[0]
    held = sys.getrefcount(first), sys.getrefcount(second)
    assert compiling(add)((4, (first, second))) == 3 + 6
    assert second.tolist() == [5, 1]
    assert (sys.getrefcount(first), sys.getrefcount(second)) == held
