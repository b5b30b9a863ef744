"""Ten lines that say why it is this price, with numbers that add up."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

import pytest

from quoting.core import InputError
from quoting.estimating import with_risk
from quoting.record import PricedLineRecord, RunRecord, SensitivityRecord, find_line, what_if_lines, why_lines
from quoting.recording import describe
from tests.quoting.books import factories


@pytest.fixture(scope="module")
def record() -> RunRecord:
    return describe(with_risk(factories.run()))


def _numbers(text: str) -> set[Decimal]:
    return {Decimal(found.replace(",", "")) for found in re.findall(r"\d[\d,]*\.\d\d", text)}


def test_every_priced_line_has_ten_lines(record: RunRecord) -> None:
    for line in record.lines:
        if isinstance(line, PricedLineRecord):
            said = why_lines(record, line)
            assert len(said) == 10
            assert all(text.endswith(".") for text in said)


def test_the_lines_hold_price_cost_and_floor(record: RunRecord) -> None:
    line = find_line(record, "t-10")
    assert isinstance(line, PricedLineRecord)
    said = _numbers("\n".join(why_lines(record, line)))
    price = line.price
    assert {price.unit, price.extended, price.floor_unit} <= said
    cent = Decimal("0.01")
    for name in ("plate", "cutting", "setup", "rolling", "lifting", "overhead"):
        assert getattr(price.parts, name).quantize(cent) in said, name
    assert price.cost.quantize(cent) in said


def test_free_issue_plate_is_said_to_be_the_customers(record: RunRecord) -> None:
    own = next(x for x in record.lines if x.id == "m-2" and isinstance(x, PricedLineRecord))
    said = why_lines(record, own)
    assert said[2] == "Plate: the customer's own, nothing charged for it."
    assert "free issue" in said[-1]


def test_a_line_that_cannot_be_done_says_why_and_what_could(record: RunRecord) -> None:
    said = why_lines(record, find_line(record, "t-40"))
    assert "is not priced (no-quote)" in said[0]
    assert said[1].startswith("Nearest: ")


def test_a_line_is_found_by_its_number_when_only_one_has_it(record: RunRecord) -> None:
    assert find_line(record, "50").id == "t-50"


def test_a_line_that_is_not_there_is_one_message_with_the_ids(record: RunRecord) -> None:
    with pytest.raises(InputError, match=r'no line .* read "99"; give one of: t-10, t-20'):
        find_line(record, "99")


def test_without_sensitivities_nothing_is_said_of_them(record: RunRecord) -> None:
    assert what_if_lines(find_line(record, "t-10")) == ()


def test_a_change_is_said_with_its_price_and_difference(record: RunRecord) -> None:
    def change(kind: str, words: str, *money: str, problem: str = "") -> SensitivityRecord:
        unit, extended, difference = [Decimal(amount) for amount in money] or (None, None, None)
        return SensitivityRecord(kind, words, unit, extended, difference, problem)

    line = find_line(record, "t-10")
    assert isinstance(line, PricedLineRecord)
    changes = (
        change("plate", "plate +8%", "101.00", "404.00", "4.00"),
        change("quantity", "8 instead of 4", "90.00", "720.00", "-10.00"),
        change("basis", "ID instead of OD", problem="no plate"),
    )
    found = replace(line, quantity=4, sensitivities=changes)
    assert what_if_lines(found) == (
        "Plate +8%: 101.00 each, 404.00 for 4 (+4.00).",
        "8 instead of 4: 90.00 each (-10.00 each).",
        "ID instead of OD: cannot be done, no plate.",
    )
