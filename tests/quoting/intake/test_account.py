"""Every word of an order sheet is accounted for: used, checked, said on the line, or asked about."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Cylinder, State
from tests.benchmarks.intake_mutations import phrases, silent
from tests.benchmarks.intake_reader import counts
from tests.quoting.intake.sheets import GOOD, HEAD, question, read_rows

REMARKS = [*HEAD, "Remarks"]
EVERY = 11
"""A part of the phrases; all of them are tried by the benchmark."""


@pytest.mark.parametrize("first", range(3))
def test_a_phrase_that_changes_a_line_is_never_silent(first: int) -> None:
    assert silent(phrases()[first :: 3 * EVERY]) == []


def test_the_second_corpus_has_nothing_silent_and_nothing_missed() -> None:
    found = counts("second_corpus", rows=False)
    assert found["missed"] == 0
    assert found["silent wrong"] == 0
    assert found["bad message"] == 0
    assert found["asked needlessly"] < 0.03 * found["rows"]


@pytest.mark.parametrize("remark", ["VOID", "cancelled 11/20", "deleted", "by others"])
def test_a_dead_line_is_left_out_with_its_reason(tmp_path: Path, remark: str) -> None:
    order = read_rows(tmp_path, [*GOOD, ""], ["2", "1", *GOOD[2:], remark], head=REMARKS)
    (row,) = [row for row in order.rows if row.state is State.NO_QUOTE]
    assert (row.number, remark in row.reason) == ("2", True)


def test_customers_plate_is_asked_about_and_an_answer_takes_it(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "plate by us"], head=REMARKS)
    assert order.lines == ()
    assert "free issue" in question(order, "1/free_issue_ok").text


def test_work_nobody_prices_is_said_on_the_line(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "plus 2 holes 1 dia"], head=REMARKS)
    assert "not in the price" in " ".join(order.lines[0].assumptions)


def test_a_word_nobody_knows_is_said(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "frobnicated"], head=REMARKS)
    assert any("frobnicated" in text for text in order.lines[0].assumptions)


def test_a_number_nobody_used_is_asked_about(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "mind the 17"], head=REMARKS)
    assert "17" in question(order, "1/number_ok").text


def test_a_name_with_the_number_of_its_own_line_asks_nothing(tmp_path: Path) -> None:
    head, cells = [*HEAD, "Description"], GOOD[1:]
    order = read_rows(tmp_path, ["1105", *cells, "strake 1105"], ["1106", *cells, "strake 1150"], head=head)
    assert [line.id for line in order.lines] == ["1105"]
    assert "1150" in question(order, "1106/number_ok").text


def test_a_note_about_one_item_asks_that_line_only(tmp_path: Path) -> None:
    order = read_rows(tmp_path, GOOD, ["2", "3", *GOOD[2:]], ["item 2 plate free issue"])
    assert [line.id for line in order.lines] == ["1"]
    assert question(order, "2/free_issue_ok")


def test_quantities_for_one_tank_are_asked_about_once_where_the_tanks_are_not_counted(tmp_path: Path) -> None:
    order = read_rows(tmp_path, GOOD, ["2", "3", *GOOD[2:]], ["quantities are per tank"])
    assert order.lines == ()
    assert question(order, "all/quantity_ok").choices[0].label == "the quantities are for all"


def test_quantities_for_one_tank_are_multiplied_by_the_tanks_and_it_is_said(tmp_path: Path) -> None:
    order = read_rows(tmp_path, GOOD, ["2", "3", *GOOD[2:]], ["quantities are per tank, 3 tanks"])
    assert [line.quantity for line in order.lines] == [3 * int(GOOD[1]), 9]
    assert any("3 per unit, 3 units" in said for said in order.lines[1].assumptions)


def test_tanks_without_a_word_of_what_is_counted_are_asked_about(tmp_path: Path) -> None:
    order = read_rows(tmp_path, GOOD, ["quote for 3 tanks"])
    assert order.lines == ()
    assert "times 3" in [choice.label for choice in question(order, "all/quantity_ok").choices]


def test_a_german_list_is_read_and_asked_about_in_its_own_words(tmp_path: Path) -> None:
    head = ["Pos.", "Stück", "Benennung", "Innendurchmesser", "Blechdicke", "Mantelhöhe", "Werkstoff"]
    order = read_rows(
        tmp_path, ["1", "2", "Mantel", "1.200", "6", "1.500", "A36"],
        ["2", "1", "Mantel, Blech beigestellt", "1.200", "6", "750", "A36"], head=head,
    )  # fmt: skip
    assert isinstance(order.lines[0].shape, Cylinder)
    assert order.lines[0].shape.diameter_mm == 1200
    assert "Blech beigestellt" in question(order, "2/free_issue_ok").text


def test_a_mail_with_a_part_a_line(tmp_path: Path) -> None:
    from quoting.intake.read_orders import read_orders  # noqa: PLC0415
    from tests.quoting.intake.small_shop import TODAY, small_shop  # noqa: PLC0415

    file = tmp_path / "mail.txt"
    lines = ("Hi,", '2 - 36" OD x 1/4 x 60" long A36', '4 half rounds, 1/4 A36, 20" IR x 48" long', "thanks")
    file.write_text("\n".join(lines))
    order = read_orders(file, small_shop(), today=TODAY)
    assert [line.quantity for line in order.lines] == [2, 4]
    assert isinstance(order.lines[1].shape, Arc)
    assert order.lines[1].shape.angle_deg == 180


def test_parts_along_columns(tmp_path: Path) -> None:
    rows = [
        ["Quantity", "2", "1"], ["ID (in)", "48", "36"], ["Thk (in)", "1/4", "3/8"],
        ["Length (in)", "60", "72"], ["Material", "A36", "A36"],
    ]  # fmt: skip
    order = read_rows(tmp_path, *rows, head=["Mark", "V-1", "V-2"])
    assert [(line.number, line.quantity) for line in order.lines] == [("V-1", 2), ("V-2", 1)]
    assert len({line.id for line in order.lines}) == 2


def test_a_title_names_the_customer_and_the_number(tmp_path: Path) -> None:
    from quoting.intake.read_orders import read_orders  # noqa: PLC0415
    from tests.quoting.intake.small_shop import TODAY, small_shop  # noqa: PLC0415

    file = tmp_path / "order.csv"
    file.write_text(f"Sample Stacks - Request for quote 4471\n{','.join(HEAD)}\n{','.join(GOOD)}\n")
    order = read_orders(file, small_shop(), today=TODAY)
    assert (order.customer, order.reference) == ("Sample Stacks", "4471")


def test_a_plate_far_from_any_in_stock_is_no_substitute(tmp_path: Path) -> None:
    far = ["1", "1", "48", "ID", "2", "60", "A36"]
    assert "may we buy it" in question(read_rows(tmp_path, far), "1/stock_thickness").text


def test_whether_a_grade_that_is_in_no_rack_is_bought_is_for_the_shop_to_say(tmp_path: Path) -> None:
    from dataclasses import replace  # noqa: PLC0415

    from quoting.intake.read_orders import read_orders  # noqa: PLC0415
    from tests.quoting.intake.small_shop import TODAY, small_shop  # noqa: PLC0415

    file = tmp_path / "order.csv"
    file.write_text("\n".join((",".join(HEAD), "1,2,48,ID,1/4,60,AR400", "2,2,36,ID,3/8,60,AR400")))
    shop = small_shop()
    bare = replace(shop, stock=tuple(plate for plate in shop.stock if plate.material == "A36"))
    order = read_orders(file, bare, today=TODAY)
    assert [one.for_shop for one in order.questions if one.blocking] == [True, True]
    assert "We do not stock AR400 in 1/4" in question(order, "1/stock_thickness").text
    unknown = read_orders(file, replace(shop, stock=()), today=TODAY)
    assert len(unknown.lines) == 2  # nothing is known of the rack


def test_lines_that_a_choice_makes_impossible_are_named_beside_its_price(tmp_path: Path) -> None:
    from datetime import date  # noqa: PLC0415

    from quoting.estimating.question_worth import choice_worths  # noqa: PLC0415
    from quoting.intake.read_orders import read_orders  # noqa: PLC0415
    from quoting.shop import load_shop  # noqa: PLC0415

    file = tmp_path / "order.csv"
    file.write_text("Item,Qty,OD (in),Thk,Length\n1,1,24,1/4,48\n2,1,30,1/4,60\n3,1,12,1/2,60\n")
    shop = load_shop(Path(__file__).parents[3] / "demo_orders" / "shop")
    order = read_orders(file, shop, today=date(2026, 12, 1))
    (worths,) = choice_worths([order], shop).values()
    a36 = next(worth for worth in worths if worth.label == "A36")
    assert a36.price is not None
    assert a36.problem == "without line 3, which we could not do"


@pytest.mark.parametrize(
    "words",
    ["Hold-down ring", "Stop log sleeve", "Header box shell", "Stack section A", "Vessel TK-101 course 3"],
)
def test_a_part_by_another_name_is_no_doubt(tmp_path: Path, words: str) -> None:
    head = ["Item", "Qty", "Description", "OD (in)", "Thk (in)", "Length", "Material"]
    order = read_rows(tmp_path, ["1", "2", words, "48", "1/4", "60", "A36"], head=head)
    assert len(order.lines) == 1
