"""The command as a user meets it: one order sheet in, books out, one clear message when it cannot be."""

from __future__ import annotations

import json
import os
import zipfile
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scheduler.commands import main
from tests.scheduler.conftest import DEMO

SHEET = """Example Yard (invented)
Line,Qty,Description,OD in,Thickness in,Length in,Material,Ends,Need by
1,2,shell,30,0.25,48,A36,pre-bend,2026-12-18
2,1,sleeve,24,0.25,36,A36,pre-bend,2026-12-18
"""


def call(*arguments: object) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


def run(sheet: Path, out: Path, *more: object, command: str = "run") -> Result:
    options: tuple[object, ...] = ("--shop", DEMO / "shop", "--out", out, "--today", "2026-11-30")
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


def _contents(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def test_the_main_job_leaves_all_books_and_says_what_it_did(done: tuple[Result, Path]) -> None:
    result, out = done
    assert result.exit_code == 0, result.output
    kinds = {name.split("-")[0] for name in os.listdir(out)}
    assert {"quote", "costing", "run", "cutting", "rack", "result.json"} <= kinds
    for word in ("2 priced", "roll hours", "last finish", "late jobs"):
        assert word in result.output


def test_the_record_holds_lines_nest_and_schedule(done: tuple[Result, Path]) -> None:
    record = json.loads((done[1] / "result.json").read_text())
    assert [line["state"] for line in record["lines"]] == ["priced", "priced"]
    assert record["nest"][0]["plates"]
    assert record["schedule"]["operations"]


@pytest.mark.parametrize("command", ["run", "quote"])
def test_the_cutting_table_gets_its_book_its_drawings_and_the_rack_afterwards(
    sheet: Path, tmp_path: Path, command: str
) -> None:
    result = run(sheet, tmp_path, command=command)
    assert result.exit_code == 0, result.output
    names = set(_contents(tmp_path))
    assert {"cutting-2026-11-30.xlsx", "rack-after-2026-11-30.xlsx"} <= names
    drawn = {name for name in names if name.startswith("cutting/")}
    plates = {name.rpartition(".")[0] for name in drawn if name.startswith("cutting/plate-01-")}
    assert {f"{stem}{ending}" for stem in plates for ending in (".svg", ".dxf")} <= drawn
    assert sum(name.startswith("cutting/blank-") for name in drawn) == 2
    assert f"cutting/ ({len(drawn)} files)" in result.output


@pytest.mark.slow
def test_drawings_of_an_earlier_run_do_not_stay(sheet: Path, tmp_path: Path) -> None:
    run(sheet, tmp_path, command="quote")
    first = set(_contents(tmp_path))
    shorter = tmp_path.parent / "orders-yard.csv"
    shorter.write_text("\n".join(SHEET.splitlines()[:3]) + "\n")
    assert run(shorter, tmp_path, "--force", command="quote").exit_code == 0
    gone = first - set(_contents(tmp_path))
    assert len([name for name in gone if name.startswith("cutting/blank-")]) == 1


def test_a_rerun_gives_the_same_record(done: tuple[Result, Path], sheet: Path, tmp_path: Path) -> None:
    run(sheet, tmp_path)
    assert (tmp_path / "result.json").read_text() == (done[1] / "result.json").read_text()


def test_nothing_is_overwritten_without_force(done: tuple[Result, Path], sheet: Path) -> None:
    before = _contents(done[1])
    again = run(sheet, done[1])
    assert again.exit_code == 2
    assert "would overwrite" in again.output
    assert _contents(done[1]) == before


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
    assert result.exit_code == 74
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


def test_wishes_and_aim_reach_the_plan(done: tuple[Result, Path], tmp_path: Path) -> None:
    record = done[1] / "result.json"
    line = json.loads(record.read_text())["lines"][0]["id"]
    wishes = tmp_path / "wishes.toml"
    wishes.write_text(f'[[pin]]\nline = "{line}"\nnot_before = "2026-12-03 09:00"\n')
    options = (
        "--shop",
        DEMO / "shop",
        "--out",
        tmp_path / "out",
        "--effort",
        "quick",
        "--start",
        "2026-12-01",
    )
    result = call("schedule", record, *options, "--wishes", wishes, "--aim", "dates-first")
    assert result.exit_code == 0, result.output
    schedule = json.loads((tmp_path / "out" / "result.json").read_text())["schedule"]
    start = next(o["start"] for o in schedule["operations"] if o["id"] == f"roll {line}")
    assert start >= "2026-12-03T09:00:00"
    assert schedule["aim"] == "dates-first"


@pytest.mark.parametrize("command", ["run", "schedule"])
def test_what_runs_now_comes_first_with_the_minutes_left(
    command: str, done: tuple[Result, Path], sheet: Path, tmp_path: Path
) -> None:
    record = done[1] / "result.json"
    line = next(line for line in json.loads(record.read_text())["lines"] if line["number"] == "2")
    roll = line["rolls"][0]["roll"]
    wishes = tmp_path / "wishes.toml"
    wishes.write_text(f'[[pin]]\nline = "{line["id"]}"\nroll = "{roll}"\nrunning = true\nminutes_left = 7\n')
    out = tmp_path / "out"
    if command == "run":
        result = run(sheet, out, "--wishes", wishes)
    else:
        options = ("--shop", DEMO / "shop", "--out", out, "--effort", "quick", "--start", "2026-12-01")
        result = call("schedule", record, *options, "--wishes", wishes)
    assert result.exit_code == 0, result.output
    operations = json.loads((out / "result.json").read_text())["schedule"]["operations"]
    first = min((o for o in operations if o["machine"] == roll), key=lambda o: o["start"])
    assert (first["line"], first["run_minutes"], first["setup_minutes"]) == (line["id"], 7, 0)
    assert (first["start"], first["setup_why"]) == ("2026-12-01T07:00:00", "running now")


def test_a_wish_about_a_line_that_is_not_there_is_one_clear_message(
    done: tuple[Result, Path], tmp_path: Path
) -> None:
    wishes = tmp_path / "wishes.toml"
    wishes.write_text('[[must_ship]]\nline = "Z-99"\ndate = 2026-12-04\n')
    options = ("--shop", DEMO / "shop", "--out", tmp_path / "out", "--effort", "quick", "--wishes", wishes)
    result = call("schedule", done[1] / "result.json", *options)
    assert result.exit_code == 2
    assert "no line to be made is called Z-99" in result.output


def test_a_wish_that_had_to_be_given_up_is_told_and_the_exit_code_is_1(
    done: tuple[Result, Path], tmp_path: Path
) -> None:
    record = done[1] / "result.json"
    line = json.loads(record.read_text())["lines"][0]["id"]
    wishes = tmp_path / "wishes.toml"
    wishes.write_text(f'[[pin]]\nline = "{line}"\nstart = "2026-12-02 03:00"\n')
    options = ("--shop", DEMO / "shop", "--out", tmp_path / "out", "--effort", "quick", "--wishes", wishes)
    result = call("schedule", record, *options, "--start", "2026-12-01")
    assert result.exit_code == 1, result.output
    assert "given up" in result.output
    assert "closed then" in result.output
