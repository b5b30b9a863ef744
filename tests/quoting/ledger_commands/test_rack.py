"""The rack's copies: what is promised, what is cut, what is put back, over jobs won one after the other."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from quoting.ledger import change_job, jobs_of, ledger_of, promised
from quoting.shop import Shop, load_shop
from tests.quoting.ledger_commands.test_ledger_commands import quoted, typed

__all__ = ["quoted"]
WON = ("--today", "2026-12-01", "--effort", "quick")


@pytest.fixture
def shop(quoted: Path, tmp_path: Path) -> Path:
    """Two orders on one day, each nested by itself: half the lines, then the rest."""
    shutil.copytree(quoted / "shop", tmp_path / "shop")
    for out, lines in (("one", ("A-1", "A-2", "A-3")), ("two", ("A-5", "A-6", "A-8"))):
        done = typed("won", *lines, "--shop", tmp_path / "shop", "--out", tmp_path / out, *WON)
        assert done.exit_code == 0, done.output
    return tmp_path / "shop"


def changes(path: Path) -> list[tuple[Any, ...]]:
    """The rows of the sheet that says what changed: mark, what, ..., jobs."""
    sheet = openpyxl.load_workbook(path)["What changed"]
    rows = (tuple(cell.value for cell in row) for row in sheet.iter_rows(min_row=5))
    return [row for row in rows if row[0] and row[0] != "Metal"]


def area(shop: Shop) -> float:
    return sum(p.width_mm * p.length_mm * p.count for p in shop.stock if p.count is not None)


def rack_now(shop: Path, out: Path) -> Path:
    done = typed("ledger", "rack", "--shop", shop, "--out", out, "--today", "2026-12-03")
    assert done.exit_code == 0, done.output
    return out / "rack-2026-12-03.xlsx"


def test_drops_of_two_orders_of_one_day_never_bear_one_id(shop: Path, tmp_path: Path) -> None:
    ids = [
        {row[0] for row in changes(tmp_path / out / "rack-after-2026-12-01.xlsx") if row[0].startswith("D26")}
        for out in ("one", "two")
    ]
    assert all(ids)
    assert not ids[0] & ids[1]


def test_the_rack_afterwards_of_one_order_leaves_what_is_promised_to_another(
    shop: Path, tmp_path: Path
) -> None:
    taken = {}
    for out in ("one", "two"):
        rows = changes(tmp_path / out / "rack-after-2026-12-01.xlsx")
        taken[out] = {row[0]: int(row[1].split()[0]) for row in rows if "taken out" in row[1]}
    before = {p.id: p.count for p in load_shop(shop).stock if p.count is not None}
    shutil.copy(tmp_path / "two" / "rack-after-2026-12-01.xlsx", shop / "rack.xlsx")
    after = {p.id: p.count for p in load_shop(shop).stock if p.count is not None}
    for plate in set(taken["one"]) - set(taken["two"]):
        assert after[plate] == before[plate], f"{plate} is promised, not cut"


def test_what_is_cut_goes_out_its_drops_come_in_and_nothing_is_taken_twice(
    shop: Path, tmp_path: Path
) -> None:
    whole, ledger = load_shop(shop), ledger_of(shop)
    none_cut = rack_now(shop, tmp_path / "before")
    assert {row[1] for row in changes(none_cut)} <= {"promised, still in the rack", "to buy or on its way"}
    with ledger.writing("test") as connection:
        for job in jobs_of(connection):
            if job.line in ("A-1", "A-2", "A-3"):
                change_job(
                    connection, job, ledger.rack_now(load_shop(shop)), state="cut", since="2026-12-03 08:00"
                )
            if job.line in ("A-5", "A-6", "A-8"):
                change_job(connection, job, state="dropped", since="2026-12-03 08:00")
    now = rack_now(shop, tmp_path / "now")
    said = changes(now)
    out = [row for row in said if row[1] == "cut, taken out"]
    drops = [row for row in said if row[1].startswith("put in, from")]
    assert out
    assert drops
    assert any(row[1] == "given back, free again" for row in said)
    with ledger.reading() as connection:
        taken = promised(connection, ledger.rack_now(load_shop(shop)))
    assert sum(taken.values()) == len(out)
    shutil.copy(now, shop / "rack.xlsx")
    after = load_shop(shop)
    known = {plate.id: plate for plate in after.stock}
    assert all(row[0] in known for row in drops)
    lost = sum(plate.width_mm * plate.length_mm * taken[plate.id] for plate in whole.stock if plate.count)
    put = sum(known[row[0]].width_mm * known[row[0]].length_mm for row in drops)
    assert area(after) == pytest.approx(area(whole) - lost + put)
    with ledger.reading() as connection:
        assert not promised(connection, ledger.rack_now(load_shop(shop))), "the file knows what is cut"
    again = rack_now(shop, tmp_path / "again")
    assert not [row for row in changes(again) if "put in" in row[1] or "taken out" in row[1]]
