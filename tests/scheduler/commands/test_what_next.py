"""`rollwright` alone says what to do next in the folder it is typed in."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from scheduler.commands import main


def test_the_next_step_follows_what_the_folder_holds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)

    def told() -> str:
        done = CliRunner().invoke(main, [])
        assert done.exit_code == 0
        return done.output.splitlines()[-1]

    assert "`rollwright init my-shop` starts one" in told()
    assert CliRunner().invoke(main, ["init", "mine"]).exit_code == 0
    assert "--shop mine --out out" in told()
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "questions-2026-11-30.xlsx").touch()  # of no run: nothing is known of its orders
    assert "--shop mine --out out" in told()
