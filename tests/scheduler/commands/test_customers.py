"""The round of questions and answers on the command, and what the shop keeps of a customer."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import Result

from quoting.intake.customer_names import customer_stem
from tests.scheduler.commands.test_run_job import call
from tests.scheduler.conftest import DEMO

MESSY = DEMO / "orders-messy-placeholder-fabricators.xlsx"
NAME = "Placeholder Fabricators"
STEM, YARD = customer_stem(NAME), customer_stem("Yard")
ANSWERS = {
    "A-3/basis": "OD",
    "A-4/thickness": '1/4"',
    "A-7/material": "galvanized",
    "A-15/basis": "inside (ID)",
    "A-1-r23/duplicate": "no, only once",
    "A-17/length": "40",
    "A-17/reference_ok": "as the other cells say",
}
MORE_ANSWERS = {"A-7/stock_thickness": "1/16"}
"""What is asked once the metal of the gauge is known: the shop has no such plate."""


def quote(sheet: Path, shop: Path, out: Path, *more: object) -> Result:
    common = ("--shop", shop, "--out", out, "--today", "2026-11-30", "--effort", "quick")
    return call("quote", sheet, *common, *more)


def record_of(out: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((out / "result.json").read_text(encoding="utf-8"))
    return found


def fill_in(book: Path, answers: dict[str, str]) -> None:
    """Type answers into the answer column of a question book, as a person does."""
    opened = openpyxl.load_workbook(book)
    sheet = opened["Questions"]
    rows = list(sheet.iter_rows())
    head = next(index for index, row in enumerate(rows) if any(cell.value == "Answer" for cell in row))
    columns = {str(cell.value): number for number, cell in enumerate(rows[head])}
    for row in rows[head + 1 :]:
        answer = answers.get(str(row[columns["Question id"]].value))
        if answer is not None:
            sheet[row[columns["Answer"]].coordinate] = answer
    opened.save(book)


def texts_of(book: Path) -> str:
    sheets = openpyxl.load_workbook(book).worksheets
    return "\n".join(str(cell) for sheet in sheets for row in sheet.values for cell in row if cell)


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shop") / "shop"
    shutil.copytree(DEMO / "shop", folder, ignore=shutil.ignore_patterns("customers", "ledger*"))
    return folder


@pytest.fixture(scope="module")
def round_trip(shop: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, list[Result]]:
    """Quote the messy sheet, answer its questions, then those that the answers raise, and quote once more."""
    folder = tmp_path_factory.mktemp("round")
    results = [quote(MESSY, shop, folder / "1")]
    book = folder / "1" / "questions-2026-11-30.xlsx"
    fill_in(book, ANSWERS)
    results.append(quote(MESSY, shop, folder / "2", "--answers", book, "--customer", NAME))
    more = folder / "2" / "questions-2026-11-30.xlsx"
    fill_in(more, MORE_ANSWERS)
    results.append(quote(MESSY, shop, folder / "3", "--answers", more, "--customer", NAME))
    results.append(quote(MESSY, shop, folder / "4", "--customer", NAME))
    return folder, results


@pytest.mark.slow
def test_without_a_customer_the_map_is_offered_and_not_written(
    round_trip: tuple[Path, list[Result]], shop: Path
) -> None:
    first = round_trip[1][0]
    assert "--customer NAME would pin them in" in first.output
    assert "customers/placeholder-fabricators-invented-" in first.output.replace("\\", "/")


def test_answered_lines_are_priced_round_by_round(round_trip: tuple[Path, list[Result]]) -> None:
    folder, results = round_trip
    waiting = [
        {line["id"] for line in record_of(folder / str(number))["lines"] if line["state"] == "question"}
        for number in (1, 2, 3, 4)
    ]
    first = {"A-3", "A-4", "A-7", "A-15", "A-1-r23", "A-17"}
    assert waiting == [first, {"A-7"}, set(), set()], results[1].output
    lines = {line["id"]: line for line in record_of(folder / "3")["lines"]}
    assert {lines[id]["state"] for id in first - {"A-1-r23"}} == {"priced"}
    assert lines["A-15"]["quantity"] == 6
    assert "A-1-r23" not in lines  # typed twice, wanted once


def test_answers_stand_in_the_record_and_as_assumptions_on_the_quote(
    round_trip: tuple[Path, list[Result]],
) -> None:
    out = round_trip[0] / "2"
    record = record_of(out)
    assert {given["question"]: given["answer"] for given in record["answers"]} == ANSWERS
    lines = {line["id"]: line for line in record["lines"]}
    said = 'Is the diameter of 24" inside, outside or on the centreline? Answer: OD'
    assert said in lines["A-3"]["assumptions"]
    texts = texts_of(next(out.glob("quote-*.xlsx")))
    assert said in texts
    assert 'The length reads "to suit"; what is it? Answer: 40' in texts
    assert "Your remarks: mill finish out." in texts


def test_answers_hold_in_the_next_run_without_the_books(round_trip: tuple[Path, list[Result]]) -> None:
    folder, results = round_trip
    assert f"{len(ANSWERS)} answers taken again from" in results[2].output
    assert f"{len(ANSWERS) + 1} answers taken again from" in results[3].output
    before, after = record_of(folder / "3"), record_of(folder / "4")
    assert after["lines"] == before["lines"]
    assert sorted(map(str, after["answers"])) == sorted(map(str, before["answers"]))


def test_the_map_and_the_memory_are_in_the_shops_folder(
    round_trip: tuple[Path, list[Result]], shop: Path
) -> None:
    assert {path.name for path in (shop / "customers").iterdir()} >= {
        f"{STEM}.toml",
        f"{STEM}.json",
    }
    assert '"size dia" = "diameter"' in (shop / "customers" / f"{STEM}.toml").read_text()
    assert "columns as read are pinned in" in round_trip[1][1].output
    assert "are pinned in" not in round_trip[1][2].output


SHEET = "Line,Qty,Part,Rev,OD in,Thk in,Length in,Material,Ends\n1,2,T-1,A,30,0.25,48,A36,pre-bend\n"


@pytest.fixture
def yard(tmp_path: Path) -> tuple[Path, Path]:
    """Return a shop of one's own and a sheet that was quoted once for the customer Yard."""
    shutil.copytree(DEMO / "shop", tmp_path / "shop", ignore=shutil.ignore_patterns("customers", "ledger*"))
    sheet = tmp_path / "orders.csv"
    sheet.write_text(SHEET)
    assert quote(sheet, tmp_path / "shop", tmp_path / "1", "--customer", "Yard").exit_code == 0
    return tmp_path / "shop", sheet


def test_what_changed_since_the_last_sheet_is_asked(yard: tuple[Path, Path], tmp_path: Path) -> None:
    shop, sheet = yard
    sheet.write_text(SHEET.replace("T-1,A,30,0.25", "T-1,B,30,0.375"))
    for out in ("2", "3"):  # the same sheet read again asks the same
        result = quote(sheet, shop, tmp_path / out, "--customer", "Yard")
        assert result.exit_code == 0, result.output
        (asked,) = record_of(tmp_path / out)["questions"]
        assert asked["id"] == "A-1/revision"
        assert not asked["blocking"]
        assert asked["text"] == (
            "Part T-1 was revision A before, now B: what changed? "
            'In the sheet thickness 1/4" is now 3/8"; anything else?'
        )


def test_what_a_person_changed_in_the_map_holds_and_is_kept(yard: tuple[Path, Path], tmp_path: Path) -> None:
    shop, sheet = yard
    pinned = shop / "customers" / f"{YARD}.toml"
    text = pinned.read_text().replace('"od in" = "diameter outside in"', '"od in" = "diameter inside in"')
    pinned.write_text(text)
    sheet.write_text(SHEET.replace("Ends", "Ends,Paint").replace("pre-bend", "pre-bend,red"))
    result = quote(sheet, shop, tmp_path / "2", "--customer", "Yard")
    assert record_of(tmp_path / "2")["lines"][0]["shape"]["basis"] == "inside"
    assert f'{YARD}.toml says nothing about "paint" (carried)' in result.output.replace("\n", " ")
    assert pinned.read_text() == text


def test_what_a_person_changed_in_the_memory_is_kept_aside(yard: tuple[Path, Path], tmp_path: Path) -> None:
    shop, sheet = yard
    memory = shop / "customers" / f"{YARD}.json"
    changed = memory.read_text().replace('"revision": "A"', '"revision": "0"')
    memory.write_text(changed)
    result = quote(sheet, shop, tmp_path / "2", "--customer", "Yard")
    assert f"{YARD}.json was changed by hand; that text is kept in {YARD}-edited-1.json" in result.output
    assert (shop / "customers" / f"{YARD}-edited-1.json").read_text() == changed


def test_a_map_that_is_there_and_not_used_is_told(yard: tuple[Path, Path], tmp_path: Path) -> None:
    shop, sheet = yard
    sheet.write_text("Customer: Yard\n" + SHEET)
    assert f"{YARD}.toml was not used; --customer NAME does that" in quote(sheet, shop, tmp_path / "2").output


@pytest.mark.parametrize("name", [f"{YARD}.toml", f"{YARD}.json"])
def test_a_broken_file_of_a_customer_is_one_message(
    yard: tuple[Path, Path], tmp_path: Path, name: str
) -> None:
    shop, sheet = yard
    (shop / "customers" / name).write_text("= no =")
    result = quote(sheet, shop, tmp_path / "2", "--customer", "Yard")
    assert result.exit_code == 2
    assert name in result.output
    assert not list((tmp_path / "2").iterdir())


def test_a_name_leads_nowhere_else(tmp_path: Path) -> None:
    shutil.copytree(DEMO / "shop", tmp_path / "shop", ignore=shutil.ignore_patterns("customers", "ledger*"))
    sheet = tmp_path / "orders.csv"
    sheet.write_text(SHEET)
    quote(sheet, tmp_path / "shop", tmp_path / "1", "--customer", "../../up & away")
    assert (tmp_path / "shop" / "customers" / f"{customer_stem('../../up & away')}.json").is_file()


def test_an_answer_for_another_sheet_is_told_and_not_taken(yard: tuple[Path, Path], tmp_path: Path) -> None:
    shop, sheet = yard
    sheet.write_text(SHEET.replace("OD in", "Dia in"))
    quote(sheet, shop, tmp_path / "2")
    book = tmp_path / "2" / "questions-2026-11-30.xlsx"
    fill_in(book, {"A-1/basis": "OD"})
    sheet.write_text(SHEET.replace("OD in", "Dia in").replace(",30,", ",36,"))
    result = quote(sheet, shop, tmp_path / "3", "--answers", book)
    assert result.exit_code == 1
    assert "answers that fit no question of these sheets: A-1/basis" in result.output
