"""Which example settings matter: found in the book, tried low and high, ranked by money."""

from __future__ import annotations

import sys
from datetime import date
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest

from quoting.core import InputError
from quoting.ledger_commands import WeighRequest, weigh_job
from quoting.ledger_commands.mixed_order import mixed_order
from quoting.shop import StillExample, book_at_hand, load_shop, still_examples, write_starter
from quoting.shop.still_examples import BookAtHand

GRADES = frozenset(("A36",))
DAY = date(2026, 11, 30)


@pytest.fixture(scope="module")
def starter(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shop") / "own"
    write_starter(folder, None, text=True, ours=frozenset())
    return folder


@pytest.fixture(scope="module")
def book(starter: Path) -> BookAtHand:
    return book_at_hand(starter, load_shop(starter))


def named(book: BookAtHand) -> dict[str, StillExample]:
    return {example.name: example for example in still_examples(book, GRADES)}


def test_every_figure_of_a_new_book_is_an_example_and_says_how_to_find_ones_own(book: BookAtHand) -> None:
    found = named(book)
    assert len(found) > 100
    assert all(example.way and example.where and example.low != example.high for example in found.values())
    square = found["labour.square_min"]
    assert (square.now, square.low, square.high) == ("1 / 2 / 4", "1", "4")  # its own ends
    assert found["rates.operator_per_hour"].values == (Decimal("28.1"), Decimal(63))
    assert found["roll.rated.thickness_in"].way.startswith("Roll three test pieces")
    assert found["cutting.shear_longest_in"].words == "Cutting: shear longest (in)"
    assert found["cutting.shear_longest_in"].way.startswith("Read it off the shear's plate")
    assert "price_per_lb.A36" in found
    assert "price_per_lb.2205" not in found  # nothing of it is quoted


def test_ones_own_figures_are_no_examples_any_more(starter: Path, tmp_path: Path) -> None:
    text = (starter / "shop.toml").read_text()
    text = text.replace("operator_per_hour = 42.00", "operator_per_hour = 44.50")
    text = text.replace("per hour; example\nhelper", "per hour\nhelper")
    text = text.replace("helper with all wage costs, per hour; example", "as our books say")
    (tmp_path / "shop.toml").write_text(text)
    found = named(book_at_hand(tmp_path, load_shop(tmp_path)))
    assert "rates.operator_per_hour" not in found
    assert "rates.helper_per_hour" not in found  # the same figure, and said to be the shop's own
    assert "rates.setup_per_hour" in found


def test_the_book_is_read_again_with_one_figure_changed(book: BookAtHand) -> None:
    found = named(book)
    for example in list(found.values())[::8]:
        changed = [book.with_value(example, value) for value in example.values]
        assert any(shop != book.shop for shop in changed), example.name  # crew of one: no lower
    dearer = book.with_value(found["price_per_lb.A36"], 1)
    assert dearer is not None
    assert sum(plate.price for plate in dearer.stock) > sum(plate.price for plate in book.shop.stock)


@pytest.mark.slow
def test_settings_are_ranked_by_what_they_move(
    starter: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    wanted = ("price_per_lb.A36", "rates.operator_per_hour", "edges.j_cuts")

    def few(book: BookAtHand, grades: frozenset[str]) -> tuple[StillExample, ...]:
        return tuple(one for one in still_examples(book, grades) if one.name in wanted)

    monkeypatch.setattr(sys.modules[weigh_job.__module__], "still_examples", few)
    assert weigh_job(WeighRequest(starter, tmp_path, DAY), say=lambda _: None) == 1
    told = capsys.readouterr().out
    assert "the book is sound; 3 of its figures are still examples, 2 of them move" in told
    assert told.index("1. A36: plate price (line ") < told.index("2. Rates: operator per hour (line ")
    sheet = openpyxl.load_workbook(tmp_path / "settings-weighed-2026-11-30.xlsx")["Settings"]
    texts = [str(cell) for row in sheet.values for cell in row if cell]
    assert "1 more example figures move none of these orders." in texts
    (plate,) = (row for row in sheet.values if row[1] == "A36: plate price")
    assert str(plate[6]).startswith("-")
    assert not str(plate[7]).startswith("-")


def test_a_book_that_is_not_sound_is_told_first(starter: Path, tmp_path: Path) -> None:
    text = (starter / "shop.toml").read_text().replace("margin = 0.28", "margin = 28")
    (tmp_path / "shop.toml").write_text(text)
    with pytest.raises(InputError, match="margin"):
        weigh_job(WeighRequest(tmp_path, tmp_path / "out", DAY), say=lambda _: None)


def test_the_mixed_order_can_be_made_of_any_rack(book: BookAtHand) -> None:
    lines = mixed_order(book.shop).lines
    known = {material.key for material in book.shop.materials}
    assert {line.material for line in lines} <= known
    assert len({line.material for line in lines}) == 2
