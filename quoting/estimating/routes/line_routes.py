"""How each line is made: courses, seams and ends, on which roll, by which passes, and how long that takes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from quoting.core import Ends, OrderLine
from quoting.estimating.result import Route
from quoting.estimating.routes.attempts import Attempt, attempts_on_all, no_attempt, with_trims
from quoting.estimating.routes.judged_routes import judge_attempts
from quoting.shop import Shop

MOST_SPLITS = 3
"""How many ways to split a part into courses and seams are tried on one roll, the fewest pieces first."""

FEWEST = slice(0, 1)

MOST_NEAREST = 3
"""How many of the attempts that failed are kept to say what the nearest thing is."""


@dataclass(frozen=True, slots=True)
class LineRoutes:
    """The routes found for one line: those that work, cheapest first, or else the nearest attempts.

    `problem` says in words why nothing could even be tried (no plate, no split that fits). `offers` are
    routes with more courses or seams that would work, for a line that is not priced.
    """

    line: OrderLine
    routes: tuple[Route, ...]
    problem: str = ""
    offers: tuple[Route, ...] = ()

    @property
    def ok(self) -> bool:
        """Return whether at least one roll can do the line."""
        return bool(self.routes) and self.routes[0].ok


def route_lines(lines: Sequence[OrderLine], shop: Shop, *, offers: bool = True) -> tuple[LineRoutes, ...]:
    """Return the routes of every line. All attempts of a round are judged together, because that is fast.

    First the fewest pieces and the wanted ends on every roll; for lines that no roll can do so, extra length
    to be trimmed off, where the customer has not fixed the ends. A line still stuck is not priced: what more
    courses or seams would do is only offered, because every seam is the customer's to weld. Without `offers`
    a line still stuck has its nearest attempts and no more: no ways out of them, no offers.
    """
    wanted = {line.id: attempts_on_all(line, line.ends or shop.default_ends, shop, FEWEST) for line in lines}
    routes = judge_attempts([attempt for attempts in wanted.values() for attempt in attempts], shop)
    trimmed = [line for line in _stuck(lines, routes) if _may_trim(line, shop)]
    routes = _joined(routes, _judge_all(trimmed, Ends.TRIM, shop, FEWEST))
    routes = _own_trims(lines, routes, shop)
    stuck = _stuck(lines, routes) if offers else []
    nearest = _with_ways_out([(line, routes.get(line.id, [])) for line in stuck], shop)
    more = slice(1, MOST_SPLITS)
    cut = [line for line in stuck if _may_trim(line, shop)]
    offered = _joined(
        _judge_all(stuck, None, shop, more),
        _own_trims(cut, _judge_all(cut, Ends.TRIM, shop, more), shop),
        _longer_and_cut(stuck, nearest, shop),
    )
    return tuple(
        _outcome(
            line,
            nearest.get(line.id) or routes.get(line.id, []),
            offered.get(line.id, []),
            bool(wanted[line.id]),
            shop,
        )
        for line in lines
    )


def _own_trims(
    lines: Sequence[OrderLine], routes: Mapping[str, list[Route]], shop: Shop
) -> dict[str, list[Route]]:
    """Return the routes with each end's trim cut down to the flat that this end really keeps.

    The first blank has room for the distance of the slide at both ends; only a plan tells the flats.
    """
    line_of = {line.id: line for line in lines}
    known = {id: [route for route in found if _has_flats(route)] for id, found in routes.items()}
    attempts = [
        with_trims(line_of[id], route, shop) for id, found in known.items() for route in found if route.ok
    ]
    closer = judge_attempts([attempt for attempt in attempts if attempt], shop)
    return {
        id: [route for route in found if not (closer.get(id) and route.ok and _has_flats(route))]
        + closer.get(id, [])
        for id, found in routes.items()
    }


def _has_flats(route: Route) -> bool:
    lead = [rolling.passes.flat_lead_mm for rolling in route.rollings]
    return route.ends is Ends.TRIM and None not in lead


def _longer_and_cut(
    stuck: Sequence[OrderLine], nearest: Mapping[str, list[Route]], shop: Shop
) -> dict[str, list[Route]]:
    """Return the way out of a piece that is too short: rolled with extra length, which is cut off again."""
    short = [
        line
        for line in stuck
        if line.ends is not Ends.TRIM
        and any(route.problem and route.governing.verdict.ok for route in nearest.get(line.id, []))
    ]
    return _own_trims(short, _judge_all(short, Ends.TRIM, shop, FEWEST), shop)


def _may_trim(line: OrderLine, shop: Shop) -> bool:
    return line.ends is None and shop.default_ends is Ends.PRE_BEND


def _stuck(lines: Sequence[OrderLine], routes: Mapping[str, list[Route]]) -> list[OrderLine]:
    return [line for line in lines if not any(route.ok for route in routes.get(line.id, []))]


def _joined(*found: Mapping[str, list[Route]]) -> dict[str, list[Route]]:
    joined: dict[str, list[Route]] = {}
    for routes in found:
        for id, more in routes.items():
            joined.setdefault(id, []).extend(more)
    return joined


def _judge_all(
    lines: Sequence[OrderLine], ends: Ends | None, shop: Shop, which: slice
) -> dict[str, list[Route]]:
    """Return judged routes of these lines on all rolls; `ends` None takes the wanted ones."""
    attempts = [
        attempt
        for line in lines
        for attempt in attempts_on_all(line, ends or line.ends or shop.default_ends, shop, which)
    ]
    return judge_attempts(attempts, shop)


def _outcome(
    line: OrderLine, routes: Sequence[Route], offers: Sequence[Route], tried: bool, shop: Shop
) -> LineRoutes:
    if not tried:
        return LineRoutes(line, (), no_attempt(line, shop))
    able = sorted((route for route in routes if route.ok), key=lambda route: _preference(route, shop))
    if not able:
        working = sorted((route for route in offers if route.ok), key=lambda route: _offered(route, shop))
        return LineRoutes(line, tuple(sorted(routes, key=_nearness)), offers=tuple(working[:1]))
    best = able[0]
    others = [
        route
        for route in able[1:]
        if route.roll != best.roll and route.ends is best.ends and route.plan.blanks == best.plan.blanks
    ]
    return LineRoutes(line, (best, *others))


def _with_ways_out(stuck: Sequence[tuple[OrderLine, Sequence[Route]]], shop: Shop) -> dict[str, list[Route]]:
    """Return the nearest failed attempts of each stuck line, judged again with their ways out."""
    attempts = [
        Attempt(line, shop.roll(route.roll), route.ends, route.plan)
        for line, routes in stuck
        for route in sorted(routes, key=_nearness)[:MOST_NEAREST]
    ]
    return judge_attempts(attempts, shop, ways_out=True)


def _nearness(route: Route) -> tuple[float, str]:
    """Order by the limit that is exceeded; what is only too short or too large is nearer than any of them."""
    verdict = route.governing.verdict
    return 0.0 if verdict.ok else verdict.used, route.roll


def _offered(route: Route, shop: Shop) -> tuple[int, bool, tuple[int, bool, Decimal, str]]:
    """Order offers by seams, then without ends to cut off, whose work is not in the rough cost."""
    return route.plan.pieces_per_part, route.ends is Ends.TRIM, _preference(route, shop)


def _preference(route: Route, shop: Shop) -> tuple[int, bool, Decimal, str]:
    """Order by seams first, because somebody has to weld each of them, then by expected cost.

    A roll that is too likely to be too weak comes after all others, whatever it costs.
    """
    risky = route.trouble_chance > shop.risk.most_trouble_chance
    return route.plan.pieces_per_part, risky, route.rough_cost + route.trouble_cost, route.roll
