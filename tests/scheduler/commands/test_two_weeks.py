"""The walk in `demo_orders/two-weeks.md`, command by command and edit by edit."""

from __future__ import annotations

import os
import re
import shlex
import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from glob import glob
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import CliRunner

from quoting.ledger import jobs_of, ledger_of, lines_of
from scheduler.commands import main
from scheduler.replanning.replan import TIMED
from scheduler.sequence.solve import BUDGETS

ROOT = Path(__file__).resolve().parents[3]
WALK = ROOT / "demo_orders" / "two-weeks.md"
THURSDAY = datetime(2026, 12, 3, 8)


def steps() -> Iterator[tuple[str, str]]:
    """Every command of the walk, and every edit, in order."""
    fenced = False
    for line in WALK.read_text("utf-8").splitlines():
        if line.startswith("```"):
            fenced = not fenced
        elif fenced:
            yield "type", line
        elif line.startswith("- "):
            yield "edit", line[2:]


def do(edit: str) -> None:
    """Make an edit in the jobs book or the floor book written last."""
    if edit.startswith("Floor, "):
        return write_down(edit)
    book_path = max(Path().glob("plan-*/jobs-*.xlsx"), key=lambda path: path.parent.name)
    book = openpyxl.load_workbook(book_path)
    found = re.fullmatch(r"(\w+), (.+), ([^:]+): (.+)", edit)
    assert found is not None, edit
    sheet, place, heading, text = found.groups()
    column = {str(cell.value): at for at, cell in enumerate(book[sheet][4], 1)}
    for row in rows_of(book[sheet], place, column):
        book[sheet].cell(row, column[heading], value(text))
        if text in ("rolled", "on the roll"):
            book[sheet].cell(row, column["On roll"]).value = book[sheet].cell(row, column["Planned on"]).value
    book.save(book_path)


def write_down(edit: str) -> None:
    """Fill a box of the floor book written last, of every task on a roll or of one."""
    book_path = max(Path().glob("plan-*/floor-*.xlsx"), key=lambda path: path.parent.name)
    book: Any = openpyxl.load_workbook(book_path)
    _, which, heading, text = re.split(r", |: ", edit)
    rows = [
        (sheet, row)
        for sheet in book
        for row in range(5, sheet.max_row + 1)
        if sheet.cell(row, 5).value and sheet.cell(row, 1).value
    ]
    for sheet, row in {"every task": rows, "third task": rows[2:3]}[which]:
        column = next(int(cell.column) for cell in sheet[4] if cell.value == heading)
        planned = sheet.cell(row, 6 if heading.startswith("a ") else 7).value
        share = re.fullmatch(r"([\d.]+) of the plan", text)
        sheet.cell(row, column).value = (
            round(float(share[1]) * planned) if share else sheet.cell(row, 5).value
        )
    book.save(book_path)


def rows_of(sheet: Any, place: str, column: dict[str, int]) -> list[int]:
    rows = [row for row in range(5, sheet.max_row + 1) if sheet.cell(row, 1).value]
    if place == "row 1":
        return [5]
    if place.startswith("job "):
        return [row for row in rows if sheet.cell(row, 1).value == place[4:]]
    if place == "first to buy":
        return [row for row in rows if sheet.cell(row, 3).value == "to buy"][:1]
    begins, ends = ({row: sheet.cell(row, column[head]).value for row in rows} for head in ("Begins", "Ends"))
    return {
        "all that end by now": [row for row in rows if ends[row] <= THURSDAY],
        "all that run now": [row for row in rows if begins[row] < THURSDAY < ends[row]],
        "next to begin": [row for row in rows if begins[row] >= THURSDAY][:1],
    }[place]


def why_moved(folder: Path) -> list[str]:
    """Return why each job moved, as the run schedule says it."""
    (path,) = folder.glob("run-schedule-*.xlsx")
    return [str(row[6]) for row in openpyxl.load_workbook(path)["What changed"].iter_rows(values_only=True)]


def value(text: str) -> Any:
    if re.fullmatch(r"\d+", text):
        return int(text)
    if re.fullmatch(r"\d{4}-\d\d-\d\d( \d\d:\d\d)?", text):
        return datetime.fromisoformat(text)
    return text


@pytest.fixture
def short_searches(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same steps with plans that are hardly searched for: what they cost is measured elsewhere."""
    short = replace(BUDGETS["quick"], timed=200_000, each=60, a_round=200_000)
    monkeypatch.setitem(BUDGETS, "quick", short)
    monkeypatch.setitem(TIMED, "quick", 50_000)


@pytest.mark.usefixtures("short_searches")
def test_the_walk_of_two_weeks_can_be_typed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    hidden = shutil.ignore_patterns("ledger*", ".ledger*")
    shutil.copytree(ROOT / "demo_orders", tmp_path / "demo_orders", ignore=hidden)
    monkeypatch.chdir(tmp_path)
    said = []
    for kind, text in steps():
        if kind == "edit":
            do(text)
            continue
        words = [found for word in shlex.split(text) for found in (sorted(glob(word)) or [word])]
        if words[0] == "cp":
            shutil.copytree(words[2], words[3])
            continue
        quick = ["--effort", "quick"] if words[1] in ("quote", "won", "plan") else []
        done = CliRunner().invoke(main, [*words[1:], *quick], env={"ROLLWRIGHT_NO_LEDGER": ""})
        assert done.exit_code <= 1, f"{text}\n{done.output}"
        said.append(done.output)
    learnt = next(output for output in said if output.startswith("learnt"))
    assert re.search(r"set aside\s+\S+.* run: \d+ min, expected", learnt), learnt
    assert re.search(r"square: 2 -> 2\.[3-9]\d* min", learnt), learnt
    rack = next(output for output in said if "not out of the rack's file yet" in output)
    assert re.search(r"cut +[1-9]\d* plates .*, [1-9]\d* drops put in", rack), rack
    month = next(output for output in said if output.startswith("quoted"))
    assert re.search(r"lost +rolling", month), month
    assert any("Medium 10 ft is down until" in why for why in why_moved(Path("plan-2")))
    assert any("promised to jobs and were left out" in output for output in said)
    assert sum("against planning from scratch" in output for output in said) == 3
    with ledger_of(Path("shop")).reading() as connection:
        assert {line.line.partition("-")[0] for line in lines_of(connection)} == {"A", "B", "C", "D"}
        rush = next(job for job in jobs_of(connection) if job.line == "B-40")
    assert rush.must_ship == "2026-12-08"
    assert os.path.exists("tables/jobs.csv")
