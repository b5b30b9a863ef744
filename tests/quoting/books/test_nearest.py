"""Where we decline, the customer reads what would work: a price first, then the one nearest size."""

from __future__ import annotations

from datetime import date

from quoting.books.quote.nearest import nearest_words
from quoting.core import Arc, Basis, Cylinder, Ends, OrderLine, State
from quoting.estimating import LineResult, estimate
from quoting.shop import Shop
from tests.quoting.lines import order, shell

INCH = 25.4


def declined(shop: Shop, line: OrderLine) -> LineResult:
    (found,) = estimate([order(line)], shop, today=date(2026, 11, 30), effort="quick").lines
    assert found.state is State.NO_QUOTE
    return found


def test_a_shell_that_is_too_tight_is_offered_in_halves_and_at_the_least_diameter(shop: Shop) -> None:
    found = declined(shop, shell("A-1", shape=Cylinder(6.5 * INCH, Basis.INSIDE, 20 * INCH), ends=None))
    words = nearest_words(found, inch=True)
    assert "2 segments round the girth" in words[0]
    assert "about" in words[0]
    assert words[-1].startswith("from ")
    assert len(words) <= 3
    assert not any(roll.name in word for roll in shop.rolls for word in words)


def test_sizes_are_rounded_as_a_shop_orders_them(shop: Shop) -> None:
    found = declined(shop, shell("A-1", shape=Cylinder(6.5 * INCH, Basis.INSIDE, 20 * INCH), ends=None))
    inches, metric = (nearest_words(found, inch=inch)[-1] for inch in (True, False))
    least = inches.removeprefix("from ").removesuffix(" inside diameter up")
    assert "." not in least
    size = float(metric.removeprefix("from ").removesuffix(" mm inside diameter up"))
    assert size % 5 == 0


def test_a_piece_that_is_too_short_is_offered_ways_and_no_other_thickness(shop: Shop) -> None:
    short = Arc(20 * INCH, Basis.INSIDE, 12, 24 * INCH)
    found = declined(shop, shell("A-1", shape=short, thickness_mm=12.7, ends=Ends.PRE_BEND))
    words = nearest_words(found, inch=True)
    assert "extra length at both ends" in words[0]
    assert "in a press" in words[1]
    assert len(words) == 2
