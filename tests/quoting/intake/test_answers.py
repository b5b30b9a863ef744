"""Answers turn waiting lines into lines, and each choice into the line it would give."""

from __future__ import annotations

from pathlib import Path

import pytest
import xlsxwriter

from quoting.core import Basis, Cylinder, Ends, InputError, State
from quoting.intake import read_all, read_answers
from quoting.intake.answers import WrittenAnswer, resolve
from quoting.intake.answers.take import alternatives
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.sheets import GOOD, HEAD, question, read_rows
from tests.quoting.intake.small_shop import TODAY, small_shop

BARE = ["10", "2", "48", "", "1/4", "60", "A36"]


def test_id_or_od_differs_by_two_pi_thicknesses_of_plate(tmp_path: Path) -> None:
    order = read_rows(tmp_path, BARE)
    asked = question(order, "10/basis")
    found = alternatives(order, asked, small_shop())
    by_basis = {line.shape.basis: line.shape for _, line in found}
    assert set(by_basis) == {Basis.INSIDE, Basis.OUTSIDE, Basis.MEAN}
    assert all(isinstance(shape, Cylinder) and shape.diameter_mm == 1219.2 for shape in by_basis.values())


@pytest.mark.parametrize("answer", ["OD", "outside (OD)", "o.d.", "Outside"])
def test_an_answer_makes_the_line_and_stays_with_it(tmp_path: Path, answer: str) -> None:
    order = resolve(read_rows(tmp_path, BARE), {"10/basis": answer}, small_shop())
    assert [line.id for line in order.lines] == ["10"]
    assert order.lines[0].shape.basis is Basis.OUTSIDE
    assert f"Answer: {answer}" in order.lines[0].assumptions[-1]
    assert not any(one.blocking for one in order.questions)
    assert [row.state for row in order.rows] == [State.IGNORED, State.PRICED]


def test_an_answer_that_is_not_understood_leaves_the_question_and_says_so(tmp_path: Path) -> None:
    order = resolve(read_rows(tmp_path, BARE), {"10/basis": "as usual"}, small_shop())
    assert order.lines == ()
    assert 'The answer "as usual" was not understood' in question(order, "10/basis").told


def test_several_questions_of_a_line_are_answered_one_after_the_other(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["7", "2-4", "48", "", "", "60", "SS"])
    keys = {one.id for one in order.questions if one.blocking}
    assert keys == {"7/quantity", "7/basis", "7/thickness", "7/material"}
    shop = small_shop()
    half = resolve(order, {"7/quantity": "2", "7/basis": "ID"}, shop)
    assert {one.id for one in half.questions if one.blocking} == {"7/thickness", "7/material"}
    done = resolve(half, {"7/thickness": "1/4", "7/material": "304L"}, shop)
    assert [(line.quantity, line.material, line.thickness_mm) for line in done.lines] == [(2, "304L", 6.35)]


def test_the_answer_about_the_material_settles_a_gauge(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["1", "1", "24", "OD", "10 ga", "48", "SS"])
    assert [one.id for one in order.questions if one.blocking] == ["1/material"]
    done = resolve(order, {"1/material": "316L"}, small_shop())
    assert done.lines[0].thickness_mm == pytest.approx(0.140625 * 25.4)


def test_a_new_doubt_can_come_out_of_an_answer(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["1", "1", "24", "OD", "0.3", "48", "SS"])
    assert [one.id for one in order.questions if one.blocking] == ["1/material"]
    after = resolve(order, {"1/material": "304L"}, small_shop())
    assert [one.id for one in after.questions if one.blocking] == ["1/stock_thickness"]


def test_units_and_ends_are_asked_once_for_all_lines(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD", "Thk", "Length", "Material"]
    order = read_rows(
        tmp_path, ["1", "1", "24", "2", "48", "A36"], ["2", "1", "30", "1", "40", "A36"], head=head
    )
    assert [one.id for one in order.questions] == ["all/unit"]
    metric = resolve(order, {"all/unit": "millimetres"}, small_shop(stock=False))
    assert [line.shape for line in metric.lines] == [
        Cylinder(24, Basis.OUTSIDE, 48),
        Cylinder(30, Basis.OUTSIDE, 40),
    ]
    flat = resolve(metric, {"all/ends": "leave flat"}, small_shop(stock=False))
    assert {line.ends for line in flat.lines} == {Ends.LEAVE_FLAT}
    said = "nothing is said about the ends; may we quote them as pre-bend? Answer: leave flat"
    assert all(said in line.assumptions for line in flat.lines)  # and none reads "Line 1: ..."


def test_a_sheet_without_a_material_column_asks_once(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD (in)", "Thk (in)", "Length (in)"]
    order = read_rows(tmp_path, ["1", "1", "24", "1/4", "48"], ["2", "1", "30", "10 ga", "40"], head=head)
    assert [one.id for one in order.questions if one.blocking] == ["all/material"]
    assert (
        question(order, "all/material").text == "Lines 1, 2: no material is given; which material and grade?"
    )
    assert {row.state for row in order.rows} == {State.IGNORED, State.QUESTION}
    done = resolve(order, {"all/material": "304L"}, small_shop(stock=False))
    assert [(line.material, round(line.thickness_mm / 25.4, 4)) for line in done.lines] == [
        ("304L", 0.25),
        ("304L", 0.1406),
    ]


def test_a_line_typed_twice_can_be_dropped(tmp_path: Path) -> None:
    order = read_rows(tmp_path, GOOD, ["2", *GOOD[1:]])
    done = resolve(order, {"2/duplicate": "no, only once"}, small_shop())
    assert [line.id for line in done.lines] == ["1"]
    assert done.rows[-1].reason == "typed twice"


def test_lines_of_several_files_have_their_own_letters(tmp_path: Path) -> None:
    for name in ("one.csv", "two.csv"):
        read_rows(tmp_path, BARE, name=name)
    answers = {"B-10/basis": "ID"}
    first, second = read_all(
        [tmp_path / "one.csv", tmp_path / "two.csv"], small_shop(), today=TODAY, answers=answers
    )
    assert [one.id for one in first.questions] == ["A-10/basis"]
    assert [line.id for line in second.lines] == ["B-10"]


def test_answers_are_read_from_a_question_book(tmp_path: Path) -> None:
    file = tmp_path / "questions.xlsx"
    book = xlsxwriter.Workbook(str(file))
    sheet = book.add_worksheet()
    rows = [
        ["Questions"],
        [],
        ["Id", "Question", "Answer"],
        ["A-10/basis", "inside or outside?", "OD"],
        ["A-20/quantity", "?", 4],
        ["A-30/due", "?", ""],
        ["note", "", "thanks"],
    ]
    for row, cells in enumerate(rows):
        sheet.write_row(row, 0, cells)
    book.close()
    assert read_answers(file) == {
        "A-10/basis": WrittenAnswer("OD", "inside or outside?"),
        "A-20/quantity": WrittenAnswer("4", "?"),
    }


def test_a_book_without_answers_says_what_it_needs(tmp_path: Path) -> None:
    read_rows(tmp_path, GOOD)
    with pytest.raises(InputError, match='needs a header row with "id" and "answer"'):
        read_answers(tmp_path / "order.csv")


def test_answers_can_be_given_while_reading(tmp_path: Path) -> None:
    read_rows(tmp_path, BARE)
    order = read_orders(tmp_path / "order.csv", small_shop(), today=TODAY, answers={"10/basis": "ID"})
    assert order.lines[0].shape.basis is Basis.INSIDE
    assert HEAD[2] in str(order.lines[0].readings[1].place)
