"""What the customer is asked, and what the estimator keeps: the shop's own questions, refusals, worths."""

from __future__ import annotations

import re
from dataclasses import replace
from email import message_from_bytes, policy
from email.message import EmailMessage
from io import BytesIO
from pathlib import Path

import openpyxl
import pytest

from quoting.books import write_questions, write_quote
from quoting.books.quote import write_quote_pdf
from quoting.books.reply import write_reply
from quoting.core import Order
from quoting.estimating import Estimate, estimate
from quoting.intake.answers.take import resolve
from tests.quoting.books import factories
from tests.quoting.books.package import book, texts
from tests.quoting.books.test_quote_pdf import pdf_text
from tests.quoting.intake.sheets import read_rows
from tests.quoting.intake.small_shop import small_shop

CLEAR = ["1", "1", "48", "ID", "1/4", "60", "A36"]
THICK = ["2", "1", "48", "ID", "2", "60", "A36"]
BARE = ["3", "1", "24", "", "1/4", "60", "A36"]
CHECKED = "We are checking this line on our side"


def asked(folder: Path, *rows: list[str], worths: bool = False, **answers: str) -> Estimate:
    """Return the run of a sheet; an answer is given by the line's number and `_` and the field."""
    shop = factories.shop()
    shop = replace(shop, letter=replace(shop.letter, choice_worths=worths))
    given = {name.removeprefix("line_").replace("_", "/", 1): text for name, text in answers.items()}
    order: Order = resolve(read_rows(folder, *rows), given, small_shop())
    return estimate((order,), shop, today=factories.TODAY, effort="quick")


def to_customer(found: Estimate, folder: Path) -> str:
    """Return every word of letter, PDF, mail and attached list."""
    order = found.orders[0]
    write_quote(found, order, folder / "quote.xlsx", number="1")
    write_quote_pdf(found, order, folder / "quote.pdf", number="1")
    write_reply(found, order, folder / "reply.eml", number="1", attached=())
    write_questions(found, folder / "questions.xlsx")
    mail = message_from_bytes((folder / "reply.eml").read_bytes(), policy=policy.default)
    assert isinstance(mail, EmailMessage)
    body = mail.get_body()
    assert body is not None
    books = [openpyxl.load_workbook(BytesIO(part.get_content())) for part in mail.iter_attachments()]
    sheets = [one for each in (*books, book(folder / "quote.xlsx")) for one in each]
    said = [str(cell) for sheet in sheets for row in sheet.values for cell in row if cell]
    pasted = texts(book(folder / "questions.xlsx"), "Mail")
    return " ".join([*said, *pasted, body.get_content(), pdf_text(folder / "quote.pdf")])


def estimators(found: Estimate, folder: Path) -> str:
    """Return the estimator's list of questions."""
    write_questions(found, folder / "questions.xlsx")
    return " ".join(texts(book(folder / "questions.xlsx"), "Questions"))


def test_whether_we_buy_a_plate_is_no_question_to_the_customer(tmp_path: Path) -> None:
    found = asked(tmp_path, CLEAR, THICK, BARE)
    said = to_customer(found, tmp_path)
    assert "may we buy" not in said
    assert CHECKED in said
    assert "Some lines we are still checking on our side" in said
    assert "1 line waits for an answer" in said  # the bare diameter alone
    assert "Is the diameter of 24" in said
    assert "may we buy it for this job? (for us to settle)" in estimators(found, tmp_path)


def test_a_line_that_only_we_can_settle_brings_no_list_to_fill_in(tmp_path: Path) -> None:
    said = to_customer(asked(tmp_path, THICK), tmp_path)
    assert "we need to know" not in said.lower()
    assert "Questions to you" not in said
    assert CHECKED in said


def test_once_we_buy_it_the_letter_says_so_and_not_that_we_asked_ourselves(tmp_path: Path) -> None:
    order = asked(tmp_path, THICK, line_2_stock_thickness="yes").orders[0].order
    (line,) = order.lines
    assert any("exactly, bought for this job" in text for text in line.assumptions)
    assert not any("may we buy" in text for text in line.assumptions)


def test_a_plate_near_enough_to_do_instead_is_asked_of_the_customer(tmp_path: Path) -> None:
    near = ["2", "1", "48", "ID", "0.3", "60", "A36"]
    said = to_customer(asked(tmp_path, CLEAR, near), tmp_path)
    assert "would" in said
    assert CHECKED not in said


def test_an_answer_we_could_not_read_is_not_thrown_back_at_the_customer(tmp_path: Path) -> None:
    found = asked(tmp_path, CLEAR, BARE, line_3_basis="as usual")
    assert "as usual" not in to_customer(found, tmp_path)
    assert 'The answer "as usual" was not understood' in estimators(found, tmp_path)


_WORTH = re.compile(r"\(ID\): [\d,]+ USD, blank ")


@pytest.mark.parametrize("worths", [False, True])
def test_what_a_choice_is_worth_is_told_only_where_the_shop_wants_it(tmp_path: Path, worths: bool) -> None:
    found = asked(tmp_path, CLEAR, BARE, worths=worths)
    assert bool(_WORTH.search(to_customer(found, tmp_path))) is worths
    assert _WORTH.search(estimators(found, tmp_path))
