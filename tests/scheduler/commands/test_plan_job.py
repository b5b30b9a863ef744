"""Two weeks on the demo's floor, as they are typed: quote, win, plan, edit, plan again."""

from __future__ import annotations

import re
import shutil
import sqlite3
from contextlib import closing
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import CliRunner, Result

from quoting.ledger import jobs_of, last_plan, ledger_of, lines_of, reports_of, stops_of
from quoting.ledger_commands import late_jobs
from quoting.record import PricedLineRecord, read_record
from scheduler.commands import main
from scheduler.commands.next_step import what_next

DEMO = Path(__file__).resolve().parents[3] / "demo_orders"
TIDY = DEMO / "orders-tidy-example-tank-works.xlsx"


def typed(*arguments: object) -> Result:
    """Type a command with the ledger on."""
    return CliRunner().invoke(main, [str(one) for one in arguments], env={"ROLLWRIGHT_NO_LEDGER": ""})


def planned(shop: Path, out: Path, moment: str, *more: object) -> Result:
    return typed("plan", "--from", moment, "--shop", shop, "--out", out, "--effort", "quick", *more)


@pytest.fixture(scope="module")
def monday(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a shop whose won jobs are planned from Tuesday morning on; the plan is in `one`."""
    folder = tmp_path_factory.mktemp("monday")
    shop = folder / "shop"
    shutil.copytree(DEMO / "shop", shop, ignore=shutil.ignore_patterns("ledger*"))
    usual = ("--shop", shop, "--today", "2026-11-30", "--effort", "quick")
    assert typed("quote", TIDY, "--out", folder / "quote", *usual).exit_code <= 1
    won = typed("won", "20261130-01", "--out", folder / "jobs", "--order", "PO 77", *usual)
    assert won.exit_code == 0, won.output
    done = planned(shop, folder / "one", "2026-12-01 06:00")
    assert done.exit_code == 0, done.output
    assert "nothing was published before" in done.output
    return folder


@pytest.fixture
def shop(monday: Path, tmp_path: Path) -> Path:
    shutil.copytree(monday / "shop", tmp_path / "shop")
    return tmp_path / "shop"


def book_of(folder: Path) -> tuple[Any, Path]:
    path = next(folder.glob("jobs-*.xlsx"))
    return openpyxl.load_workbook(path), path


def column(sheet: Any, heading: str) -> int:
    return next(int(cell.column) for cell in sheet[4] if cell.value == heading)


def edited(monday: Path, tmp_path: Path) -> Path:
    """The first job rolled, the second on its roll, the sixth dropped, the medium roll down on Wednesday."""
    book, _ = book_of(monday / "one")
    jobs = book["Jobs"]
    for row, state in ((5, "rolled"), (6, "on the roll"), (10, "dropped")):
        jobs.cell(row, column(jobs, "State")).value = state
        jobs.cell(row, column(jobs, "On roll")).value = jobs.cell(row, column(jobs, "Planned on")).value
    jobs.cell(6, column(jobs, "Minutes left")).value = 20
    stop = ("Medium 10 ft", datetime(2026, 12, 2, 6), None, 24)
    for place, value in enumerate(stop, 1):
        book["Machines"].cell(5, place).value = value
    path = tmp_path / "edited.xlsx"
    book.save(path)
    return path


def test_edits_are_taken_the_plan_keeps_what_it_can_and_says_what_changed(
    monday: Path, shop: Path, tmp_path: Path
) -> None:
    done = planned(shop, tmp_path / "two", "2026-12-01 14:00", "--book", edited(monday, tmp_path))
    assert done.exit_code == 0, done.output
    assert "jobs that nothing forces keep roll and day" in done.output
    assert "against planning from scratch" in done.output
    schedule = openpyxl.load_workbook(next((tmp_path / "two").glob("run-schedule-*.xlsx")))
    assert "What changed" in schedule.sheetnames
    with ledger_of(shop).reading() as connection:
        states = {job.state for job in jobs_of(connection, closed=True)}
        assert {"rolled", "on the roll", "dropped", "won"} <= states
        assert [(stop.machine, stop.end) for stop in stops_of(connection)] == [
            ("Medium 10 ft", "2026-12-03 06:00")
        ]
    again = book_of(tmp_path / "two")[0]
    assert again["Machines"].cell(5, 1).value == "Medium 10 ft", "an edit holds until it is taken out"


def test_a_book_with_a_wrong_cell_changes_nothing(monday: Path, shop: Path, tmp_path: Path) -> None:
    book, _ = book_of(monday / "one")
    book["Jobs"].cell(5, column(book["Jobs"], "Due")).value = "soon"
    path = tmp_path / "wrong.xlsx"
    book.save(path)
    with ledger_of(shop).reading() as connection:
        before = (jobs_of(connection), last_plan(connection))
    done = planned(shop, tmp_path / "two", "2026-12-01 14:00", "--book", path)
    assert done.exit_code == 2
    assert 'sheet "Jobs", row 5, column K (Due): is no date and time' in done.output
    assert not list((tmp_path / "two").glob("*.xlsx"))
    with ledger_of(shop).reading() as connection:
        assert (jobs_of(connection), last_plan(connection)) == before


def test_a_try_publishes_nothing(monday: Path, shop: Path, tmp_path: Path) -> None:
    with ledger_of(shop).reading() as connection:
        before = last_plan(connection)
    done = planned(shop, tmp_path / "two", "2026-12-01 14:00", "--book", edited(monday, tmp_path), "--try")
    assert done.exit_code == 0, done.output
    with ledger_of(shop).reading() as connection:
        assert last_plan(connection) == before
        assert {job.state for job in jobs_of(connection)} == {"won"}


def test_without_a_job_there_is_nothing_to_plan(tmp_path: Path) -> None:
    shutil.copytree(DEMO / "shop", tmp_path / "shop", ignore=shutil.ignore_patterns("ledger*"))
    done = planned(tmp_path / "shop", tmp_path / "out", "2026-12-01 06:00")
    assert "no open job" in done.output


def test_a_rush_is_only_a_question(shop: Path) -> None:
    with ledger_of(shop).reading() as connection:
        before = last_plan(connection)
        line = jobs_of(connection)[0].line
    usual = ("--from", "2026-12-01 06:00", "--shop", shop, "--effort", "quick")
    done = typed("rush", line, "--by", "2026-12-02", *usual)
    assert done.exit_code == 0, done.output
    said = dict(row.split(maxsplit=1) for row in done.output.splitlines())
    assert set(said) == {"rush", "ends", "moved", "late", "set-ups", "overtime", "premium"}
    with ledger_of(shop).reading() as connection:
        assert last_plan(connection) == before
    assert "called Z-9" in typed("rush", "Z-9", "--by", "2026-12-02", *usual).output


def test_an_order_sheet_is_rushed_before_it_is_quoted_and_the_ledger_stays_as_it_was(
    shop: Path, tmp_path: Path
) -> None:
    with ledger_of(shop).reading() as connection:
        before = (last_plan(connection), lines_of(connection), tags_taken(connection))
    sheet = tmp_path / "orders.csv"
    sheet.write_text("Line,Qty,Part,OD in,Thk in,Length in,Material,Ends\n1,1,T-1,30,0.25,48,A36,pre-bend\n")
    usual = ("--from", "2026-12-01 06:00", "--shop", shop, "--effort", "quick")
    done = typed("rush", sheet, "--by", "2026-12-04", *usual)
    assert done.exit_code == 0, done.output
    assert "nothing was changed" in done.output
    with ledger_of(shop).reading() as connection:
        assert (last_plan(connection), lines_of(connection), tags_taken(connection)) == before


def tags_taken(connection: Any) -> int:
    """How many inquiries the ledger has."""
    return int(connection.exec_driver_sql("select count(*) from inquiries").scalar())


def test_a_quote_names_the_day_that_is_promised_and_the_job_works_to_it(monday: Path) -> None:
    record = read_record(monday / "quote" / "result.json")
    promised = {line.id: line.promise for line in record.lines if isinstance(line, PricedLineRecord)}
    with ledger_of(monday / "shop").reading() as connection:
        jobs = jobs_of(connection)
    for job in jobs:
        days = promised[job.line]
        assert days is not None
        assert days.earliest <= days.safe
        assert days.order_by == date(2026, 12, 3)
        assert job.promised == job.due >= days.safe.isoformat()


def reported(monday: Path, path: Path, **boxes: object) -> Path:
    """The floor book of Tuesday's plan with the first two tasks of its first roll filled in."""
    book: Any = openpyxl.load_workbook(next((monday / "one").glob("floor-*.xlsx")))
    sheet = next(sheet for sheet in book if sheet.title != "Shear" and sheet["A6"].value)
    for row in (5, 6):
        for letter, value in boxes.items():
            place = next(int(cell.column) for cell in sheet[4] if str(cell.value).startswith(f"{letter} "))
            sheet.cell(row, place).value = sheet.cell(row, 5).value if value == "all" else value
    book.save(path)
    return path


def test_what_the_floor_writes_moves_the_jobs_and_counts_once(
    monday: Path, shop: Path, tmp_path: Path
) -> None:
    half = reported(monday, tmp_path / "half.xlsx", a="6:40-7:00")
    done = typed("floor", half, "--shop", shop)
    assert done.exit_code == 0, done.output
    assert "half.xlsx: 2 tasks taken, 0 as known" in done.output
    with ledger_of(shop).reading() as connection:
        begun = [job.line for job in jobs_of(connection) if job.state == "on the roll"]
        assert all(report.planned for report in reports_of(connection))
    assert len(begun) == 2
    whole = reported(monday, tmp_path / "whole.xlsx", a="6:40-7:00", b="1 h 5", d="all", l="as planned")
    assert typed("floor", whole, "--shop", shop).exit_code == 0
    again = typed("floor", whole, half, "--shop", shop)
    assert again.output.count("0 tasks taken, 2 as known") == 2
    with ledger_of(shop).reading() as connection:
        assert sorted(job.line for job in jobs_of(connection) if job.state == "rolled") == sorted(begun)
        reports = reports_of(connection)
    assert [(report.setup, report.run, report.remark) for report in reports] == [(20, 65, "as planned")] * 2
    wrong = reported(monday, tmp_path / "wrong.xlsx", b=-4)
    refused = typed("floor", wrong, "--shop", shop)
    assert refused.exit_code == 1
    assert "is less than no time" in refused.output
    with ledger_of(shop).reading() as connection:
        assert reports_of(connection) == reports, "nothing that was written down is lost"


def test_a_new_floor_book_shows_what_is_known(monday: Path, shop: Path, tmp_path: Path) -> None:
    typed("floor", reported(monday, tmp_path / "half.xlsx", a=17), "--shop", shop)
    assert typed("floor", "--shop", shop, "--out", tmp_path / "new").exit_code == 0
    book = openpyxl.load_workbook(next((tmp_path / "new").glob("floor-*.xlsx")))
    assert [sheet["I5"].value for sheet in book].count(17) == 1
    assert "no floor book is given" in typed("floor", "--shop", shop).output


@pytest.mark.parametrize(
    "damage",
    [
        "UPDATE jobs SET due = '9999-12-31' WHERE id = 1",
        "UPDATE jobs SET order_day = '1' WHERE id = 1",
        "UPDATE jobs SET order_day = '' WHERE id = 1",
        "UPDATE jobs SET state = 'molten' WHERE id = 1",
        "UPDATE jobs SET quantity = 0 WHERE id = 1",
        "UPDATE jobs SET not_before = 'soon' WHERE id = 1",
        "UPDATE lines SET price = 'NaN' WHERE id = 1",
        "UPDATE plates SET run_id = 1 WHERE id = 1",
        "UPDATE plates SET expected = '2026-13-45' WHERE id = 1",
        "UPDATE plates SET name = CAST(x'ff' AS TEXT) WHERE id = 1",
        "UPDATE runs SET record = 7",
        "UPDATE plans SET record = x'789c03000000000001'",
        "UPDATE plans SET record = 'text'",
        "INSERT INTO stops (kind, machine, start, end, people, reason) VALUES ('down', 'x', '', '', 0, '')",
    ],
)
def test_a_damaged_ledger_is_told_and_nothing_is_planned(shop: Path, tmp_path: Path, damage: str) -> None:
    with closing(sqlite3.connect(shop / "ledger.db")) as ledger, ledger:
        ledger.execute(damage)
    done = planned(shop, tmp_path / "two", "2026-12-01 14:00")
    assert done.exit_code == 2, done.output
    assert "damaged" in done.output
    assert not list((tmp_path / "two").glob("*"))


@pytest.mark.parametrize(
    ("sheet", "heading", "value"),
    [
        ("Jobs", "Due", datetime(9999, 12, 31)),
        ("Jobs", "Not before", datetime(1900, 1, 1)),
        ("Jobs", "Minutes left", 1e300),
        ("Jobs", "Quantity", 2.5),
        ("Machines", "Down from", datetime(9999, 12, 31, 6)),
    ],
)
def test_a_jobs_book_that_nobody_could_mean_is_told_by_its_cell(
    monday: Path, shop: Path, tmp_path: Path, sheet: str, heading: str, value: object
) -> None:
    book, _ = book_of(monday / "one")
    page = book[sheet]
    row, found = next(
        (cell.row, cell.column) for line in page.iter_rows() for cell in line if cell.value == heading
    )
    page.cell(row + 1, found).value = value
    if sheet == "Machines":
        page.cell(row + 1, 1).value = "Medium 10 ft"
    path = tmp_path / "edited.xlsx"
    book.save(path)
    done = planned(shop, tmp_path / "two", "2026-12-01 14:00", "--book", path)
    assert done.exit_code == 2, done.output
    assert f"({heading})" in done.output


def test_a_proposal_is_taken_once_and_the_owner_reads_what_was_made(
    monday: Path, shop: Path, tmp_path: Path
) -> None:
    usual = ("--shop", shop, "--today", "2026-12-14")
    assert "no minutes yet" in typed("learn", *usual, "--out", tmp_path / "none").output
    book: Any = openpyxl.load_workbook(next((monday / "one").glob("floor-*.xlsx")))
    for sheet in book:
        columns = {str(cell.value)[:2]: int(cell.column) for cell in sheet[4] if cell.value}
        for row in range(5, sheet.max_row + 1):
            if sheet.cell(row, 1).value:
                sheet.cell(row, columns["b "]).value = round(1.4 * sheet.cell(row, 7).value)
                sheet.cell(row, columns["d "]).value = sheet.cell(row, 5).value
                sheet.cell(row, columns["Da"]).value = datetime(2026, 12, 30)
    book.save(tmp_path / "floor.xlsx")
    assert typed("floor", tmp_path / "floor.xlsx", "--shop", shop).exit_code == 0
    before = (shop / "shop.toml").read_text("utf-8")
    done = typed("learn", *usual, "--out", tmp_path / "learnt", "--apply")
    assert done.exit_code == 0, done.output
    assert (shop / "shop-before-2026-12-14.toml").read_text("utf-8") == before
    assert "; learnt 2026-12-14 from " in (shop / "shop.toml").read_text("utf-8")
    assert {path.name for path in (tmp_path / "learnt").iterdir()} == {
        "learnt-2026-12-14.xlsx", "shop-proposed-2026-12-14.toml",
    }  # fmt: skip
    again = typed("learn", *usual, "--out", tmp_path / "again")
    assert "; 0 settings move" in again.output, again.output
    month = typed("month", *usual, "--month", "2026-12", "--out", tmp_path / "month")
    assert month.exit_code == 0, month.output
    page: Any = openpyxl.load_workbook(tmp_path / "month" / "month-2026-12.xlsx")
    why = [row[14] for row in page["Jobs"].iter_rows(min_row=5, values_only=True) if row[13]]
    assert why
    assert all("planned for" in reason and "rolled on 30 Dec" in reason for reason in why)


def test_the_owner_reads_that_a_job_was_late_since_its_plate_was(
    monday: Path, shop: Path, tmp_path: Path
) -> None:
    book, path = book_of(monday / "one")
    page = book["Jobs"]
    heads = {str(cell.value): int(cell.column) for line in page.iter_rows(max_row=6) for cell in line}
    head = next(cell.row for line in page.iter_rows(max_row=6) for cell in line if cell.value == "Due")
    late = str(page.cell(head + 1, 1).value)
    page.cell(head + 1, heads["Plate in on"]).value = datetime(2026, 12, 28)
    book.save(tmp_path / path.name)
    again = planned(shop, tmp_path / "two", "2026-12-02 06:00", "--book", tmp_path / path.name)
    assert again.exit_code == 0, again.output
    done: Any = openpyxl.load_workbook(next((tmp_path / "two").glob("floor-*.xlsx")))
    for sheet in done:
        columns = {str(cell.value)[:2]: int(cell.column) for cell in sheet[4] if cell.value}
        for row in range(5, sheet.max_row + 1):
            if sheet.cell(row, 1).value:
                sheet.cell(row, columns["b "]).value = round(sheet.cell(row, 7).value)
                sheet.cell(row, columns["d "]).value = sheet.cell(row, 5).value
                sheet.cell(row, columns["Da"]).value = datetime(2026, 12, 30)
    done.save(tmp_path / "floor.xlsx")
    assert typed("floor", tmp_path / "floor.xlsx", "--shop", shop).exit_code == 0
    usual = ("--shop", shop, "--today", "2026-12-31", "--month", "2026-12")
    assert typed("month", *usual, "--out", tmp_path / "month").exit_code == 0
    owner: Any = openpyxl.load_workbook(tmp_path / "month" / "month-2026-12.xlsx")
    why = {row[0]: row[14] for row in owner["Jobs"].iter_rows(min_row=5, values_only=True) if row[13]}
    since = [
        line for line, words in why.items() if "its plate came on 28 Dec, first planned to be cut" in words
    ]
    assert late in since, why
    assert len(since) < len(why)


def test_readings_feed_calibrate_and_too_few_say_how_many_more(
    monday: Path, shop: Path, tmp_path: Path
) -> None:
    assert "no reading with its girth or diameter" in typed("calibrate", "--shop", shop).output
    done = typed("floor", reported(monday, tmp_path / "read.xlsx", b=50, g=1.6, i=48), "--shop", shop)
    told = re.findall(r": \d readings?, \d counting; \d more (?:is|are) needed", done.output)
    assert told, done.output
    assert typed("calibrate", "--shop", shop).output.count("needed") == len(told)


def test_rollwright_alone_tells_which_jobs_are_late(shop: Path) -> None:
    """A job whose day is before the day that the published plan has it ready; then one whose day is past."""
    assert late_jobs(shop, date(2026, 11, 30)) == ()
    with ledger_of(shop).reading() as connection:
        jobs = [job for job in jobs_of(connection) if job.open]
        works = (last_plan(connection) or {})["works"].values()
    ready = {line: max(end for at, _, _, _, end in works if at == line)[:10] for line, *_ in works if line}
    job = max(jobs, key=lambda one: ready[one.line])
    before = date.fromisoformat(ready[job.line]) - timedelta(days=1)
    with closing(sqlite3.connect(shop / "ledger.db")) as store, store:
        store.execute("update jobs set must_ship = ? where id = ?", (before.isoformat(), job.key))
    (late,) = late_jobs(shop, date(2026, 11, 30))
    assert (late.line, late.day, late.ready) == (job.line, before, date.fromisoformat(ready[job.line]))
    told = what_next(shop.parent, date(2026, 11, 30))
    assert told.startswith(f"Late: {job.line} is wanted on {before} and planned to be ready on ")
    assert f"rollwright rush {job.line} --by {before}" in told
    later = what_next(shop.parent, date(2027, 6, 1))
    assert "not planned to be ready" in later
    assert f"and {len(jobs) - 1} more" in later
