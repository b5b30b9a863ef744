"""What the answer to a question is worth: every choice priced, so that the customer sees why we ask."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.core import Order, OrderLine, first_few
from quoting.estimating.costing import cost_drivers, price_of
from quoting.estimating.result import ChoiceWorth
from quoting.estimating.routes import LineRoutes, route_lines
from quoting.estimating.stocking import RoutedLine, by_weight
from quoting.intake import alternatives
from quoting.shop import Shop

_MOST_NAMED = 6


@dataclass(frozen=True, slots=True)
class _Trial:
    """One line as one choice of one question would make it."""

    question: str
    choice: str
    line: OrderLine


def choice_worths(orders: Sequence[Order], shop: Shop) -> dict[str, tuple[ChoiceWorth, ...]]:
    """Return for each question, by its id, what each choice would cost the customer and what blank it takes.

    Choices are compared on the plate of the blank by weight, without a nest, so that only the answer makes
    the difference. Questions without choices that lead to a line are left out, and so are those where all
    choices come to the same.
    """
    asked = [
        (question, choice, line)
        for order in orders
        for question in order.questions
        for choice, line in alternatives(order, question, shop)
    ]
    # one line is tried several times, and routes are told apart by the id of their line
    trials = [
        _Trial(question.id, choice.label, replace(line, id=f"{line.id} trial {number}"))
        for number, (question, choice, line) in enumerate(asked)
    ]
    routed = route_lines([trial.line for trial in trials], shop)
    found: dict[str, dict[str, list[LineRoutes]]] = defaultdict(lambda: defaultdict(list))
    for trial, routes in zip(trials, routed, strict=True):
        found[trial.question][trial.choice].append(routes)
    worths = {
        question: tuple(
            _worth(label, routes, shop, max(map(len, choices.values()))) for label, routes in choices.items()
        )
        for question, choices in found.items()
    }
    return {question: worth for question, worth in worths.items() if _differ(worth)}


def _worth(label: str, lines: Sequence[LineRoutes], shop: Shop, most: int) -> ChoiceWorth:
    """Price one choice; where it concerns several lines, those that can be done add up.

    `most` is the number of lines that another choice makes: fewer are not the same work.
    """
    prices = [_price(routes, shop) for routes in lines]
    known = [price for price in prices if price is not None]
    lost = [routes.line.number for routes, price in zip(lines, prices, strict=True) if price is None]
    first = lines[0].routes[0].plan.blanks[0] if lines[0].routes else None
    return ChoiceWorth(
        label=label,
        price=sum(known, Decimal(0)) if known else None,
        blank_width_mm=first.width_mm if first and len(lines) == 1 else None,
        blank_length_mm=first.flat_length_mm if first and len(lines) == 1 else None,
        problem=_without(lost, most - len(lines)) if known else _problem(lines),
    )


def _without(lost: Sequence[str], waiting: int) -> str:
    """Return which lines are not in a choice's price: those it makes impossible, those asked about again."""
    named = f"line{'s' if len(lost) > 1 else ''} {first_few(lost, _MOST_NAMED)}, which we could not do"
    asked = f"{waiting} line{'s' if waiting > 1 else ''} that we would have to ask about again"
    texts = [text for text, there in ((named, lost), (asked, waiting > 0)) if there]
    return f"without {' and '.join(texts)}" if texts else ""


def _price(found: LineRoutes, shop: Shop) -> Decimal | None:
    if not found.ok:
        return None
    share = by_weight(RoutedLine(found.line, found.routes[0]), shop)
    return price_of(cost_drivers(found.line, found.routes[0], share, shop), shop).extended


def _problem(lines: Sequence[LineRoutes]) -> str:
    for found in lines:
        if not found.routes:
            return found.problem
        if not found.ok:
            return found.routes[0].governing.verdict.reason
    return ""


def _differ(worth: Sequence[ChoiceWorth]) -> bool:
    return len({(choice.price, choice.problem) for choice in worth}) > 1
