"""The customer's quote: the customer's own lines, nothing internal, and text that stays text."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from pathlib import Path

import pytest

from quoting.books import quote_name, write_quote
from quoting.estimating import Estimate, OrderEstimate
from quoting.pricing.price_parts import PriceParts
from quoting.record import ExpediteRecord, PromiseRecord
from tests.quoting.books import factories
from tests.quoting.books.package import book, cells, numbers, parts, shared_texts, texts

TIDY, METRIC, MESSY = range(3)
INTERNAL_WORDS = ("margin", "markup", "overhead", "floor", "profit", "rated for", "yield")


@pytest.fixture(scope="module")
def quotes(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    folder = tmp_path_factory.mktemp("quotes")
    run = factories.run()
    paths = []
    for index, order in enumerate(run.orders):
        paths.append(folder / quote_name(order))
        promise = {"t-10": date(2026, 12, 16)} if index == TIDY else None
        write_quote(run, order, paths[-1], number=f"Q-{index}", promise=promise)
    return paths


def _rows(path: Path) -> list[list[object]]:
    return [[cell.value for cell in row] for row in book(path)["Quote"].iter_rows()]


def _line(path: Path, number: str) -> list[object]:
    return next(row for row in _rows(path) if row[0] == number)


def test_lines_stand_in_the_customers_order_with_the_customers_numbers(quotes: list[Path]) -> None:
    found = [row[0] for row in _rows(quotes[TIDY])]
    assert [number for number in found if number in ("10", "20", "30", "40", "50")] == [
        "10",
        "20",
        "30",
        "40",
        "50",
    ]


def test_priced_lines_carry_quantity_unit_and_extended_price(quotes: list[Path]) -> None:
    for result in factories.run().orders[TIDY].lines:
        row = _line(quotes[TIDY], result.line.number)
        if result.price is None:
            assert row[4:] == [None, "not quoted"]
            continue
        assert row[3] == result.line.quantity
        assert Decimal(str(row[4])) == result.price.unit
        assert Decimal(str(row[5])) == result.price.extended


def test_total_is_the_sum_of_the_rounded_lines_with_tax(quotes: list[Path]) -> None:
    total = factories.run().orders[TIDY].total
    amounts = {row[2]: row[5] for row in _rows(quotes[TIDY]) if isinstance(row[2], str)}
    assert Decimal(str(amounts["Sum of the priced lines"])) == total.lines
    assert Decimal(str(amounts["Sales tax, 7 %"])) == total.tax
    assert Decimal(str(amounts["Total USD"])) == total.total


def test_the_top_up_to_the_least_order_is_shown(tmp_path: Path) -> None:
    run = factories.run()
    order = run.orders[METRIC]
    small = replace(order, total=replace(order.total, minimum_top_up=Decimal("12.34")))
    write_quote(run, small, tmp_path / "q.xlsx", number="Q")
    amounts = {row[2]: row[5] for row in _rows(tmp_path / "q.xlsx") if isinstance(row[2], str)}
    assert amounts["Up to our least order of 250.00"] == 12.34


def test_a_line_that_cannot_be_done_says_so_politely_with_the_nearest_thing(quotes: list[Path]) -> None:
    said = " ".join(texts(book(quotes[TIDY]), "Quote"))
    assert "We cannot make this line as it stands: the plate is thicker than our rolls open to." in said
    assert "The nearest we can do: up to" in said


def test_waiting_lines_say_what_we_need_and_point_at_the_question(quotes: list[Path]) -> None:
    workbook = book(quotes[MESSY])
    said = texts(workbook, "Quote")
    assert "We need to know (question 1): Is 24 in the inside or the outside diameter?" in said
    assert "2 lines wait for an answer and are not in the total." in said
    assert "1*" in texts(workbook, "Questions")
    assert "m-2/basis" in texts(workbook, "Questions")


def test_a_row_that_became_no_line_is_still_answered(quotes: list[Path]) -> None:
    row = _line(quotes[MESSY], "7")
    assert row[5] == "to follow"
    assert row[2] == f"As read: {factories.NASTY[3]}"


def test_sizes_are_in_the_customers_own_system(quotes: list[Path]) -> None:
    metric = " ".join(texts(book(quotes[METRIC]), "Quote"))
    assert "Cylinder 800 mm ID x 1200 mm long" in metric
    assert '"' not in metric
    assert '24" high' in " ".join(texts(book(quotes[TIDY]), "Quote"))


def test_the_promise_stands_beside_the_day_asked_for(quotes: list[Path]) -> None:
    said = texts(book(quotes[TIDY]), "Quote")
    assert "Ready on 16 Dec 2026 (you asked for 18 Dec 2026)." in said


def test_a_promise_of_the_ledger_names_its_order_day_and_a_rush_what_it_displaces(tmp_path: Path) -> None:
    run = factories.run()
    order = run.orders[TIDY]
    days = PromiseRecord(date(2026, 12, 14), date(2026, 12, 21), date(2026, 12, 3))
    promise = {"t-10": days}
    rush = ExpediteRecord(date(2026, 12, 11), Decimal("212.00"))
    for path, expedite in ((tmp_path / "rush.xlsx", rush), (tmp_path / "none.xlsx", None)):
        write_quote(run, order, path, number="Q", promise=promise, expedite=expedite)
    said = " ".join(texts(book(tmp_path / "rush.xlsx"), "Quote"))
    assert "Ready on 21 Dec 2026 if ordered by 3 Dec 2026; at the earliest 14 Dec 2026." in said
    assert "You asked for 18 Dec 2026, which we cannot promise." in said
    assert "all priced lines ready on 11 Dec 2026 for 212.00 " in said
    assert "the soonest that the work before yours" in " ".join(texts(book(tmp_path / "none.xlsx"), "Quote"))


def test_validity_is_tied_to_the_plate(quotes: list[Path]) -> None:
    said = " ".join(texts(book(quotes[TIDY]), "Quote"))
    assert "Prices stand until 14 Dec 2026. The plate is what moves" in said


def test_a_rush_has_its_price_by_the_shops_rule(quotes: list[Path]) -> None:
    run = factories.run()
    order, rules = run.orders[TIDY], run.shop.pricing
    more = (order.total.before_tax * rules.expedite_share).quantize(Decimal("0.01"), ROUND_HALF_UP)
    said = " ".join(texts(book(quotes[TIDY]), "Quote"))
    assert f"Expedited, where the week allows: {rules.expedite_share:.0%} more, {more:,.2f} " in said


def test_certificates_drops_and_free_issue_are_said(quotes: list[Path]) -> None:
    tidy, metric = (" ".join(texts(book(quotes[index]), "Quote")) for index in (TIDY, METRIC))
    assert "Mill test report of the plate with line 10" in tidy
    assert "Drops stay with us" in tidy
    assert "Your plate, line 2: inspected when it arrives" in metric
    assert "Cutting and rolling of the plate that you supply (line 2)" in metric


def test_break_prices_are_listed(quotes: list[Path]) -> None:
    sheet = book(quotes[TIDY])["Quantity prices"]
    result = factories.run().orders[TIDY].lines[0]
    row = next(row for row in sheet.iter_rows(values_only=True) if row[0] == "10")
    assert [Decimal(str(value)) for value in row[2:] if value is not None] == [
        offer.unit for offer in result.breaks if offer.quantity in factories.shop().pricing.break_quantities
    ]


def test_customers_text_never_becomes_a_formula_or_a_link(quotes: list[Path]) -> None:
    for path in quotes:
        assert all(cell.data_type != "f" for cell in cells(book(path)))
        package = parts(path)
        assert not any("hyperlink" in text.lower() and "<hyperlink" in text for text in package.values())
        assert not any("externalLink" in name for name in package)
    shown = {str(cell.value) for cell in cells(book(quotes[MESSY]))}
    assert {factories.NASTY[0], factories.NASTY[1], factories.NASTY[2], factories.NASTY[3]} <= shown
    assert any(factories.NASTY[5] in text for text in shown)


def _internal_figures(run: Estimate, order: OrderEstimate) -> Iterator[Decimal]:
    rates, rules = run.shop.rates, run.shop.pricing
    yield from (rates.operator_hour, rates.setup_hour, rules.margin, rules.floor_margin, rules.overhead_share)
    yield from (
        rules.margin * 100,
        rules.floor_margin * 100,
        rules.overhead_share * 100,
        rules.material_markup,
    )
    for result in order.lines:
        if result.price is None or result.drivers is None:
            continue
        own = result.price.parts
        yield from (getattr(own, part.name) for part in fields(PriceParts))
        yield from (own.cost, own.processing, own.price, result.price.profit, result.price.floor)
        yield from (result.price.floor_unit, result.price.margin, result.price.markup)
        yield from (result.drivers.plate_cost, result.drivers.drop_credit, result.drivers.roll_rate)
        yield Decimal(str(result.drivers.rolling_minutes))
        yield Decimal(str(result.drivers.setup_minutes))


def _allowed(order: OrderEstimate) -> set[float]:
    prices = [result.price for result in order.lines if result.price]
    offers = [offer.unit for result in order.lines for offer in result.breaks]
    own = {float(price.unit) for price in prices} | {float(price.extended) for price in prices}
    return own | {float(offer) for offer in offers}


@cache
def _told_apart(value: Decimal) -> bool:
    """Return whether a figure is unusual enough to be looked for: it has cents that are no round tenth."""
    return value > 1 and round(value, 2) != round(value, 1)


def test_no_internal_figure_is_anywhere_in_the_package(quotes: list[Path]) -> None:
    run = factories.run()
    looked_for = 0
    for path, order in zip(quotes, run.orders, strict=True):
        shown = numbers(path) - _allowed(order)
        for figure in _internal_figures(run, order):
            if _told_apart(figure):
                looked_for += 1
                assert not shown & {round(float(figure), places) for places in (2, 3, 4)}, figure
    assert looked_for > 100


def test_the_search_would_find_a_cost(quotes: list[Path]) -> None:
    """The check above can fail: a unit price, which is in the package, is found by the same search."""
    price = factories.run().orders[TIDY].lines[0].price
    assert price is not None
    assert float(price.unit) in numbers(quotes[TIDY])


def test_no_internal_word_and_no_hiding_place(quotes: list[Path]) -> None:
    for path in quotes:
        package = parts(path)
        said = " ".join(shared_texts(path)).lower()
        for word in INTERNAL_WORDS:
            assert word not in said, word
        assert 'state="' not in package["xl/workbook.xml"]
        assert "veryHidden" not in package["xl/workbook.xml"]
        assert not any("comment" in name or "custom" in name or "vml" in name for name in package)
        names = book(path).defined_names
        assert not list(names)
        assert not any('hidden="1"' in text for name, text in package.items() if "sheet" in name)
        assert "<dc:description>" not in package["docProps/core.xml"]


def test_the_same_run_writes_the_same_bytes(quotes: list[Path], tmp_path: Path) -> None:
    run = factories.run()
    again = tmp_path / "again.xlsx"
    write_quote(run, run.orders[MESSY], again, number=f"Q-{MESSY}")
    assert again.read_bytes() == quotes[MESSY].read_bytes()


def test_quote_names_tell_files_of_one_customer_apart() -> None:
    order = factories.run().orders[TIDY]
    other = replace(order, order=replace(order.order, file="more.xlsx"))
    assert quote_name(order) == "quote-sample-tank-works-tidy.xlsx"
    assert quote_name(other) == "quote-sample-tank-works-more.xlsx"


def test_a_quote_of_nothing_but_questions_opens(tmp_path: Path) -> None:
    run = factories.run()
    order = run.orders[MESSY]
    empty = replace(order, lines=(), order=replace(order.order, lines=()))
    write_quote(run, empty, tmp_path / "q.xlsx", number="Q")
    said = texts(book(tmp_path / "q.xlsx"), "Quote")
    assert "Included in the prices" not in said
    assert "Valid until" not in said
    assert "Your enquiry" in said
