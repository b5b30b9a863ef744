"""A costing book that comes back: its changes are read, and what is wrong is one message with the cell."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from openpyxl.workbook import Workbook

from quoting.books import ReturnedCosting, write_costing
from quoting.books.costing import FIRST_ROW, INDEX
from quoting.core import InputError, column_letters
from quoting.estimating import Estimate, estimate, revise
from quoting.recording import result_id
from tests.office import recalculated
from tests.quoting.books import factories, returned
from tests.quoting.books.package import book, texts
from tests.quoting.books.returned import Change, cell, setting

LINE = 0


def _changes(found: Estimate) -> list[tuple[str, str]]:
    assert found.revision is not None
    return [(change.line, change.what) for change in found.revision.changes]


@pytest.mark.slow
def test_an_untouched_book_changes_nothing(tmp_path: Path) -> None:
    after = returned.revised(returned.write(tmp_path / "c.xlsx"))
    assert _changes(after) == []
    assert [line.price for line in after.lines] == [line.price for line in returned.run().lines]


def test_every_kind_of_change_is_read_back(tmp_path: Path) -> None:
    path = returned.write(
        tmp_path / "c.xlsx",
        cell(0, "by_hand", 840.5),
        cell(0, "why_by_hand", "agreed on the phone"),
        cell(1, "drop", "x"),
        cell(2, "margin", 0.41),
        cell(3, "setup_minutes", 12),
        cell(3, "crew", 3),
        setting("operator_hour", 51.25),
        setting("drop_owner", "customer"),
        setting("plate_change", 0.08),
    )
    after = returned.revised(path)
    assert [line.line.id for line in after.lines if line.price] == ["t-10", "t-30", "t-50"]
    assert after.shop.rates.operator_hour == Decimal("51.25")
    assert after.shop.pricing.drop_owner == "customer"
    lines = {line.line.id: line for line in after.lines}
    before = {line.line.id: line for line in returned.run().lines}
    price, drivers, old = lines["t-10"].price, lines["t-50"].drivers, before["t-50"].drivers
    assert price is not None
    assert drivers is not None
    assert old is not None
    assert price.unit == Decimal("840.5")
    assert lines["t-30"].override is not None
    assert lines["t-30"].override.margin == Decimal("0.41")
    assert (drivers.setup_minutes, drivers.crew) == (12.0, 3)
    assert drivers.plate_cost == old.plate_cost * Decimal("1.08")
    assert ("t-20", "line") in _changes(after)


@pytest.mark.slow
def test_a_book_saved_by_a_spreadsheet_program_gives_the_same_revision(tmp_path: Path) -> None:
    """What the program shows after the changes is what the revision asks for, totals included."""
    path = returned.write(
        tmp_path / "c.xlsx",
        cell(0, "by_hand", 640.5),
        cell(0, "why_by_hand", "agreed"),
        cell(1, "drop", "x"),
        cell(2, "margin", 0.41),
        cell(3, "rolling_minutes", 333.5),
        setting("overhead_share", 0.21),
        setting("plate_change", 0.08),
    )
    saved = recalculated([path], tmp_path / "saved")[0]
    after = returned.revised(saved)
    assert after == returned.revised(path)
    shown = book(saved, values=True)["Orders"]
    assert Decimal(str(shown["J5"].value)) == after.orders[0].total.total
    assert shown["C5"].value == 4


def _typed_over(workbook: Workbook) -> None:
    workbook["Lines"].cell(FIRST_ROW + 1, INDEX["unit"] + 1).value = 1.0


def _no_lines(workbook: Workbook) -> None:
    del workbook["Lines"]


def _row_gone(workbook: Workbook) -> None:
    workbook["Lines"].delete_rows(FIRST_ROW + 1)


def _bad_minutes_with_what_follows(workbook: Workbook) -> None:
    """A word in a cell of minutes, as a program saves it: all that hangs on it is an error too."""
    sheet = workbook["Lines"]
    sheet.cell(FIRST_ROW + 1, INDEX["setup_minutes"] + 1).value = "half an hour"
    sheet.cell(FIRST_ROW + 1, INDEX["extended"] + 1).value = "#VALUE!"


def _row_added(workbook: Workbook) -> None:
    sheet = workbook["Lines"]
    row = sheet.max_row + 2
    sheet.cell(row, 3).value = "extra crating"
    sheet.cell(row, INDEX["extended"] + 1).value = 250.0


def _row_added_as(value: str) -> Change:
    def change(workbook: Workbook) -> None:
        _row_added(workbook)
        workbook["Lines"].cell(workbook["Lines"].max_row, INDEX["extended"] + 1).value = value

    return change


def _setting_added(workbook: Workbook) -> None:
    sheet = workbook["Settings"]
    row = sheet.max_row + 1
    sheet.cell(row, 1).value = "crating"
    sheet.cell(row, 2).value = 300.0


def _order_added(workbook: Workbook) -> None:
    sheet = workbook["Orders"]
    sheet.cell(sheet.max_row + 1, 1).value = "One more customer"
    sheet.cell(sheet.max_row, 8).value = 990.0


def _at(name: str) -> str:
    return f'c.xlsx, sheet "Lines", row {FIRST_ROW + 1}, column {column_letters(INDEX[name])}'


WRONG: tuple[tuple[str, Change, str], ...] = (
    ("text in a number cell", cell(LINE, "setup_minutes", "half an hour"), _at("setup_minutes")),
    ("broken formula", cell(LINE, "rolling_minutes", "=1/0"), _at("rolling_minutes")),
    ("error value", cell(LINE, "crane_minutes", "#REF!"), _at("crane_minutes")),
    ("deleted sheet", _no_lines, 'c.xlsx: the sheet "Lines" is missing'),
    ("margin of 100 %", cell(LINE, "margin", 1), _at("margin")),
    ("margin of a setting of 120 %", setting("margin", 1.2), 'c.xlsx, sheet "Settings", row '),
    ("negative price", cell(LINE, "by_hand", -5), _at("by_hand")),
    ("negative rate", setting("helper_hour", -1), 'c.xlsx, sheet "Settings", row '),
    ("unknown line id", cell(LINE, "id", "t-999"), _at("id")),
    ("a line twice", cell(1, "id", "t-10"), 'c.xlsx, sheet "Lines", row 9'),
    ("row deleted", _row_gone, "the line t-10 has no row any more"),
    ("formula typed over", _typed_over, _at("unit")),
    ("quantity changed", cell(LINE, "quantity", 9), _at("quantity")),
    ("half a person", cell(LINE, "crew", 1.5), _at("crew")),
    ("certificate of 2", cell(LINE, "certified", 2), _at("certified")),
    ("drop of nobody", setting("drop_owner", "nobody"), 'c.xlsx, sheet "Settings", row '),
    ("rounding to nothing", setting("rounding", 0), 'c.xlsx, sheet "Settings", row '),
    ("a million million people", cell(LINE, "crew", 1e12), _at("crew")),
    ("a million million minutes", cell(LINE, "rolling_minutes", 1e12), _at("rolling_minutes")),
    ("an amount beyond reckoning", cell(LINE, "setup_minutes", 1e308), _at("setup_minutes")),
    ("rounding to a million", setting("rounding", 1e6), "must be at most 10,000"),
    ("rounding beyond reckoning", setting("rounding", 1e308), "must be at most 10,000"),
    ("a drop dearer than its plate", cell(LINE, "drop_credit", 1e6), _at("drop_credit")),
    ("a price of words", cell(LINE, "extended", "dear"), _at("extended")),
    ("a slip and the errors it makes", _bad_minutes_with_what_follows, _at("setup_minutes")),
    ("a row with money put in", _row_added, "is an amount in a row that is no line of this run"),
    ("a row with a formula put in", _row_added_as("=2*250"), "holds a formula without its value"),
    ("a row with money in words put in", _row_added_as("500 USD"), "it would be left out of every price"),
    ("a row with a price put in as text", _row_added_as("$ 1,250.00"), "it would be left out of every price"),
    ("a setting put in", _setting_added, 'c.xlsx, sheet "Settings", row '),
    ("an order with money put in", _order_added, 'c.xlsx, sheet "Orders", row '),
    ("another result", setting("result_id", "ffffffffffff"), "belongs to another result"),
)


@pytest.mark.parametrize(("change", "said"), [wrong[1:] for wrong in WRONG], ids=[w[0] for w in WRONG])
def test_what_is_wrong_is_one_message_with_the_cell(change: Change, said: str, tmp_path: Path) -> None:
    path = returned.write(tmp_path / "c.xlsx", change)
    with pytest.raises(InputError) as found:
        returned.revised(path)
    assert said in str(found.value)
    assert "\n" not in str(found.value)


@pytest.mark.slow
def test_under_the_floor_needs_a_reason_and_a_name(tmp_path: Path) -> None:
    cheap = cell(LINE, "by_hand", 300)
    with pytest.raises(InputError, match=r"under its floor .* no reason is written") as found:
        returned.revised(returned.write(tmp_path / "c.xlsx", cheap))
    assert _at("why_by_hand") in str(found.value)
    why = cell(LINE, "why_by_hand", "fills the roll")
    with pytest.raises(InputError, match="nobody has put a name to it"):
        returned.revised(returned.write(tmp_path / "c.xlsx", cheap, why))
    who = setting("allowed_by", "J. Owner")
    after = returned.revised(returned.write(tmp_path / "c.xlsx", cheap, why, who))
    assert after.lines[0].price is not None
    assert after.lines[0].price.under_floor
    assert after.lines[0].override is not None
    assert after.lines[0].override.by == "J. Owner"


def test_a_line_that_was_under_the_floor_as_computed_needs_no_new_reason(tmp_path: Path) -> None:
    floor = setting("floor_margin", 0.9)
    with pytest.raises(InputError, match="under its floor"):
        returned.revised(returned.write(tmp_path / "c.xlsx", floor))
    strict = replace(returned.run().shop.pricing, floor_margin=Decimal("0.9"))
    shop = replace(returned.run().shop, pricing=strict)
    orders = (replace(factories.tidy(), lines=factories.tidy().lines[:2]),)
    under = estimate(orders, shop, today=factories.TODAY, effort="quick")
    assert all(line.price and line.price.under_floor for line in under.lines)
    write_costing(under, tmp_path / "u.xlsx")
    back = ReturnedCosting(tmp_path / "u.xlsx", under, result_id(under))
    back.check(revise(under, back.edits(), replaces="x", today=factories.TODAY))


def test_a_file_that_is_no_book_is_one_message(tmp_path: Path) -> None:
    (tmp_path / "c.xlsx").write_text("no workbook")
    with pytest.raises(InputError, match="cannot be read as a workbook"):
        returned.revised(tmp_path / "c.xlsx")


def test_a_revised_book_is_written_and_read_again(tmp_path: Path) -> None:
    """The margin and the price by hand of a revision stand in its book as decided, not as computed."""
    first = returned.write(
        tmp_path / "c.xlsx",
        cell(0, "by_hand", 640.5),
        cell(0, "why_by_hand", "agreed"),
        cell(1, "margin", 0.44),
    )
    write_costing(returned.revised(first), tmp_path / "c2.xlsx")
    again = book(tmp_path / "c2.xlsx")
    row = FIRST_ROW + 1
    assert again["Lines"].cell(row, INDEX["by_hand"] + 1).value == 640.5
    assert again["Lines"].cell(row, INDEX["why_by_hand"] + 1).value == "agreed"
    assert again["Lines"].cell(row + 1, INDEX["margin"] + 1).value == 0.44
    assert "640.50 by hand" in texts(again, "Changes")
