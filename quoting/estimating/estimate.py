"""The one path from order lines to prices: routes, nests, shares, costs, prices, totals.

Nothing here reads a file or the clock; the same orders, shop, effort and seed give the same estimate.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date
from functools import partial

from quoting.core import (
    ALONE,
    Alternative,
    Doing,
    Effort,
    Ends,
    Hands,
    Order,
    OrderLine,
    Question,
    Sharing,
    State,
    first_few,
    format_length,
)
from quoting.estimating.costing import break_plans, cost_drivers, line_breaks, line_cautions, price_of
from quoting.estimating.large_totals import large_totals
from quoting.estimating.line_work import as_made, line_work
from quoting.estimating.plates import (
    NestedGroups,
    PlateShare,
    RoutedLine,
    all_by_weight,
    by_weight,
    nest_groups,
)
from quoting.estimating.plates_wanted import plates_wanted
from quoting.estimating.press_offer import PressOffer, press_offer
from quoting.estimating.question_worth import Quoted, alternatives_of, choice_worths
from quoting.estimating.result import BreakPlan, Estimate, LineResult, OrderEstimate, Route
from quoting.estimating.route_words import ends_words, offer_words, pieces_words
from quoting.estimating.routes import NOT_IN_RACK, LineRoutes, route_lines
from quoting.pricing import LinePrice, total_order
from quoting.shop import Shop


def estimate(
    orders: Sequence[Order],
    shop: Shop,
    *,
    today: date,
    effort: Effort = "normal",
    seed: int = 0,
    nested: bool = True,
    hands: Hands = ALONE,
) -> Estimate:
    """Return everything that can be said about these orders: routes, nests, prices, totals.

    With `nested` False nothing is nested: plate is priced by the weight of the blanks at the grade's price.
    `hands` share out groups of plate, break quantities and choices, which do not depend on each other.
    """
    found, quoted = priced(orders, shop, today=today, effort=effort, seed=seed, nested=nested, hands=hands)
    return with_worths(found, quoted, hands.share_out) if nested else found


def priced(
    orders: Sequence[Order],
    shop: Shop,
    *,
    today: date,
    effort: Effort = "normal",
    seed: int = 0,
    nested: bool = True,
    hands: Hands = ALONE,
) -> tuple[Estimate, Quoted]:
    """Return what `estimate` does but what the choices of the questions are worth, and what that is worked
    out from.
    """
    lines = [as_made(line, shop) for order in orders for line in order.lines]
    hands.say(Doing(f"working out {len(lines)} line{'s' * (len(lines) != 1)} on {len(shop.rolls)} rolls"))
    routed = route_lines(lines, shop)
    able = [RoutedLine(found.line, found.routes[0]) for found in routed if found.ok]
    plates = nest_groups(able, shop, today, (effort, seed), hands) if nested else all_by_weight(able, shop)
    hands.say(Doing("pricing"))
    plans = _break_plans(routed, plates, shop, hands.share_out)
    results = {found.line.id: _result(found, plates, plans, shop) for found in routed}
    totals = tuple(_order(order, results, shop) for order in orders)
    prices = {key: found.price.extended for key, found in results.items() if found.price is not None}
    found = Estimate(
        shop=shop,
        today=today,
        effort=effort,
        seed=seed,
        orders=totals,
        nests=plates.groups,
        worth={},
        warnings=(*shop.warnings, *large_totals(totals, shop)),
    )
    return found, Quoted(able, (effort, seed), plates.groups, prices)


def with_worths(
    found: Estimate, quoted: Quoted, share_out: Sharing, alternatives: Sequence[Alternative] | None = None
) -> Estimate:
    """Return an estimate with what the choices of its questions are worth, and the plates to ask for;
    `alternatives` are the lines that the choices give, where that is known."""
    orders = [order.order for order in found.orders]
    known = alternatives_of(orders, found.shop) if alternatives is None else alternatives
    worth = choice_worths(orders, found.shop, quoted, found.today, share_out=share_out, alternatives=known)
    return replace(found, worth=worth, wanted=plates_wanted(found, known))


def _order(order: Order, results: Mapping[str, LineResult], shop: Shop) -> OrderEstimate:
    lines = tuple(results[line.id] for line in order.lines)
    prices: list[LinePrice] = [line.price for line in lines if line.price is not None]
    questions = tuple(_as_priced(question, lines, shop) for question in order.questions)
    return OrderEstimate(order, lines, questions, total_order(prices, shop.pricing))


def _as_priced(question: Question, lines: Sequence[LineResult], shop: Shop) -> Question:
    """Return the question about the ends of silent lines with what each of them was really priced with."""
    if question.line or not question.id.endswith("/ends"):
        return question
    other: dict[Ends, list[str]] = {}
    for result in lines:
        route = result.route
        if result.line.ends is None and result.price and route and route.ends is not shop.default_ends:
            other.setdefault(route.ends, []).append(result.line.number)
    said = [
        f"{ends} on line{'s' * (len(numbers) > 1)} {first_few(numbers, 8)}" for ends, numbers in other.items()
    ]
    return replace(question, assumed="; ".join([question.assumed, *said])) if said else question


def _break_plans(
    routed: Sequence[LineRoutes], plates: NestedGroups, shop: Shop, share_out: Sharing
) -> dict[str, tuple[BreakPlan, ...]]:
    """Return by line what it takes at other quantities."""
    able = [found for found in routed if found.ok and found.line.id not in plates.left_out]
    tasks = [(found.line, found.routes[0], plates.shares[found.line.id]) for found in able]
    plans = share_out(partial(_plans_of, shop=shop, nested=bool(plates.groups)), tasks)
    return {found.line.id: made for found, made in zip(able, plans, strict=True)}


def _plans_of(
    task: tuple[OrderLine, Route, PlateShare], *, shop: Shop, nested: bool
) -> tuple[BreakPlan, ...]:
    return break_plans(*task, shop, nested=nested)


def _result(
    found: LineRoutes, plates: NestedGroups, breaks: Mapping[str, tuple[BreakPlan, ...]], shop: Shop
) -> LineResult:
    line = found.line
    if not found.ok:
        return _no_quote(found, shop)
    if line.id in plates.left_out:
        return LineResult(line, State.NO_QUOTE, plates.left_out[line.id], routes=found.routes)
    route = found.routes[0]
    share = plates.shares[line.id]
    drivers = cost_drivers(line, route, share, shop)
    price = price_of(drivers, shop)
    plans = breaks[line.id]
    longer = route.ends is Ends.TRIM and line.ends is not Ends.TRIM
    pressed = _press_offers(found, shop) if longer else ()
    return LineResult(
        line=line,
        state=State.PRICED,
        routes=found.routes,
        setup_minutes=drivers.setup_minutes,
        drivers=drivers,
        price=price,
        breaks=line_breaks(price, plans, shop),
        cautions=line_cautions(line, route, shop),
        assumptions=(*line.assumptions, *_assumptions(line, route, shop)),
        plates=share.plates,
        plate_kg=share.plate_kg,
        break_plans=plans,
        offers=tuple(offer.words for offer in pressed),
        told=tuple(offer.words for offer in pressed if _told(offer, price, shop)),
        work=line_work(line, route, shop),
    )


def _no_quote(found: LineRoutes, shop: Shop) -> LineResult:
    if not found.routes:  # without a price of the plate nothing is known of it, and nothing is refused
        waits = found.problem == NOT_IN_RACK
        return LineResult(found.line, State.QUESTION if waits else State.NO_QUOTE, found.problem)
    offers = [_offer(found.line, route, shop) for route in found.offers]
    offers += [offer.words for offer in _press_offers(found, shop)]
    nearest = dict.fromkeys(offers)
    for route in found.routes:
        for way in route.governing.verdict.ways_out_in(lambda mm: format_length(mm, inch=shop.inch)):
            nearest[f"{route.roll}: {way}"] = None
    first = found.routes[0]
    reason = f"{first.problem or first.governing.verdict.reason} ({first.roll}, the nearest of our rolls)"
    return LineResult(found.line, State.NO_QUOTE, reason, tuple(nearest), found.routes, offers=tuple(offers))


def _told(offer: PressOffer, price: LinePrice, shop: Shop) -> bool:
    """Return whether the customer hears of the press: it is cheaper, and the shop wants it said."""
    return shop.operations.press.offer_cheaper and offer.unit < price.unit


def _press_offers(found: LineRoutes, shop: Shop) -> tuple[PressOffer, ...]:
    """Return what a press would cost for a piece that the rolls can only make longer; at most one."""
    offer = press_offer(found.line, found.routes[0], shop)
    return (offer,) if offer else ()


def _offer(line: OrderLine, route: Route, shop: Shop) -> str:
    """Return a route that would work, with about what it costs: plate by weight, nothing nested."""
    drivers = cost_drivers(line, route, by_weight(RoutedLine(line, route), shop), shop)
    price = price_of(drivers, shop).unit
    return f"{offer_words(route)}, about {price:,.0f} {shop.rates.currency} each"


def _not_welded(line: OrderLine, route: Route) -> str:
    """Return which seams of a part in several pieces we do not weld."""
    if line.weld is None:
        return ", not welded by us"
    left = "girth seams" if route.plan.courses > 1 and not line.weld.girth_seams else ""
    left = left or ("long seams" if not line.weld.long_seam else "")
    return f", {left} not welded by us" if left else ""


def _assumptions(line: OrderLine, route: Route, shop: Shop) -> tuple[str, ...]:
    """Return what the customer should know that we took for granted."""
    said = [ends_words(route, inch=shop.inch)]
    if route.plan.pieces_per_part > 1:
        said.append(f"made in {pieces_words(route.plan)}{_not_welded(line, route)}")
    if not line.re_round and route.rollings[0].blank.closed:
        said.append("as rolled, not re-rounded after welding")
    return tuple(said)
