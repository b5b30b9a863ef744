"""What is kept of a customer: answers hold for the same row only, parts are compared with other sheets."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from quoting.core import InputError, Order
from quoting.intake.answers import Memory, WrittenAnswer, memory_of, not_taken, resolve, with_answers
from tests.quoting.intake.sheets import HEAD, read_rows
from tests.quoting.intake.small_shop import TODAY, small_shop

BARE = ["10", "2", "48", "", "1/4", "60", "A36"]


def remembered(order: Order, **answers: str) -> Memory:
    """Return the memory after these answers (by field) to line 10 were taken."""
    done = resolve(order, {f"10/{field}": text for field, text in answers.items()}, small_shop())
    return Memory("Ridge").with_order(done, "sheet one", TODAY)


def test_a_memory_is_written_and_read_back(tmp_path: Path) -> None:
    memory = remembered(read_rows(tmp_path, BARE), basis="OD")
    assert memory_of(memory.to_text(), "ridge.json") == (memory, False)
    assert memory_of(memory.to_text().replace('"OD"', '"ID"'), "ridge.json")[1]


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"format": "x"}', "nonsense"])
def test_what_is_no_memory_is_named(text: str) -> None:
    with pytest.raises(InputError, match=r"ridge\.json: cannot be read.*move it away to start anew"):
        memory_of(text, "ridge.json")


def test_an_answer_holds_again_for_the_same_row(tmp_path: Path) -> None:
    order = read_rows(tmp_path, BARE)
    memory = remembered(order, basis="OD")
    assert with_answers(order, {}, small_shop(), memory).lines[0].shape.basis == "outside"
    other = read_rows(tmp_path, BARE, name="again.csv")
    assert memory.answers_to(other) == {"10/basis": "OD"}


@pytest.mark.parametrize("row", [["10", "3", *BARE[2:]], ["10", "2", "60", *BARE[3:]]])
def test_an_answer_does_not_hold_for_another_row(tmp_path: Path, row: list[str]) -> None:
    memory = remembered(read_rows(tmp_path, BARE), basis="OD")
    assert memory.answers_to(read_rows(tmp_path, row)) == {}


def test_one_answer_opens_the_next_and_both_are_remembered(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["10", "1", "24", "OD", "0.3", "48", "SS"])
    memory = remembered(order, material="304L", stock_thickness="1/4")
    done = with_answers(order, {}, small_shop(), memory)
    assert [(line.material, line.thickness_mm) for line in done.lines] == [("304L", 6.35)]


def test_a_written_answer_goes_before_a_remembered_one(tmp_path: Path) -> None:
    order = read_rows(tmp_path, BARE)
    memory = remembered(order, basis="OD")
    done = with_answers(order, {"10/basis": WrittenAnswer("ID")}, small_shop(), memory)
    assert done.lines[0].shape.basis == "inside"
    assert [one.answer for one in memory.with_order(done, "sheet one", TODAY).answers] == ["ID"]


def test_an_answer_given_to_another_question_is_not_taken(tmp_path: Path) -> None:
    order = read_rows(tmp_path, BARE)
    written = {
        "10/basis": WrittenAnswer("OD", 'Is the diameter of 24" inside, outside or on the centreline?')
    }
    assert with_answers(order, written, small_shop()) == order
    assert not_taken([order], written) == ("10/basis",)
    text = order.questions[0].text + "\nAssumed for now: nothing"
    assert with_answers(order, {"10/basis": WrittenAnswer("OD", text)}, small_shop()).lines


def test_parts_are_compared_with_other_sheets_and_not_with_the_same_one(tmp_path: Path) -> None:
    head = [*HEAD, "Part No", "Rev"]
    row = ["1", "2", "48", "ID", "1/4", "60", "A36", "T-1"]
    memory = Memory("Ridge").with_order(read_rows(tmp_path, [*row, "A"], head=head), "one", TODAY)
    newer = memory.with_order(read_rows(tmp_path, [*row, "B"], head=head), "two", TODAY)
    assert newer.parts_before("two")["T-1"].revision == "A"
    assert newer.parts_before("three")["T-1"].revision == "B"
    assert memory.parts_before("one") == {}


def test_the_text_is_plain_json_with_its_version(tmp_path: Path) -> None:
    data = json.loads(remembered(read_rows(tmp_path, BARE), basis="OD").to_text())
    assert (data["format"], data["version"]) == ("rollwright customer memory", 1)
    assert data["answers"][0]["question"] == "10/basis"
