"""A quote in the customer's language: all of it, or none; numbers and days as the language writes them."""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from datetime import date
from decimal import Decimal
from email import message_from_bytes, policy
from email.message import EmailMessage
from pathlib import Path

import pytest

from quoting.books.in_language import spoken
from quoting.books.questions import mail_text
from quoting.books.quote import quote_letter, write_quote, write_quote_pdf
from quoting.books.quote.terms import terms
from quoting.books.reply import write_reply
from quoting.books.tongue import ENGLISH, UnsaidError, tongue_of
from quoting.core import Choice, InputError, Question
from quoting.estimating import Estimate, estimate
from quoting.intake.layout import customer_map
from tests.benchmarks.untranslated import counted
from tests.quoting.books import factories
from tests.quoting.books.customer_sentences import HOLE, Sentence, sentences, unsaid
from tests.quoting.books.package import book, cells
from tests.quoting.books.test_quote_pdf import pdf_text

LANGUAGES = ("de", "es", "fr")
ENGLISH_WORDS = re.compile(
    r"\b(?:the|of|and|with|not|line|lines|each|wide|price|prices|what|we|you|your|is|to|by|Qty)\b"
)


def asked_in(language: str, *, own: str = "") -> Estimate:
    """The metric order with a question, and an assumption that only English knows when `own` is given."""
    order = factories.metric()
    assumed = (own,) if own else ()
    lines = tuple(replace(line, assumptions=assumed, description="", remarks=()) for line in order.lines)
    question = Question(
        f"{lines[0].id}/basis",
        lines[0].id,
        lines[0].place,
        "610 dia",
        "Is the diameter of 610 mm inside, outside or on the centreline?",
        (Choice("inside (ID)"), Choice("outside (OD)")),
        blocking=False,
        assumed="no due date held",
    )
    asked = replace(order, lines=lines, questions=(question,), language=language, reference="77-B")
    return estimate((asked,), factories.shop(), today=factories.TODAY, effort="quick")


def own_words(found: Estimate) -> set[str]:
    """Every word of the customer, of the shop's own letter, and of names that are the same everywhere."""
    shop, order = found.shop, found.orders[0].order
    texts = [shop.name, order.customer, order.file, shop.letter.payment, shop.letter.delivery]
    texts += [
        shop.letter.tolerances,
        shop.letter.address,
        shop.letter.contact,
        *(line.part_no for line in order.lines),
    ]
    return set(re.findall(r"\w+", " ".join(texts)))


@pytest.mark.parametrize("language", LANGUAGES)
def test_letter_questions_and_mail_are_in_one_language(tmp_path: Path, language: str) -> None:
    told: list[str] = []
    found = spoken(asked_in(language), told.append)
    order = found.orders[0]
    assert order.order.language == language, told
    write_quote(found, order, tmp_path / "q.xlsx", number="1")
    write_quote_pdf(found, order, tmp_path / "q.pdf", number="1")
    write_reply(found, order, tmp_path / "r.eml", number="1", attached=("q.pdf", "q.xlsx"))
    mail = message_from_bytes((tmp_path / "r.eml").read_bytes(), policy=policy.default)
    assert isinstance(mail, EmailMessage)
    body = mail.get_body()
    assert body is not None
    assert [part.get_filename() for part in mail.iter_attachments()] == ["q.pdf", "q.xlsx"]
    shown = " ".join(str(cell.value) for cell in cells(book(tmp_path / "q.xlsx")))
    own = own_words(found)
    told_mail = mail_text(found, order, tongue_of(language))  # as it stands in the book of questions
    for text in (shown, pdf_text(tmp_path / "q.pdf"), body.get_content(), told_mail):
        assert {word for word in ENGLISH_WORDS.findall(text) if word not in own} == set()
    word = {"de": "Dezember", "es": "diciembre", "fr": "décembre"}[language]
    assert word in shown
    assert word in body.get_content()


def test_the_shops_own_terms_are_in_the_customers_language_where_the_book_has_them() -> None:
    found = asked_in("de")
    both = "30 days net | de: 30 Tage netto | fr: 30 jours net"
    letter = replace(found.shop.letter, payment=both, delivery="", tolerances="")
    told: list[str] = []
    found = spoken(replace(found, shop=replace(found.shop, letter=letter)), told.append)
    assert told == []  # nothing is left in another language
    points = [said for _, block in terms(quote_letter(found, found.orders[0], number="1")) for said in block]
    assert "Zahlung: 30 Tage netto." in points
    in_spanish = replace(found.orders[0], order=replace(found.orders[0].order, language="es"))
    spoken(replace(found, orders=(in_spanish,)), told.append)
    assert told[0].startswith("payment, delivery and tolerances are printed as the shop's book has them")


def test_a_sentence_without_words_leaves_the_whole_quote_in_english() -> None:
    told: list[str] = []
    found = spoken(asked_in("de", own="rolled on a Tuesday"), told.append)
    assert found.orders[0].order.language == ""
    assert told[0].endswith('is in English: no German words for "rolled on a Tuesday"')


@pytest.mark.parametrize(
    ("language", "day", "money", "size"),
    [
        ("de", "1. Dezember 2026", "1.234,50 USD", '0,0635" x 12 mm'),
        ("es", "1 de diciembre de 2026", "1.234,50 USD", '0,0635" x 12 mm'),
        ("fr", "1 décembre 2026", "1\xa0234,50 USD", '0,0635" x 12 mm'),
    ],
)
def test_numbers_and_days_are_the_languages(language: str, day: str, money: str, size: str) -> None:
    tongue = tongue_of(language)
    assert tongue.day(date(2026, 12, 1)) == day
    assert f"{tongue.amount(Decimal('1234.5'))} USD" == money
    assert tongue.size('0.0635" x 12 mm') == size
    assert tongue.say("Ready on 1 Dec 2026.").rstrip(".").endswith(day)


def test_english_is_said_as_it_is() -> None:
    assert ENGLISH.say("anything at all") == "anything at all"
    assert tongue_of("xx") is ENGLISH
    assert ENGLISH.amount(Decimal("1234.5")) == "1,234.50"
    with pytest.raises(UnsaidError, match="anything at all"):
        tongue_of("fr").say("anything at all")


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_entry_keeps_its_parts_and_what_is_from_memory_says_so(language: str) -> None:
    entries = tongue_of(language).entries
    assert len(entries) > 200
    for english, said in entries.items():
        assert set(re.findall(r"\{\w+\}", english)) == set(re.findall(r"\{\w+\}", said)), english
        assert said.strip() or not english.strip()
    path = Path(__file__).resolve().parents[3] / "quoting" / "books" / "tongue" / "words" / f"{language}.po"
    assert "from memory: a native speaker of the trade reads them" in path.read_text("utf-8")


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_glossary_names_the_source_of_words_that_stand_in_the_catalogue(language: str) -> None:
    words = Path(__file__).resolve().parents[3] / "quoting" / "books" / "tongue" / "words" / "glossary.toml"
    glossary = tomllib.loads(words.read_text("utf-8"))
    said = "\n".join(tongue_of(language).entries.values())
    sourced = 0
    for term in glossary["term"]:
        one = term[language]
        assert one["word"] in said, f"{term['english']}: the catalogue says something else than {one['word']}"
        assert one.get("source", "EN 10029") in glossary["source"]
        sourced += "source" in one
    assert sourced >= 4


def test_the_language_stands_in_the_customers_file() -> None:
    assert customer_map('name = "X"\nlanguage = "de"\n', "x.toml").language == "de"
    with pytest.raises(InputError, match="language"):
        customer_map('language = "klingon"\n', "x.toml")


def test_every_language_has_the_same_entries() -> None:
    german, *others = (set(tongue_of(language).entries) for language in LANGUAGES)
    for language, entries in zip(LANGUAGES[1:], others, strict=True):
        assert entries ^ german == set(), language


def test_no_sentence_of_a_customers_paper_is_without_words() -> None:
    """A new question, assumption or reason fails here until it stands in the catalogues."""
    assert len(list(sentences())) > 350
    assert [f"{one.where}: {one.text.replace(HOLE, '...')}" for one in unsaid(tongue_of("de"))] == []


def test_a_new_sentence_would_be_found() -> None:
    new = [
        Sentence(f"The moon is {HOLE} today; shall we wait?", "here"),
        Sentence("How blue is the plate?", "here"),
    ]
    assert unsaid(tongue_of("de"), new) == new


@pytest.mark.slow
def test_every_order_sheet_of_the_tests_can_be_answered_in_the_customers_language() -> None:
    orders, english, missing = counted("de")
    assert orders > 200
    assert (english, list(missing)) == (0, [])
