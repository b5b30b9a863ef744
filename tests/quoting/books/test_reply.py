"""The mail draft to a customer: what a mail program shows when it is opened."""

from __future__ import annotations

import io
from dataclasses import replace
from email import message_from_bytes, policy
from email.message import EmailMessage
from pathlib import Path

import openpyxl
import pytest

from quoting.books.reply import address_in, write_reply
from quoting.estimating import Estimate
from tests.quoting.books import factories


@pytest.fixture(scope="module")
def found() -> Estimate:
    """The orders of the factories: the messy one came by mail, the tidy one names whom to ask."""
    run = factories.run()
    tidy, _, messy = run.orders
    subject = "RFQ\r\nBcc: x@y.zz"
    mailed = replace(
        messy.order, reply_to="Jane Doe <jane@example.com>", message_id="<1@example.com>", reference=subject
    )
    named = replace(tidy.order, contact="Sam, sam@example.org")
    return replace(run, orders=(replace(messy, order=mailed), replace(tidy, order=named)))


def draft(found: Estimate, index: int, folder: Path) -> EmailMessage:
    (folder / "quote.pdf").write_bytes(b"%PDF-1.7 quote")
    path = folder / "reply-yard.eml"
    write_reply(found, found.orders[index], path, number="20261130-01", attached=("quote.pdf",))
    assert sorted(one.name for one in folder.iterdir()) == ["quote.pdf", "reply-yard.eml"]
    data = path.read_bytes()
    write_reply(found, found.orders[index], path, number="20261130-01", attached=("quote.pdf",))
    assert path.read_bytes()[:600] == data[:600]  # the same draft every time
    read = message_from_bytes(data, policy=policy.default)
    assert isinstance(read, EmailMessage)
    return read


def test_the_draft_answers_the_mail_with_quote_and_questions(found: Estimate, tmp_path: Path) -> None:
    read = draft(found, 0, tmp_path)
    assert (read["To"], read["In-Reply-To"], read["X-Unsent"]) == ("jane@example.com", "<1@example.com>", "1")
    assert read["Subject"] == "Re: RFQ Bcc: x@y.zz"
    assert read["Bcc"] is None
    body = read.get_body()
    assert body is not None
    text = body.get_content()
    assert "Attached is our quotation 20261130-01" in text
    assert "Before we can price all of it we need to know:" in text
    quote, questions = read.iter_attachments()
    assert quote.get_content() == b"%PDF-1.7 quote"
    assert questions.get_filename() == "questions-yard.xlsx"
    book = openpyxl.load_workbook(io.BytesIO(questions.get_content()))
    shown = " ".join(str(cell) for sheet in book for row in sheet.values for cell in row if cell)
    assert found.orders[0].order.file in shown
    assert found.orders[1].order.file not in shown


def test_without_a_mail_the_address_is_the_contacts(found: Estimate, tmp_path: Path) -> None:
    read = draft(found, 1, tmp_path)
    assert read["To"] == "sam@example.org"
    assert read["In-Reply-To"] is None
    names = [part.get_filename() for part in read.iter_attachments()]
    assert names == (
        ["quote.pdf", "questions-yard.xlsx"] if found.orders[1].order.questions else ["quote.pdf"]
    )


@pytest.mark.parametrize("text", ["<a@b>", "jane@", "x@y.zz\nBcc: q@r.ss", "", "a b@c", "@e.com"])
def test_what_is_no_address_is_left_out(text: str) -> None:
    found = address_in(text)
    assert found == "" or ("\n" not in found and found.count("@") == 1)
