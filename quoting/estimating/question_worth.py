"""What the answer to a question is worth: every choice priced, so that the customer sees why we ask."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from functools import partial

from quoting.core import Order, OrderLine, Sharing, first_few, one_by_one
from quoting.estimating.costing import cost_drivers, price_of
from quoting.estimating.line_work import as_made
from quoting.estimating.plates import PlateShare, RoutedLine, nest_problems, own_plate, share_costs
from quoting.estimating.result import ChoiceWorth, GroupNest
from quoting.estimating.routes import LineRoutes, route_lines
from quoting.intake import alternatives
from quoting.nesting import nest
from quoting.shop import Shop

_MOST_NAMED = 6
NOTHING_NESTED: Mapping[tuple[str, float], GroupNest] = {}


@dataclass(frozen=True, slots=True)
class _Trial:
    """One line as one choice of one question would make it; `stands_for` is the line's own id."""

    question: str
    choice: str
    stands_for: str
    line: OrderLine


def choice_worths(
    orders: Sequence[Order],
    shop: Shop,
    quoted: Sequence[RoutedLine] = (),
    today: date = date.min,
    *,
    known: Sequence[GroupNest] = (),
    share_out: Sharing = one_by_one,
) -> dict[str, tuple[ChoiceWorth, ...]]:
    """Return for each question, by its id, what each choice would add to the total as quoted.

    `quoted` are the lines priced in this run: with each choice the plates that it touches are nested again,
    quickly and as quickly without it, so that the difference is the answer's; nests of the run that were made
    as quickly are `known`. Questions without choices that
    lead to a line are left out, and so are those where all choices come to the same.
    """
    asked = [
        (question, choice, line)
        for order in orders
        for question in order.questions
        for choice, line in alternatives(order, question, shop)
    ]
    # one line is tried several times, and routes are told apart by the id of their line
    trials = [
        _Trial(
            question.id, choice.label, line.id, replace(as_made(line, shop), id=f"{line.id} trial {number}")
        )
        for number, (question, choice, line) in enumerate(asked)
    ]
    routed = route_lines([trial.line for trial in trials], shop)
    found: dict[str, dict[str, list[tuple[_Trial, LineRoutes]]]] = defaultdict(lambda: defaultdict(list))
    for trial, routes in zip(trials, routed, strict=True):
        found[trial.question][trial.choice].append((trial, routes))
    run = _Run(shop, quoted, today, share_out, known)
    run.work_out([tried for choices in found.values() for tried in choices.values()])
    worths = {
        question: tuple(
            _worth(label, tried, run, max(map(len, choices.values()))) for label, tried in choices.items()
        )
        for question, choices in found.items()
    }
    return {question: worth for question, worth in worths.items() if _differ(worth)}


_Tried = Sequence[tuple[_Trial, LineRoutes]]
"""The lines that one choice of one question makes, each with its routes."""


class _Run:
    """The lines as quoted, and what plates of them cost with some of the lines exchanged."""

    def __init__(
        self,
        shop: Shop,
        quoted: Sequence[RoutedLine],
        today: date,
        share_out: Sharing,
        known: Sequence[GroupNest],
    ) -> None:
        self.shop, self.quoted, self.today, self._share_out = shop, quoted, today, share_out
        self._nests = {(group.material, group.thickness_mm): group for group in known}
        self._known: dict[tuple[str, ...], tuple[Decimal, list[str]]] = {}

    def work_out(self, choices: Sequence[_Tried]) -> None:
        """Work out every total that these choices will ask for."""
        asked = [items for tried in choices for items in self._exchanged(tried)]
        wanted = {_key(items): items for items in asked}
        total = partial(_total, shop=self.shop, today=self.today)
        if self._nests:  # what was nested already costs nothing, and its nests need not travel
            ids = {item.line.id for item in self.quoted}
            before = [key for key in wanted if ids.issuperset(key)]
            self._known |= {key: total(wanted.pop(key), known=self._nests) for key in before}
        self._known |= zip(wanted, self._share_out(total, [*wanted.values()]), strict=True)

    def added(self, tried: _Tried) -> tuple[Decimal, list[str]]:
        """Return what a choice's lines add in place of their own, and which lines find no plate."""
        before, after = (self._known[_key(items)] for items in self._exchanged(tried))
        return after[0] - before[0], after[1]

    def _exchanged(self, tried: _Tried) -> tuple[list[RoutedLine], list[RoutedLine]]:
        """Return the quoted lines on plates that a choice touches, and these with the choice's lines in."""
        lines = [RoutedLine(routes.line, routes.routes[0]) for _, routes in tried if routes.ok]
        replaced = {trial.stands_for for trial, _ in tried}
        plates = {*map(_plate, lines), *(_plate(item) for item in self.quoted if item.line.id in replaced)}
        before = [item for item in self.quoted if _plate(item) in plates]
        return before, [*(item for item in before if item.line.id not in replaced), *lines]


def _key(items: Sequence[RoutedLine]) -> tuple[str, ...]:
    return tuple(item.line.id for item in items)


def _total(
    items: Sequence[RoutedLine],
    *,
    shop: Shop,
    today: date,
    known: Mapping[tuple[str, float], GroupNest] = NOTHING_NESTED,
) -> tuple[Decimal, list[str]]:
    """Return the price of lines nested together, and the numbers of the lines that no plate holds."""
    line_of = {blank.id: item.line.id for item in items for blank in item.route.plan.blanks}
    shares: dict[str, PlateShare] = {
        item.line.id: own_plate(item, shop) for item in items if item.line.free_issue
    }
    for problem in nest_problems(items, shop, today):
        fits = problem
        group = known.get((problem.material, problem.thickness_mm))
        if group is not None and group.problem == problem:
            shares |= share_costs(problem, group.nest, line_of, shop)
            continue
        while (cut := nest(fits, effort="quick")).unplaced:
            without = {line_of[piece.piece] for piece in cut.unplaced}
            fits = replace(fits, pieces=tuple(one for one in fits.pieces if line_of[one.id] not in without))
        if cut.cut_plates:
            shares |= share_costs(fits, cut, line_of, shop)
    prices = [
        price_of(cost_drivers(item.line, item.route, shares[item.line.id], shop), shop).extended
        for item in items
        if item.line.id in shares
    ]
    lost = [item.line.number for item in items if item.line.id not in shares]
    return sum(prices, Decimal(0)), lost


def _plate(item: RoutedLine) -> tuple[str, float]:
    return item.line.material, round(item.line.thickness_mm, 1)


def _worth(label: str, tried: _Tried, run: _Run, most: int) -> ChoiceWorth:
    """Price one choice; where it concerns several lines, those that can be done add up.

    `most` is the number of lines that another choice makes: fewer are not the same work.
    """
    lines = [routes for _, routes in tried]
    lost = [routes.line.number for routes in lines if not routes.ok]
    added, plateless = run.added(tried)
    lost += plateless
    known = sum(routes.ok for routes in lines) > len(plateless)
    first = lines[0].routes[0].plan.blanks[0] if lines[0].routes else None
    return ChoiceWorth(
        label=label,
        price=added if known else None,
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


def _problem(lines: Sequence[LineRoutes]) -> str:
    for found in lines:
        if not found.routes:
            return found.problem
        if not found.ok:
            return found.routes[0].governing.verdict.reason
    return ""


def _differ(worth: Sequence[ChoiceWorth]) -> bool:
    return len({(choice.price, choice.problem) for choice in worth}) > 1
