"""Every number of the shop's book and its rack has a range that is far beyond any job, and is told."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from quoting.core import InputError
from quoting.estimating import estimate
from quoting.intake.read_orders import read_orders
from quoting.shop import Shop
from quoting.shop.book import read_ledger_settings, starter_text, tables_of_text
from quoting.shop.book.read_book import read_book
from tests.quoting.intake.sheets import read_rows
from tests.quoting.intake.small_shop import TODAY
from tests.quoting.shop.shop_folder import shop_with

NUMBER = re.compile(r"^(\w+) = (-?\d[\d.]*)(?=\s|$)", re.M)
NO_AMOUNTS = {"learning_floor_piece"}
"""A piece number: from there on nothing is learnt, however late that is."""


def starter_numbers() -> list[tuple[str, int, int]]:
    return [(found[1], *found.span(2)) for found in NUMBER.finditer(starter_text())]


def refusal(text: str) -> str:
    try:
        read_book(text, "shop.toml")
        read_ledger_settings(tables_of_text(text, "shop.toml"))
    except InputError as error:
        return str(error)
    return ""


@pytest.mark.parametrize("turn", [0, 1])
def test_no_number_of_the_book_takes_an_absurd_value(turn: int) -> None:
    """The largest number there is, and in turns two that a slipped finger types."""
    text, taken = starter_text(), []
    for number, (key, start, end) in enumerate(starter_numbers()):
        value = ("1000000000000", "99999999999.0")[number % 2] if turn else "1e308"
        said = refusal(text[:start] + value + text[end:])
        if said:
            assert key.rpartition("_")[0] in said
        else:
            taken.append(key)
    assert len(starter_numbers()) > 100
    assert set(taken) <= NO_AMOUNTS


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("rounding = 0.01", "rounding = 1e308", "rounding"),
        ("rounding = 0.01", "rounding = 1000000", "rounding: must be at most 10,000"),
        ("crew_hand = 1 ", "crew_hand = 1000000000000 ", "crew_hand: must be at most 20"),
        ("top_roll_in = 11.0", "top_roll_in = 1e12", "top_roll_in"),
        ("drop_value_share = 0.5", "drop_value_share = 1.5", "drop_value_share: must be at most 1"),
    ],
)
def test_what_fell_before_is_refused_in_words(tmp_path: Path, old: str, new: str, told: str) -> None:
    key = old.split(" = ", maxsplit=1)[0]
    stands = next(line for line in starter_text().splitlines() if line.startswith(f"{key} = "))
    with pytest.raises(InputError) as found:
        shop_with(tmp_path, {stands: new})
    assert told in str(found.value)


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("P,A36,0.25,9999999,120,mill,1,0.6,lb,,", "is more than any plate has (100 m)"),
        ("P,A36,600,60,120,mill,1,0.6,lb,,", "is more than any plate has (1 m)"),
        ("P,A36,0.25,60,120,mill,1e12,0.6,lb,,", "must be at most 100,000"),
        ("P,A36,0.25,60,120,mill,1,1e308,lb,,", "must be at most 1,000,000,000"),
        ("P,A36,0.25,60,120,mill,1,999999999,lb,,", "makes a plate dearer than"),
        ("P,A36,0.25,60,120,mill," + "9" * 400 + ",0.6,lb,,", "must be at most 100,000"),
    ],
)
def test_a_plate_nobody_has_is_left_out_and_named(tmp_path: Path, row: str, told: str) -> None:
    shop = shop_with(tmp_path, rack=f"{row}\n")
    assert shop.stock == ()
    assert any(told in warning for warning in shop.warnings)


def test_a_total_beyond_all_experience_is_asked_about(tmp_path: Path, shop: Shop) -> None:
    read_rows(tmp_path, ["1", "2", "30", "OD", "1/4", "48", "A36"])
    order = read_orders(tmp_path / "order.csv", shop, today=TODAY)
    wary = replace(shop, pricing=replace(shop.pricing, ask_above_total=Decimal(100)))
    found = estimate([order], wary, today=TODAY, effort="quick", nested=False)
    assert found.orders[0].total.total > Decimal(100)
    asked = found.warnings[-1]
    assert "above ask_above_total = 100: is a quantity, a size or a unit wrong?" in asked
    assert estimate([order], shop, today=TODAY, effort="quick", nested=False).warnings == shop.warnings
