"""What the answer to a question is worth: every choice priced, so that the customer sees why we ask."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from functools import partial
from itertools import count

from quoting.core import Alternative, Effort, Order, OrderLine, Sharing, first_few, one_by_one
from quoting.estimating.costing import cost_drivers, price_of
from quoting.estimating.line_work import as_made
from quoting.estimating.plates import (
    GroupFound,
    PlateShare,
    RoutedLine,
    by_weight,
    nest_each,
    nest_problems,
    own_plate,
    share_costs,
)
from quoting.estimating.result import ChoiceWorth, GroupNest
from quoting.estimating.routes import LineRoutes, route_lines
from quoting.nesting import NestProblem
from quoting.shop import Shop

_MOST_NAMED = 6
_Search = tuple[Effort, int]
_AS_MUCH_AGAIN = 2
_FEW_PIECES, _FEW_QUICK_PIECES = 200, 2000
"""So many pieces, or twice those of the run, are nested again for answers as long as the run was, and so many
quickly; what more choices are worth is told about, from quick nests and then by the weight of blanks."""
_QUICK: _Search = ("quick", 0)
_BY_WEIGHT = None
_Plate = tuple[str, float]


@dataclass(frozen=True, slots=True)
class Quoted:
    """The lines priced in a run, the search that nested them, its nests, and each line's price."""

    lines: Sequence[RoutedLine] = ()
    search: _Search = _QUICK
    nests: Sequence[GroupNest] = ()
    prices: Mapping[str, Decimal] = field(default_factory=dict)


_Tried = Sequence[LineRoutes]
"""The lines that one choice of one question makes, each with its routes."""


def choice_worths(
    orders: Sequence[Order],
    shop: Shop,
    quoted: Quoted | None = None,
    today: date = date.min,
    *,
    share_out: Sharing = one_by_one,
    alternatives: Sequence[Alternative] | None = None,
) -> dict[str, tuple[ChoiceWorth, ...]]:
    """Return for each question, by its id, what each choice would add to the total as quoted.

    With each choice the plates that it touches are nested again as the run nested them, so that the worth is
    the difference to a run with that answer; where that is too much plate, quickly with and without
    the choice, or not at all and by the weight of the blanks, and the worth is not `exact`. Questions without
    choices that lead to a line are left out, and so are those where all choices come to the same.
    `alternatives` are the lines that the choices give where they are known.
    """
    known = alternatives_of(orders, shop) if alternatives is None else alternatives
    trials = [replace(one, line=as_made(one.line, shop)) for one in known]
    found: dict[str, dict[str, list[LineRoutes]]] = defaultdict(lambda: defaultdict(list))
    cannot = _cannot_be_made(orders, quoted)
    quoted = quoted or Quoted()
    routed = _routed([trial.line for trial in trials], shop, quoted, share_out)
    for trial, routes in zip(trials, routed, strict=True):
        found[trial.question][trial.choice].append(routes)
    run = _Run(shop, quoted, today, _places(orders), cannot)
    answered = run.work_out(found, share_out)
    most = {question: max(map(len, choices.values())) for question, choices in found.items()}
    worths = {
        question: tuple(
            _worth(label, tried, run.added(tried, answered[question]), most[question], run.cannot)
            for label, tried in choices.items()
        )
        for question, choices in found.items()
    }
    return {question: worth for question, worth in worths.items() if _differ(worth)}


def _cannot_be_made(orders: Sequence[Order], quoted: Quoted | None) -> frozenset[str]:
    """Return the lines that are not quoted though nothing is asked about them: no choice loses those."""
    if quoted is None:
        return frozenset()
    return frozenset(line.id for order in orders for line in order.lines) - quoted.prices.keys()


def alternatives_of(orders: Sequence[Order], shop: Shop) -> Sequence[Alternative]:
    """Return what every choice of every question would make of its lines."""
    if not any(order.questions for order in orders):
        return ()
    from quoting.intake import every_alternative  # noqa: PLC0415 - slow to load, won lines ask nothing

    return every_alternative(orders, shop)


def _routed(lines: Sequence[OrderLine], shop: Shop, quoted: Quoted, share_out: Sharing) -> list[LineRoutes]:
    """Return the best route of lines of which several may have one id, or the nearest attempt, in their
    order."""
    quoted_as = {item.line.id: item for item in quoted.lines}
    routed: dict[int, LineRoutes] = {}
    rounds: list[list[int]] = []
    met: dict[str, int] = defaultdict(int)
    for index, line in enumerate(lines):
        if (item := quoted_as.get(line.id)) and _made_alike(line, item, shop):
            routed[index] = LineRoutes(line, (item.route,))
            continue
        if met[line.id] == len(rounds):
            rounds.append([])
        rounds[met[line.id]].append(index)
        met[line.id] += 1
    batches = [[lines[index] for index in one] for one in rounds]
    for one, found in zip(rounds, share_out(partial(_best_routes, shop=shop), batches), strict=True):
        routed |= zip(one, found, strict=True)
    return [routed[index] for index in range(len(lines))]


def _made_alike(line: OrderLine, item: RoutedLine, shop: Shop) -> bool:
    """Return whether a line says what was taken for granted for its quoted twin, and was priced with."""
    ends, twin = shop.default_ends, item.line
    if not (twin.ends is None and line.ends is ends is item.route.ends):
        return False
    # where a text was read and what was taken for granted says nothing of how it is made
    return replace(line, ends=None, assumptions=twin.assumptions, readings=twin.readings) == twin


def _best_routes(lines: Sequence[OrderLine], *, shop: Shop) -> list[LineRoutes]:
    return [replace(found, routes=found.routes[:1]) for found in route_lines(lines, shop, offers=False)]


def _places(orders: Sequence[Order]) -> dict[str, int]:
    """Return where a line stands among all lines of the run, by its id, open ones too."""
    number = count()
    return {one.id: next(number) for order in orders for one in order.drafts or order.lines}


class _Run:
    """The lines as quoted, and what plates of them cost with some of the lines exchanged."""

    def __init__(
        self, shop: Shop, quoted: Quoted, today: date, places: Mapping[str, int], cannot: frozenset[str]
    ) -> None:
        self._shop, self._quoted, self._today, self._places = shop, quoted, today, places
        self.cannot = cannot
        self._on: dict[_Plate, list[RoutedLine]] = defaultdict(list)
        for item in quoted.lines:
            self._on[_plate(item)].append(item)
        self._plates = {item.line.id: _plate(item) for item in quoted.lines}
        self._nests: dict[_Search, dict[NestProblem, GroupFound]] = {_QUICK: {}, quoted.search: {}}
        self._nests[quoted.search] |= {one.problem: (one.problem, one.nest, {}) for one in quoted.nests}

    def work_out(
        self, found: Mapping[str, Mapping[str, _Tried]], share_out: Sharing
    ) -> dict[str, _Search | None]:
        """Nest the groups of plate that these choices ask for; return how each question is then answered."""
        search = self._quoted.search
        again = _AS_MUCH_AGAIN * sum(_pieces(one.problem) for one in self._quoted.nests)
        left = {_QUICK: max(_FEW_QUICK_PIECES, again)}
        left.setdefault(search, max(_FEW_PIECES, again))
        wanted: dict[_Search, dict[NestProblem, Sequence[RoutedLine]]] = {_QUICK: {}, search: {}}
        answered: dict[str, _Search | None] = {}
        for question, choices in found.items():
            touched = [groups for tried in choices.values() for groups in self._exchanged(tried)]
            after = self._problems([items for _, items in touched])
            both = after if search == _QUICK else after | self._problems([items for items, _ in touched])
            answered[question] = _BY_WEIGHT
            for how, problems in ((search, after), (_QUICK, both)):
                known = (self._nests[how], wanted[how])
                new = {one: items for one, items in problems.items() if not any(one in k for k in known)}
                pieces = sum(map(_pieces, new))
                if pieces <= left[how]:
                    answered[question] = how
                    wanted[how] |= new
                    left[how] -= pieces
                    break
        for how, problems in wanted.items():
            groups = [(problem, _line_of(items)) for problem, items in problems.items()]
            self._nests[how] |= zip(problems, nest_each(groups, how, share_out), strict=True)
        return answered

    def added(self, tried: _Tried, how: _Search | None) -> tuple[Decimal, list[str], bool]:
        """Return what a choice's lines add in place of their own, which lines find no plate, and whether the
        nests are those of a run with that answer.
        """
        if how is _BY_WEIGHT:
            return self._added_by_weight(tried), [], False
        exact = how == self._quoted.search
        added = Decimal(0)
        lost: list[str] = []
        for before, after in self._exchanged(tried):
            price, without = self._total(after, how)
            as_quoted = (self._quoted.prices.get(item.line.id, Decimal(0)) for item in before)
            added += price - (sum(as_quoted) if exact else self._total(before, _QUICK)[0])
            lost += without
        return added, lost, exact

    def _added_by_weight(self, tried: _Tried) -> Decimal:
        """Return what a choice's lines add in place of their own, their plate priced by its weight."""
        own = {routes.line.id for routes in tried}
        before = [item for item in self._quoted.lines if item.line.id in own & self._quoted.prices.keys()]
        after = [RoutedLine(routes.line, routes.routes[0]) for routes in tried if routes.ok]
        return self._by_weight(after) - self._by_weight(before)

    def _by_weight(self, items: Sequence[RoutedLine]) -> Decimal:
        shop = self._shop
        prices = (
            price_of(cost_drivers(one.line, one.route, by_weight(one, shop), shop), shop) for one in items
        )
        return sum((price.extended for price in prices), Decimal(0))

    def _exchanged(self, tried: _Tried) -> list[tuple[list[RoutedLine], list[RoutedLine]]]:
        """Return for each plate that a choice touches its quoted lines, and these with the choice's lines."""
        lines = [RoutedLine(routes.line, routes.routes[0]) for routes in tried if routes.ok]
        own = {routes.line.id for routes in tried}
        plates = {*map(_plate, lines), *(self._plates[one] for one in own if one in self._plates)}
        found = []
        for plate in sorted(plates):
            before = self._on.get(plate, [])
            after = [item for item in before if item.line.id not in own]
            after += [item for item in lines if _plate(item) == plate]
            found.append((before, sorted(after, key=lambda item: self._places.get(item.line.id, 0))))
        return found

    def _problems(self, groups: Sequence[Sequence[RoutedLine]]) -> dict[NestProblem, Sequence[RoutedLine]]:
        """Return what is to be nested of groups of one plate each, and whose it is."""
        return {one: items for items in groups for one in nest_problems(items, self._shop, self._today)}

    def _total(self, items: Sequence[RoutedLine], search: _Search) -> tuple[Decimal, list[str]]:
        """Return the price of lines of one plate, and the numbers of lines that no plate holds any more."""
        shop = self._shop
        shares: dict[str, PlateShare] = {
            item.line.id: own_plate(item, shop) for item in items if item.line.free_issue
        }
        for problem in nest_problems(items, shop, self._today):
            kept, found, _ = self._nests[search][problem]
            if found.cut_plates:
                shares |= share_costs(kept, found, _line_of(items), shop)
        prices = [
            price_of(cost_drivers(item.line, item.route, shares[item.line.id], shop), shop).extended
            for item in items
            if item.line.id in shares
        ]
        lost = [
            item.line.number
            for item in items
            if item.line.id not in shares and item.line.id not in self.cannot
        ]
        return sum(prices, Decimal(0)), lost


def _line_of(items: Sequence[RoutedLine]) -> dict[str, str]:
    return {blank.id: item.line.id for item in items for blank in item.route.plan.blanks}


def _pieces(problem: NestProblem) -> int:
    return sum(piece.quantity for piece in problem.pieces)


def _plate(item: RoutedLine) -> _Plate:
    return item.line.material, round(item.line.thickness_mm, 1)


def _worth(
    label: str,
    tried: _Tried,
    added: tuple[Decimal, list[str], bool],
    most: int,
    cannot: frozenset[str],
) -> ChoiceWorth:
    """Price one choice; where it concerns several lines, those that can be done add up.

    `most` is the number of lines that another choice makes: fewer are not the same work. Lines that `cannot`
    be made as quoted either are not lost by a choice.
    """
    price, plateless, exact = added
    lost = [one.line.number for one in tried if not one.ok and one.line.id not in cannot] + plateless
    known = sum(routes.ok for routes in tried) > len(plateless)
    first = tried[0].routes[0].plan.blanks[0] if tried[0].routes else None
    return ChoiceWorth(
        label=label,
        price=price if known else None,
        blank_width_mm=first.width_mm if first and len(tried) == 1 else None,
        blank_length_mm=first.flat_length_mm if first and len(tried) == 1 else None,
        problem=_without(lost, most - len(tried)) if known else _problem(tried),
        exact=exact,
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
