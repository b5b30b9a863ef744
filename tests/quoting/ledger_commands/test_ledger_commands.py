"""From the quote to jobs with plates of their own, as it is typed."""

from __future__ import annotations

import json
import re
import shutil
import sqlite3
from datetime import date
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner, Result

from quoting.books.costing import FIRST_ROW, INDEX
from quoting.ledger import ledger_of, lines_of, promised
from quoting.shop import load_shop
from scheduler.commands import main
from scheduler.commands.next_step import what_next

DEMO = Path(__file__).resolve().parents[3] / "demo_orders"
TIDY = DEMO / "orders-tidy-example-tank-works.xlsx"
METRIC = DEMO / "orders-metric-sample-vessels.xlsx"


def typed(*arguments: object) -> Result:
    """Type a command with the ledger on."""
    return CliRunner().invoke(main, [str(one) for one in arguments], env={"ROLLWRIGHT_NO_LEDGER": ""})


@pytest.fixture(scope="module")
def quoted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a shop whose ledger holds one customer's quote."""
    folder = tmp_path_factory.mktemp("quoted")
    shutil.copytree(DEMO / "shop", folder / "shop", ignore=shutil.ignore_patterns("ledger*"))
    done = typed(
        "quote", TIDY, "--shop", folder / "shop", "--out", folder / "out", "--today", "2026-11-30",
        "--effort", "quick",
    )  # fmt: skip
    assert done.exit_code <= 1, done.output
    return folder


@pytest.fixture
def shop(quoted: Path, tmp_path: Path) -> Path:
    shutil.copytree(quoted / "shop", tmp_path / "shop")
    return tmp_path / "shop"


def plates_used(out: Path) -> list[str]:
    record = json.loads((out / "result.json").read_text("utf-8"))
    return [plate["plate"] for group in record["nest"] for plate in group["plates"] if not plate["bought"]]


def test_a_won_quote_promises_its_plates_and_writes_the_papers_of_the_jobs(
    shop: Path, tmp_path: Path
) -> None:
    done = typed(
        "won", "20261130-01", "--shop", shop, "--out", tmp_path / "jobs", "--today", "2026-12-01",
        "--order", "PO 77", "--effort", "quick",
    )  # fmt: skip
    assert done.exit_code == 0, done.output
    names = {path.name for path in (tmp_path / "jobs").iterdir()}
    assert {"cutting-2026-12-01.xlsx", "rack-after-2026-12-01.xlsx", "cutting"} <= names
    ledger = ledger_of(shop)
    with ledger.reading() as connection:
        taken = promised(connection, ledger.rack_now(load_shop(shop)))
        assert {line.state for line in lines_of(connection)} == {"won"}
    assert taken
    again = typed(
        "quote", METRIC, TIDY, "--shop", shop, "--out", tmp_path / "next", "--today", "2026-12-07",
        "--effort", "quick",
    )  # fmt: skip
    assert again.exit_code <= 1, again.output
    assert "promised to jobs and were left out" in again.output
    record = json.loads((tmp_path / "next" / "result.json").read_text("utf-8"))
    assert {line["id"].partition("-")[0] for line in record["lines"]} == {"B", "C"}
    used = plates_used(tmp_path / "next")
    counts = {plate.id: plate.count for plate in load_shop(shop).stock if plate.count is not None}
    assert all(used.count(plate) + taken[plate] <= counts[plate] for plate in set(used))


def test_what_is_decided_already_or_not_there_is_told(shop: Path, tmp_path: Path) -> None:
    out = tmp_path / "jobs"
    assert typed("lost", "A-1", "--shop", shop, "--reason", "price").exit_code == 0
    again = typed("lost", "A-1", "--shop", shop)
    unknown = typed("won", "A-2", "A-99", "--shop", shop, "--out", out)
    late = typed("won", "A-2", "--shop", shop, "--out", out, "--today", "2027-03-01")
    assert "A-1: lost already" in again.output
    assert "no quote, customer or line called A-99" in unknown.output
    assert "validity of 20261130-01 (until" in late.output
    assert "rollwright renew" in late.output
    assert not any(out.glob("*.xlsx"))


def test_a_quote_that_ran_out_is_priced_again_with_the_differences(shop: Path, tmp_path: Path) -> None:
    book = shop / "shop.toml"
    text = book.read_text("utf-8")
    book.write_text(text.replace("operator_per_hour =", "operator_per_hour = 333.0 #", 1), "utf-8")
    done = typed(
        "renew", "20261130-01", "--shop", shop, "--out", tmp_path / "new", "--today", "2027-03-01",
        "--effort", "quick",
    )  # fmt: skip
    assert done.exit_code == 0, done.output
    assert "20261130-01 issue 2" in done.output
    assert re.search(r"valid +until 2027-\d\d-\d\d, was until 2026-12-\d\d", done.output)
    assert re.search(r"changed +[\d,.]+ -> [\d,.]+ USD for all lines", done.output)
    assert re.search(r"A-1: [\d.]+ -> [\d.]+, safe day 2026-12-\d\d -> 2027-03-\d\d", done.output)
    won = typed(
        "won", "A-1", "--shop", shop, "--out", tmp_path / "jobs", "--today", "2027-03-02", "--effort", "quick"
    )
    assert won.exit_code == 0, won.output


def test_a_quote_that_ran_out_is_told_where_somebody_looks(
    shop: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert "Run out" not in what_next(tmp_path, date(2026, 12, 1))
    told = what_next(tmp_path, date(2027, 3, 1))
    assert "Run out: 20261130-01 (until 2026-12-" in told
    assert "rollwright renew 20261130-01" in told
    assert typed("lost", "20261130-01", "--shop", shop).exit_code == 0
    assert "Run out" not in what_next(tmp_path, date(2027, 3, 1))


def costing_changed(out: Path, into: Path) -> Path:
    """The costing book with a price set by hand on its second line."""
    workbook = openpyxl.load_workbook(out / "costing-2026-11-30.xlsx")
    for name, value in {"by_hand": 999, "why_by_hand": "agreed"}.items():
        workbook["Lines"].cell(FIRST_ROW + 1, INDEX[name] + 1).value = value  # type: ignore[assignment]
    workbook.save(into / "costing.xlsx")
    return into / "costing.xlsx"


def test_a_revision_is_the_next_issue_and_the_owner_counts_it_once(
    quoted: Path, shop: Path, tmp_path: Path
) -> None:
    costing = costing_changed(quoted / "out", tmp_path)
    usual = ("--record", quoted / "out" / "result.json", "--today", "2026-12-02")
    with ledger_of(shop).reading() as connection:
        before = {line.line: line.price for line in lines_of(connection)}
    aside = typed("reprice", costing, *usual, "--shop", shop, "--no-ledger", "--out", tmp_path / "aside")
    assert aside.exit_code == 0, aside.output
    assert "the ledger has it" not in aside.output
    done = typed("reprice", costing, *usual, "--shop", shop, "--out", tmp_path / "rev")
    assert done.exit_code == 0, done.output
    assert "the ledger has it as 20261130-01 issue 2" in done.output
    with ledger_of(shop).reading() as connection:
        after = {line.line: line.price for line in lines_of(connection)}
    changed = {line for line in after if after[line] != before[line]}
    assert len(changed) == 1
    revised = json.loads((tmp_path / "rev" / "result-rev2.json").read_text("utf-8"))
    days = [line["promise"] for line in revised["lines"] if line.get("promise")]
    assert days, "the revision says what can be promised, as the quote did"
    owner = typed("owner", "--shop", shop, "--out", tmp_path / "owner")
    assert owner.exit_code == 0, owner.output
    total = sum(Decimal(price) for price in after.values())
    assert f"{total:,.2f} USD over {len(after)} lines" in owner.output
    again = typed("reprice", costing, *usual, "--shop", shop, "--out", tmp_path / "again")
    assert "the ledger has it as 20261130-01 issue 2" in again.output, "the same revision is the same issue"


def test_a_revision_of_a_won_quote_leaves_the_ledger_as_it_is(
    quoted: Path, shop: Path, tmp_path: Path
) -> None:
    assert typed("lost", "A-1", "--shop", shop).exit_code == 0
    costing = costing_changed(quoted / "out", tmp_path)
    with ledger_of(shop).reading() as connection:
        before = lines_of(connection)
    record = quoted / "out" / "result.json"
    done = typed("reprice", costing, "--record", record, "--shop", shop, "--out", tmp_path / "rev")
    assert "20261130-01 has lines that are decided" in done.output
    with ledger_of(shop).reading() as connection:
        assert lines_of(connection) == before


def test_an_earlier_result_is_taken_in_under_its_own_numbers(quoted: Path, tmp_path: Path) -> None:
    fresh = tmp_path / "shop"
    shutil.copytree(DEMO / "shop", fresh, ignore=shutil.ignore_patterns("ledger*"))
    result = quoted / "out" / "result.json"
    done = typed("ledger", "take", result, "--shop", fresh)
    assert done.output == "taken in    20261130-01\n"
    assert "are those of other sheets" in typed("ledger", "take", result, "--shop", fresh).output
    other = tmp_path / "other.json"
    other.write_text(result.read_text("utf-8").replace('"shop":"Bent', '"shop":"Not').replace(
        '"shop": "Bent', '"shop": "Not'), "utf-8")  # fmt: skip
    assert "result of another shop" in typed("ledger", "take", other, "--shop", fresh).output


def test_copies_and_tables_of_the_ledger_come_out(shop: Path, tmp_path: Path) -> None:
    assert typed("lost", "A-1", "--shop", shop).exit_code == 0
    copy = typed("ledger", "copies", "--shop", shop).output.strip()
    assert typed("ledger", "restore", copy, "--shop", shop).exit_code == 0
    with ledger_of(shop).reading() as connection:
        assert {line.state for line in lines_of(connection)} == {"open"}
    assert typed("ledger", "export", "--shop", shop, "--out", tmp_path / "tables").exit_code == 0
    assert (tmp_path / "tables" / "quotes.csv").is_file()


def test_an_order_far_above_every_quote_before_is_asked_about(shop: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "orders.csv"
    head = "Line,Qty,OD in,Thk in,Length in,Material,Ends\n"
    with sqlite3.connect(shop / "ledger.db") as ledger:
        ledger.execute("UPDATE issues SET total = '7.00'")
    sheet.write_text(f"{head}1,2,30,0.25,48,A36,pre-bend\n")
    usual = ("--shop", shop, "--today", "2026-11-30", "--effort", "quick")
    done = typed("quote", sheet, "--out", tmp_path / "one", *usual)
    assert done.exit_code == 1, done.output
    assert "over 100 times the largest quote in the ledger (7.00)" in done.output
    again = typed("quote", sheet, "--out", tmp_path / "two", *usual)
    assert again.exit_code == 0, again.output


def test_a_sheet_that_comes_again_after_it_was_won_is_quoted(shop: Path, tmp_path: Path) -> None:
    usual = ("--shop", shop, "--today", "2026-12-01", "--effort", "quick")
    assert typed("won", "20261130-01", "--out", tmp_path / "jobs", *usual).exit_code == 0
    done = typed("quote", TIDY, "--out", tmp_path / "again", *usual)
    assert done.exit_code <= 1, done.output
    assert "has lines that are decided" in done.output
