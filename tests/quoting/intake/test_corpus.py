"""Every sheet of the corpus is read as a person reads it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.quoting.intake.reading_check import differences, read_case, silent_guesses

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
