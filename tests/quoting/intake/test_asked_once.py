"""What one cause asks in many rows is one question, and its answer holds for all of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Basis, Order, State
from quoting.intake.answers import resolve
from tests.quoting.intake.sheets import HEAD, question, read_rows
from tests.quoting.intake.small_shop import small_shop

REMARK = "as sample left with Maria"
HEAD_REMARKED = [*HEAD, "Remarks"]


def remarked(folder: Path, count: int, remark: str = REMARK, basis: str = "ID") -> Order:
    rows = [[str(n), "2", str(40 + n), basis, "1/4", "60", "A36", remark] for n in range(1, count + 1)]
    return read_rows(folder, *rows, head=HEAD_REMARKED)


def test_a_remark_in_many_rows_is_one_question_that_names_them(tmp_path: Path) -> None:
    order = remarked(tmp_path, 400)
    (asked,) = [one for one in order.questions if one.blocking]
    assert asked.text.startswith("Lines 1, 2, 3, 4, 5, 6, 7, and 393 more: ")
    assert REMARK in asked.text
    assert {row.state for row in order.rows[1:]} == {State.QUESTION}
    assert all(REMARK in row.reason for row in order.rows[1:])


@pytest.mark.parametrize("count", [1, 2])
def test_a_remark_in_one_or_two_rows_is_asked_in_its_place(tmp_path: Path, count: int) -> None:
    asked = [one.line for one in remarked(tmp_path, count).questions if one.blocking]
    assert asked == [str(n) for n in range(1, count + 1)]


def test_one_answer_settles_all_its_lines(tmp_path: Path) -> None:
    order = remarked(tmp_path, 5)
    (asked,) = [one for one in order.questions if one.blocking]
    done = resolve(order, {asked.id: asked.choices[0].label}, small_shop())
    assert [line.id for line in done.lines] == ["1", "2", "3", "4", "5"]
    assert all("Lines" not in text for line in done.lines for text in line.assumptions)
    refused = question(resolve(order, {asked.id: "perhaps"}, small_shop()), asked.id)
    assert refused.refused == "perhaps"


def test_a_side_that_no_heading_tells_is_asked_once_for_all_sizes(tmp_path: Path) -> None:
    order = remarked(tmp_path, 5, remark="", basis="")
    done = resolve(order, {"all/same_1_basis": "all outside"}, small_shop())
    assert {line.shape.basis for line in done.lines} == {Basis.OUTSIDE}


def test_what_an_answer_opens_in_many_lines_is_one_question_too(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Dia", "ID/OD", "Thk", "Length", "Material"]
    rows = [[str(n), "2", str(40 + n), "", "0.25", "60", "A36"] for n in range(1, 6)]
    order = read_rows(tmp_path, *rows, head=head)
    after = resolve(order, {"all/unit": "inches"}, small_shop())
    assert [one.id for one in after.questions if one.blocking] == ["all/same_1_basis"]
    assert len(resolve(after, {"all/same_1_basis": "ID"}, small_shop()).lines) == 5


def test_two_causes_are_two_questions(tmp_path: Path) -> None:
    rows = [[str(n), "2", str(40 + n), "ID", "1/4", "60", "Unobtainium", REMARK] for n in range(1, 5)]
    order = read_rows(tmp_path, *rows, head=HEAD_REMARKED)
    ids = [one.id for one in order.questions if one.blocking]
    assert ids == ["all/same_1_material", "all/same_2_reference_ok"]
    half = resolve(order, {ids[1]: "as the other cells say"}, small_shop())
    assert [one.id for one in half.questions if one.blocking] == [ids[0]]
    assert len(resolve(half, {ids[0]: "A36"}, small_shop()).lines) == 4
