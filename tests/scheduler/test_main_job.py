"""The command as a user meets it: one order sheet in, books out, one clear message when it cannot be."""

from __future__ import annotations

import json
import os
import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scheduler.cli import main
from tests.scheduler.conftest import DEMO

SHEET = """Example Yard (invented)
Line,Qty,Description,OD in,Thickness in,Length in,Material,Ends,Need by
1,2,shell,30,0.25,48,A36,pre-bend,2026-12-18
2,1,sleeve,24,0.25,36,A36,pre-bend,2026-12-18
"""


def call(*arguments: object) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


def run(sheet: Path, out: Path, *more: object, command: str = "run") -> Result:
    options = ("--shop", DEMO / "shop", "--out", out, "--today", "2026-11-30")
    if command == "run":
        options = (*options, "--effort", "quick", "--start", "2026-12-01")
    return call(command, sheet, *options, *more)


@pytest.fixture(scope="module")
def sheet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("in") / "orders-yard.csv"
    path.write_text(SHEET)
    return path


@pytest.fixture(scope="module")
def done(sheet: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Result, Path]:
    out = tmp_path_factory.mktemp("out")
    return run(sheet, out), out


def test_the_main_job_leaves_all_books_and_says_what_it_did(done: tuple[Result, Path]) -> None:
    result, out = done
    assert result.exit_code == 0, result.output
    kinds = {name.split("-")[0] for name in os.listdir(out)}
    assert {"quote", "costing", "run", "result.json"} <= kinds
    for word in ("2 priced", "roll hours", "last finish", "late jobs"):
        assert word in result.output


def test_the_record_holds_lines_nest_and_schedule(done: tuple[Result, Path]) -> None:
    record = json.loads((done[1] / "result.json").read_text())
    assert [line["state"] for line in record["lines"]] == ["priced", "priced"]
    assert record["nest"][0]["plates"]
    assert record["schedule"]["operations"]


def test_a_rerun_gives_the_same_record(done: tuple[Result, Path], sheet: Path, tmp_path: Path) -> None:
    run(sheet, tmp_path)
    assert (tmp_path / "result.json").read_text() == (done[1] / "result.json").read_text()


def test_nothing_is_overwritten_without_force(done: tuple[Result, Path], sheet: Path) -> None:
    before = {name: (done[1] / name).read_bytes() for name in os.listdir(done[1])}
    again = run(sheet, done[1])
    assert again.exit_code == 2
    assert "would overwrite" in again.output
    assert {name: (done[1] / name).read_bytes() for name in os.listdir(done[1])} == before


def test_won_lines_of_a_record_are_scheduled(done: tuple[Result, Path], tmp_path: Path) -> None:
    record = done[1] / "result.json"
    result = call(
        "schedule", record, "--shop", DEMO / "shop", "--out", tmp_path, "--won", "A-1", "--effort", "quick"
    )
    assert result.exit_code == 0, result.output
    lines = json.loads((tmp_path / "result.json").read_text())["schedule"]["operations"]
    assert {entry["line"] for entry in lines if entry["kind"] == "roll"} == {"A-1"}


def test_an_unknown_won_line_is_named(done: tuple[Result, Path], tmp_path: Path) -> None:
    result = call(
        "schedule", done[1] / "result.json", "--shop", DEMO / "shop", "--out", tmp_path, "--won", "Z-9"
    )
    assert result.exit_code == 2
    assert "no priced line is called Z-9" in result.output


def _zip(path: Path) -> None:
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("letter.txt", "this is no workbook")


def _broken(path: Path) -> None:
    path.write_bytes(b"PK\x03\x04 this is no zip at all")


def _empty(path: Path) -> None:
    path.write_bytes(b"")


def _no_columns(path: Path) -> None:
    path.write_text("apples,pears\n1,2\n")


@pytest.mark.parametrize(
    ("make", "name"),
    [(_zip, "a.xlsx"), (_broken, "b.xlsx"), (_empty, "c.csv"), (_no_columns, "d.csv")],
)
@pytest.mark.parametrize("command", ["run", "quote"])
def test_input_that_cannot_be_used_is_one_clear_message_and_leaves_nothing(
    make: object, name: str, command: str, tmp_path: Path
) -> None:
    bad = tmp_path / name
    make(bad)  # type: ignore[operator]
    result = run(bad, tmp_path / "out", command=command)
    assert result.exit_code == 2, result.output
    assert name in result.output
    assert "Traceback" not in result.output
    assert not list((tmp_path / "out").iterdir())


def test_a_missing_file_and_a_missing_shop_are_named(sheet: Path, tmp_path: Path) -> None:
    assert "nowhere.xlsx" in run(tmp_path / "nowhere.xlsx", tmp_path / "out").output
    result = call("quote", sheet, "--shop", tmp_path / "no-shop", "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert "no-shop" in result.output


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write into any folder")
def test_a_folder_without_the_right_to_write_is_named(sheet: Path, tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        result = run(sheet, tmp_path / "out", command="quote")
    finally:
        tmp_path.chmod(0o700)
    assert result.exit_code == 2
    assert "cannot write into this folder" in result.output


def test_a_folder_that_is_a_file_is_named(sheet: Path, tmp_path: Path) -> None:
    (tmp_path / "out").write_text("in the way")
    result = run(sheet, tmp_path / "out", command="quote")
    assert result.exit_code == 2
    assert "cannot write into this folder" in result.output


def test_lines_that_wait_give_exit_code_1(tmp_path: Path) -> None:
    sheet = tmp_path / "orders.csv"
    sheet.write_text(SHEET.replace("OD in", "Dia in"))
    result = run(sheet, tmp_path / "out", command="quote")
    assert result.exit_code == 1, result.output
    assert "with questions" in result.output


def test_the_starter_shop_can_be_used_at_once(tmp_path: Path) -> None:
    assert call("init", tmp_path / "shop").exit_code == 0
    again = call("init", tmp_path / "shop")
    assert again.exit_code == 2
