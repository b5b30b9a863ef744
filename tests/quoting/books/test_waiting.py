"""Where later pieces may wait, the buyer sees by when a plate is needed and the table which ones can wait."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from quoting.books import cutting_writers
from quoting.books.costing.nests import money_words, waiting_words
from quoting.books.cutting import cut_sheets
from quoting.books.cutting.buy import purchases
from quoting.estimating import Estimate, estimate
from quoting.nesting import Waited
from quoting.record import WaitedRecord
from quoting.recording import make_record
from tests.quoting.books.package import book
from tests.quoting.lines import order, shell
from tests.quoting.shop.shop_folder import shop_with

TODAY = date(2026, 11, 30)
SIZE = "B-1,A36,0.25,60,120,trimmed,0.60,lb,6\n"
RACK = "P-1,A36,0.5,60,120,trimmed,1,0.60,lb,H1,no\n"
WAIT = {"later_pieces_may_wait = false": "later_pieces_may_wait = true"}


def run(folder: Path, *, wait: bool) -> Estimate:
    """Two shells a week that fill most of a plate each, due in December and in January."""
    shop = shop_with(folder, WAIT if wait else {}, rack=RACK, buyable=SIZE)
    lines = (
        shell("A-1", quantity=1, due=date(2026, 12, 18)),
        shell("A-2", quantity=1, due=date(2027, 1, 22)),
    )
    return estimate((order(*lines),), shop, today=TODAY, effort="quick")


def test_the_buy_list_says_by_when_each_plate_is_needed(tmp_path: Path) -> None:
    found = run(tmp_path, wait=True)
    bought = purchases(cut_sheets(found))
    assert [(one.count, one.needed_by, one.lines) for one in bought] == [
        (1, date(2026, 12, 11), ("A-1",)),
        (1, date(2027, 1, 15), ("A-2",)),
    ]


def test_without_the_setting_one_size_is_one_purchase(tmp_path: Path) -> None:
    (one,) = purchases(cut_sheets(run(tmp_path, wait=False)))
    assert (one.count, one.needed_by) == (2, date(2026, 12, 11))


def test_the_cut_list_and_the_drawing_say_which_plate_may_wait(tmp_path: Path) -> None:
    found = run(tmp_path, wait=True)
    (tmp_path / "cutting").mkdir()
    writers = cutting_writers(found, tmp_path)
    for name, write in writers.items():
        write(tmp_path / name)
    pages = book(tmp_path / "cutting-2026-11-30.xlsx")
    words = "may be cut later: week of 11 Jan 2027"
    cells = [str(cell.value) for row in pages["Cut list"].iter_rows() for cell in row]
    assert sum(words in cell for cell in cells) == 1
    drawn = [path.read_text("utf-8") for path in (tmp_path / "cutting").glob("plate-*.svg")]
    assert sorted(words in text for text in drawn) == [False, True]


def test_the_record_and_the_costing_book_say_what_waiting_costs(tmp_path: Path) -> None:
    found = run(tmp_path, wait=True)
    (group,) = found.nests
    assert group.nest.waited is not None
    assert group.nest.waited.taken
    (nested,) = make_record(found).nest
    assert [plate.cut_by for plate in nested.plates] == [date(2026, 12, 11), date(2027, 1, 15)]
    assert nested.waited == WaitedRecord(
        taken=True, together=group.nest.waited.together, apart=group.nest.cost
    )
    assert money_words(group, "USD").endswith(
        "Later pieces wait for later plates, at no more cost than all nested together."
    )
    dear = Waited(taken=False, together=Decimal(1000), apart=Decimal("1030.5"))
    words = "Later pieces do not wait for later plates: that would cost 30.50 USD more."
    assert waiting_words(dear, "USD") == words


def test_a_day_that_is_past_is_today(tmp_path: Path) -> None:
    found = run(tmp_path, wait=True)
    late = replace(found.lines[0].line, due=date(2026, 12, 1))
    again = estimate((order(late),), found.shop, today=TODAY, effort="quick")
    assert [cut.cut_by for group in again.nests for cut in group.nest.cut_plates] == [TODAY]


@pytest.mark.parametrize("days", [0, 10])
def test_the_shop_says_how_long_before_the_due_day_a_plate_is_cut(tmp_path: Path, days: int) -> None:
    shop = shop_with(
        tmp_path, {"cut_before_due_days = 7": f"cut_before_due_days = {days}"}, rack=RACK, buyable=SIZE
    )
    found = estimate((order(shell(due=date(2026, 12, 31))),), shop, today=TODAY, effort="quick")
    (day,) = {cut.cut_by for group in found.nests for cut in group.nest.cut_plates}
    assert day == date(2026, 12, 31 - days)
