"""Every sheet of the corpus is read as a person reads it."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from quoting.intake.answers import resolve
from quoting.intake.answers.take import alternatives
from tests.quoting.intake.reading_check import differences, read_case, silent_guesses
from tests.quoting.intake.rendering import rendered_sheets
from tests.quoting.intake.small_shop import small_shop

ORDERS = Path(__file__).parents[2] / "data" / "orders"
SHEETS = sorted(file.name for file in ORDERS.iterdir() if file.suffix != ".json")


@pytest.mark.parametrize("name", SHEETS)
def test_a_sheet_is_read_as_a_person_reads_it(name: str) -> None:
    assert differences(ORDERS / name) == []
    assert silent_guesses(ORDERS / name) == []


@pytest.mark.parametrize("name", SHEETS)
def test_every_row_is_accounted_for_once_and_every_question_has_a_cell(name: str) -> None:
    order = read_case(ORDERS / name)
    places = [(row.place.sheet, row.place.row) for row in order.rows]
    assert len(places) == len(set(places))
    assert len({question.id for question in order.questions}) == len(order.questions)
    for question in order.questions:
        assert question.place.file == name
        assert question.place.row is not None


def test_the_corpus_is_large_enough() -> None:
    assert len(SHEETS) >= 40


@pytest.mark.parametrize("name", SHEETS)
def test_every_choice_settles_its_question(name: str) -> None:
    order = read_case(ORDERS / name)
    shop = small_shop()
    for question in order.questions:
        for choice in question.choices:
            answered = resolve(order, {question.id: choice.label}, shop)
            assert question.id not in {one.id for one in answered.questions}, choice.label
        for _, line in alternatives(order, question, shop):
            assert question.line in ("", line.id)


def test_known_parts_rendered_as_random_sheets_come_back_or_are_asked(tmp_path: Path) -> None:
    found = rendered_sheets(random.Random(5), 60, tmp_path)
    assert found["silent_guesses"] == []
    assert found["read"] > 0.6 * found["written"]


@pytest.mark.parametrize(
    "answer", ["1/4", "48 OD", "two", "A36", "2026-05-01", "60", "yes", "?", "=1+1", "10 ga", "1e9"]
)
def test_any_answer_to_any_question_is_taken_or_refused(answer: str) -> None:
    for name in SHEETS:
        order = read_case(ORDERS / name)
        answered = resolve(order, {question.id: answer for question in order.questions}, small_shop())
        assert len(answered.rows) == len(order.rows)
