"""The questions book: a table to fill in that comes back, and a mail to copy."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from quoting.books import questions_name, write_questions
from quoting.books.questions import ANSWER
from quoting.intake import read_answers
from tests.quoting.books import factories
from tests.quoting.books.package import book, cells, texts


def _written(folder: Path) -> Path:
    path = folder / questions_name(factories.run())
    write_questions(factories.run(), path)
    return path


def test_each_question_says_line_cell_what_was_read_and_the_choices(tmp_path: Path) -> None:
    sheet = book(_written(tmp_path))["Questions"]
    row = next(row for row in sheet.iter_rows(values_only=True) if row[6] == "m-2/basis")
    assert row[0] == f"{factories.NASTY[2]}*"
    assert row[1] == "RFQ, C5, Dia"
    assert row[2:4] == ("24 dia", "Is 24 in the inside or the outside diameter?")
    assert row[4] == "inside diameter\noutside diameter"
    assert row[ANSWER] is None


def test_questions_stand_under_their_customer(tmp_path: Path) -> None:
    said = texts(book(_written(tmp_path)), "Questions")
    assert f"{factories.CUSTOMERS['messy.xlsx']}: messy.xlsx" in said
    assert not any("tidy.xlsx" in text for text in said)


def test_a_filled_in_answer_is_read_back(tmp_path: Path) -> None:
    path = _written(tmp_path)
    workbook = book(path)
    for row in workbook["Questions"].iter_rows():
        if row[6].value == "m-2/basis":
            row[ANSWER].value = "inside diameter"
    workbook.save(path)
    assert {id: given.answer for id, given in read_answers(path).items()} == {"m-2/basis": "inside diameter"}


def test_the_mail_holds_every_question_numbered_with_its_choices(tmp_path: Path) -> None:
    said = texts(book(_written(tmp_path)), "Mail")
    assert any(text.startswith("1. line -2+3: Is 24 in the inside or the outside diameter?") for text in said)
    assert "   a) inside diameter" in said
    assert "   We have assumed: inches" in said
    assert f"Hello {factories.NASTY[1]}," in said


def test_customers_text_never_becomes_a_formula(tmp_path: Path) -> None:
    assert all(cell.data_type != "f" for cell in cells(book(_written(tmp_path))))


def test_a_run_without_questions_says_so(tmp_path: Path) -> None:
    run = factories.run()
    clear = replace(run, orders=run.orders[:2])
    write_questions(clear, tmp_path / "q.xlsx")
    assert "No open questions." in texts(book(tmp_path / "q.xlsx"), "Questions")


def test_the_same_run_writes_the_same_bytes(tmp_path: Path) -> None:
    first = _written(tmp_path)
    write_questions(factories.run(), tmp_path / "again.xlsx")
    assert (tmp_path / "again.xlsx").read_bytes() == first.read_bytes()
