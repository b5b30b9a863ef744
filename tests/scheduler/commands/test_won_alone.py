"""Only what was won: bought, cut, drawn and put back for itself, at the prices as quoted."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from tests.scheduler.commands.test_run_job import call, run
from tests.scheduler.conftest import DEMO

SHEET = """Example Yard (invented)
Line,Qty,Description,OD in,Thickness in,Length in,Material,Ends,Need by
1,1,sleeve,24,0.25,36,A36,pre-bend,2026-12-18
2,9,shell,48,0.25,60,A36,pre-bend,2026-12-18
3,1,shell,40,0.5,48,A36,pre-bend,2026-12-18
4,2,shell,40,0.5,48,A36,pre-bend,2026-12-18
"""


@pytest.fixture(scope="module")
def quoted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    sheet = tmp_path_factory.mktemp("in") / "orders-yard.csv"
    sheet.write_text(SHEET)
    out = tmp_path_factory.mktemp("quoted")
    assert run(sheet, out, command="quote").exit_code == 0
    return out / "result.json"


def _record(path: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return found


def _schedule(quoted: Path, out: Path, *more: object) -> str:
    result = call("schedule", quoted, "--shop", DEMO / "shop", "--out", out, "--effort", "quick", *more)
    assert result.exit_code == 0, result.output
    return result.output


def _plates(record: dict[str, Any]) -> set[tuple[str, str]]:
    return {(nest["material"], plate["id"]) for nest in record["nest"] for plate in nest["plates"]}


def test_the_won_lines_alone_are_nested_planned_and_cut(quoted: Path, tmp_path: Path) -> None:
    told = _schedule(quoted, tmp_path, "--won", "A-1", "--won", "A-3")
    before, after = _record(quoted), _record(tmp_path / "result.json")
    assert [line["id"] for line in after["lines"]] == ["A-1", "A-3"]
    pieces = {piece["id"] for nest in after["nest"] for plate in nest["plates"] for piece in plate["pieces"]}
    assert {name.split()[0][:3] for name in pieces} == {"A-1", "A-3"}
    price = {line["id"]: line["price"] for line in before["lines"]}
    assert all(line["price"] == price[line["id"]] for line in after["lines"])
    cost = {nest["thickness_mm"]: float(nest["cost"]) for nest in before["nest"]}
    assert all(float(nest["cost"]) < cost[nest["thickness_mm"]] for nest in after["nest"])
    assert "2 of 4 priced lines: A-1, A-3" in told
    cut = {one["id"].removeprefix("cut ") for one in after["schedule"]["operations"] if one["kind"] == "cut"}
    assert cut == {plate for _, plate in _plates(after)}


def test_the_books_of_the_cutting_table_say_that_they_hold_only_what_was_won(
    quoted: Path, tmp_path: Path
) -> None:
    _schedule(quoted, tmp_path, "--won", "A-1")
    for name in ("cutting-2026-11-30.xlsx", "rack-after-2026-11-30.xlsx"):
        book = openpyxl.load_workbook(tmp_path / name)
        words = " ".join(str(cell) for sheet in book for row in sheet.values for cell in row if cell)
        assert "what was won" in words
    assert list((tmp_path / "cutting").glob("plate-*.svg"))


def test_a_kind_of_plate_that_was_won_whole_stays_as_quoted(quoted: Path, tmp_path: Path) -> None:
    told = _schedule(quoted, tmp_path, "--won", "A-3", "--won", "A-4")
    before, after = _record(quoted), _record(tmp_path / "result.json")
    assert after["nest"] == [nest for nest in before["nest"] if set(nest["lines"]) == {"A-3", "A-4"}]
    assert "as quoted, what was not won left out" in told


def test_a_plate_that_has_been_cut_stays_as_it_was_cut(quoted: Path, tmp_path: Path) -> None:
    held = [
        plate["id"]
        for nest in _record(quoted)["nest"]
        for plate in nest["plates"]
        if any(piece["id"].startswith("A-3") for piece in plate["pieces"])
    ]
    wishes = tmp_path / "wishes.toml"
    wishes.write_text("".join(f'[[cut]]\nplate = "{plate}"\n' for plate in held))
    told = _schedule(quoted, tmp_path / "out", "--won", "A-3", "--wishes", wishes)
    after = _record(tmp_path / "out" / "result.json")
    assert not [one for one in after["schedule"]["operations"] if one["kind"] == "cut"]
    assert "as quoted" in told


def test_without_a_word_on_what_was_won_all_is_planned_on_the_plates_as_quoted(
    quoted: Path, tmp_path: Path
) -> None:
    _schedule(quoted, tmp_path)
    assert _record(tmp_path / "result.json")["nest"] == _record(quoted)["nest"]
    assert not (tmp_path / "cutting-2026-11-30.xlsx").exists()
