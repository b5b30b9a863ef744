"""The PDF quote says what the workbook says, holds nothing internal, and is the same file every time."""

from __future__ import annotations

import base64
import re
import zlib
from dataclasses import fields, replace
from decimal import Decimal
from pathlib import Path

import pytest

from quoting.books import write_quote, write_quote_pdf
from quoting.books.quote.pdf_type import type_for
from quoting.core import State
from quoting.estimating import Change, Revision
from quoting.pricing.price_parts import PriceParts
from tests.quoting.books import factories
from tests.quoting.books.package import book, cells

TIDY, METRIC, MESSY = range(3)
INTERNAL_WORDS = ("margin", "markup", "overhead", "floor", "profit", "rated for", "yield")


def pdf_text(path: Path) -> str:
    """Return every text that the pages show, words joined as they stand in their lines."""
    found: list[str] = []
    for stream in re.findall(rb"stream\r?\n(.*?)endstream", path.read_bytes(), re.DOTALL):
        try:
            plain = zlib.decompress(base64.a85decode(stream.strip().removesuffix(b"~>")))
        except (ValueError, zlib.error):
            continue
        for text in re.findall(rb"\(((?:\\.|[^\\)])*)\) Tj", plain):
            octal = re.sub(rb"\\(\d{3})", lambda code: bytes([int(code[1], 8)]), text)
            found.append(re.sub(rb"\\(.)", rb"\1", octal).decode("cp1252"))
    return "\n".join(found)


@pytest.fixture(scope="module")
def pdfs(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folder = tmp_path_factory.mktemp("pdf")
    paths = [folder / f"{index}.pdf" for index in range(3)]
    for path, order in zip(paths, factories.run().orders, strict=True):
        write_quote_pdf(factories.run(), order, path, number="20261130-01")
    return paths


def _words(text: str) -> set[str]:
    return set(re.findall(r"\w[\w.,'-]*\w", text))


def test_every_word_of_the_workbook_is_in_the_pdf(pdfs: list[Path], tmp_path: Path) -> None:
    for path, order in zip(pdfs, factories.run().orders, strict=True):
        write_quote(factories.run(), order, tmp_path / "q.xlsx", number="20261130-01")
        shown = _words(pdf_text(path))
        said = _words(" ".join(str(cell.value) for cell in cells(book(tmp_path / "q.xlsx"))))
        refs = _words("Ref " + " ".join(question.id for question in order.questions))
        assert {word for word in said if word.isalpha()} - shown <= refs


def test_prices_stand_as_quoted(pdfs: list[Path]) -> None:
    for path, order in zip(pdfs, factories.run().orders, strict=True):
        text = pdf_text(path)
        for line in order.lines:
            if line.state is State.PRICED and line.price:
                assert f"{line.price.unit:,.2f}" in text
                assert f"{line.price.extended:,.2f}" in text
        assert f"{order.total.total:,.2f}" in text


def test_nothing_internal_is_in_any_part_of_the_file(pdfs: list[Path]) -> None:
    run = factories.run()
    for path, order in zip(pdfs, run.orders, strict=True):
        text = pdf_text(path)
        assert not [word for word in INTERNAL_WORDS if word in text.lower()]
        public = {f"{line.price.unit:,.2f}" for line in order.lines if line.price}
        public |= {f"{line.price.extended:,.2f}" for line in order.lines if line.price}
        public |= {f"{offer.unit:,.2f}" for line in order.lines for offer in line.breaks}
        shown = set(re.findall(r"\d[\d,]*\.\d\d", text))
        for line in order.lines:
            if line.price is None:
                continue
            parts = [Decimal(getattr(line.price.parts, part.name)) for part in fields(PriceParts)]
            secret = {f"{amount:,.2f}" for amount in (*parts, line.price.parts.cost) if amount > 1}
            assert not (secret - public) & shown, line.line.id
        for amount in (run.shop.rates.operator_hour, run.shop.rates.setup_hour):
            assert f"{amount:,.2f}" not in shown


def test_the_page_is_the_shops_paper(tmp_path: Path) -> None:
    for paper, size in (("letter", b"612 792"), ("a4", b"595.2756 841.8898")):
        run = factories.run(paper)
        write_quote_pdf(run, run.orders[TIDY], tmp_path / "q.pdf", number="Q")
        assert b"/MediaBox [ 0 0 " + size in (tmp_path / "q.pdf").read_bytes()


def test_the_same_quote_gives_the_same_bytes(pdfs: list[Path], tmp_path: Path) -> None:
    run = factories.run()
    write_quote_pdf(run, run.orders[TIDY], tmp_path / "again.pdf", number="20261130-01")
    assert (tmp_path / "again.pdf").read_bytes() == pdfs[TIDY].read_bytes()


def test_a_revision_says_what_changed_and_not_why(tmp_path: Path) -> None:
    run = factories.run()
    change = Change(
        "unit price", "601.00 each", "599.00 each", "t-10", "a secret reason", True, "tidy.xlsx", "10"
    )
    revised = replace(run, revision=Revision(2, "x", (change,), run.today))
    write_quote_pdf(revised, run.orders[TIDY], tmp_path / "q.pdf", number="20261130-01")
    text = pdf_text(tmp_path / "q.pdf")
    assert "Line 10: 601.00 each, now 599.00 each." in text
    assert "20261130-01 revision 2" in text
    assert "secret" not in text


def test_letters_of_other_scripts_come_with_their_own_font() -> None:
    assert type_for("Müller & Søn, 1/2”").plain == "Helvetica"
    assert type_for("Łódź Zbiorniki, Крым").plain == "DejaVuSans"


def test_a_text_longer_than_a_page_goes_over_to_the_next(tmp_path: Path) -> None:
    estimate = factories.run()
    order = estimate.orders[MESSY]
    first = next(line for line in order.lines if line.price)
    long = replace(first.line, number="x" * 900)
    said = replace(first, line=long, assumptions=("word " * 3000,))
    lines = tuple(said if line is first else line for line in order.lines)
    write_quote_pdf(estimate, replace(order, lines=lines), tmp_path / "q.pdf", number="20261130-01")
    shown = pdf_text(tmp_path / "q.pdf")
    assert sum(len(run) for run in re.findall(r"x{2,}", shown)) == 2 * 900  # the line, its other quantities
    assert shown.count("word") == 3000
