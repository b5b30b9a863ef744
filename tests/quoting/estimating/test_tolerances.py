"""A tolerance asked for is held, held with fitting, or said to be an exception; never accepted unread."""

from __future__ import annotations

from datetime import date
from math import cos, radians, sin

import pytest

from quoting.core import Arc, Basis, Cylinder, OrderLine, ToleranceAsked, ToleranceOn
from quoting.estimating import (
    LineResult,
    estimate,
    expected_contour,
    expected_out_of_round,
    judge_tolerances,
)
from quoting.estimating.judging import Held
from quoting.shop import Shop
from tests.quoting.lines import order, shell

INCH = 25.4
SHELL = Cylinder(48 * INCH, Basis.INSIDE, 60 * INCH)


def price_one(shop: Shop, line: OrderLine) -> LineResult:
    (found,) = estimate([order(line)], shop, today=date(2026, 11, 30), effort="quick").lines
    return found


def held(shop: Shop, asked: ToleranceAsked, **changes: object) -> Held:
    line = shell("A-1", shape=SHELL, thickness_mm=9.525, tolerances=(asked,), **changes)
    found = price_one(shop, line)
    assert found.route
    (judged,) = judge_tolerances(found.line, found.route, shop)
    return judged.held


@pytest.mark.parametrize(
    ("on", "inches", "expected"),
    [
        (ToleranceOn.ROUND, 1 / 32, Held.NO),
        (ToleranceOn.ROUND, 1 / 2, Held.YES),
        (ToleranceOn.DIAMETER, 1 / 4, Held.YES),
        (ToleranceOn.DIAMETER, 1 / 8, Held.FITTED),
        (ToleranceOn.DIAMETER, 1 / 64, Held.NO),
        (ToleranceOn.CIRCUMFERENCE, 3 / 4, Held.YES),
        (ToleranceOn.LENGTH, 1 / 8, Held.YES),
        (ToleranceOn.STRAIGHT, 1 / 8, Held.YES),
    ],
)
def test_what_becomes_of_a_tolerance(shop: Shop, on: ToleranceOn, inches: float, expected: Held) -> None:
    assert held(shop, ToleranceAsked(on, inches * INCH)) is expected


def test_ug_80_is_one_per_cent_and_held(shop: Shop) -> None:
    assert held(shop, ToleranceAsked(ToleranceOn.ROUND, code="UG-80")) is Held.YES


def test_fitting_is_in_the_price_and_an_exception_is_not(shop: Shop) -> None:
    def unit(*asked: ToleranceAsked) -> float:
        line = shell("A-1", shape=SHELL, thickness_mm=9.525, tolerances=asked)
        found = price_one(shop, line)
        assert found.price
        return float(found.price.unit)

    loose, tight, never = (
        unit(ToleranceAsked(ToleranceOn.DIAMETER, inches * INCH)) for inches in (1 / 4, 1 / 8, 1 / 64)
    )
    assert loose == unit() == never
    assert tight > loose + 10


def test_an_exception_says_what_is_asked_what_is_quoted_and_what_would_help(shop: Shop) -> None:
    asked = ToleranceAsked(ToleranceOn.ROUND, 3 / 32 * INCH)
    found = price_one(shop, shell("A-1", shape=SHELL, thickness_mm=9.525, tolerances=(asked,)))
    assert found.route
    (judged,) = judge_tolerances(found.line, found.route, shop)
    words = judged.words(inch=True)
    assert words.startswith("EXCEPTION: you ask for out of round at most 3/32")
    assert "re-rounded after welding" in words


def test_re_rounding_halves_and_more_what_is_out_of_round(shop: Shop) -> None:
    found = price_one(shop, shell("A-1", shape=SHELL, thickness_mm=9.525))
    assert found.route
    plain, again = (
        expected_out_of_round(found.line, found.route, shop, re_rounded=again) for again in (False, True)
    )
    assert plain
    assert again
    assert 0 < again < plain / 2


def test_a_roundness_on_an_arc_is_not_confirmed(shop: Shop) -> None:
    arc = Arc(24 * INCH, Basis.INSIDE, 90, 48 * INCH)
    found = price_one(shop, shell("A-1", shape=arc, tolerances=(ToleranceAsked(ToleranceOn.ROUND, 3.0),)))
    assert found.route
    (judged,) = judge_tolerances(found.line, found.route, shop)
    assert judged.held is Held.OPEN
    assert judged.words(inch=True).startswith("NOT CONFIRMED")


def test_the_contour_that_is_drawn_is_as_far_from_round_as_is_said(shop: Shop) -> None:
    found = price_one(shop, shell("A-1"))
    assert found.route
    for re_rounded in (False, True):
        points = expected_contour(found.line, found.route, shop, re_rounded=re_rounded)
        said = expected_out_of_round(found.line, found.route, shop, re_rounded=re_rounded)
        assert points
        assert said
        widths = []
        for degree in range(180):
            x, y = cos(radians(degree)), sin(radians(degree))
            across = [px * x + py * y for px, py in points[::4]]
            widths.append(max(across) - min(across))
        assert said * 0.7 < max(widths) - min(widths) < said * 1.5
