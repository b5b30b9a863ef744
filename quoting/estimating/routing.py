"""How each line is made: courses, seams and ends, on which roll, by which passes, and how long that takes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from math import inf

from quoting.blanks import BlankPlan, cone_form, develop, sensible_splits
from quoting.core import Cone, Ends, OrderLine, RangeError
from quoting.estimating.judging import physical_problem, route_flags, trouble
from quoting.estimating.result import Rolling, Route
from quoting.estimating.stocking import sides_to_grain, stock_for
from quoting.forming import PassPlan, RollTask, Verdict, assess_many, cone_segments, pass_counts, plan_many
from quoting.labour import HandlingTask, PieceSize, choose_lift, roll_minutes, trial_passes
from quoting.shop import Edge, Roll, Shop, StockPlate

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


@dataclass(frozen=True, slots=True)
class _Attempt:
    """One line on one roll with one split and one end treatment, before its verdict is known."""

    line: OrderLine
    roll: Roll
    ends: Ends
    plan: BlankPlan


def route_lines(lines: Sequence[OrderLine], shop: Shop) -> tuple[LineRoutes, ...]:
    """Return the routes of every line. All attempts of a round are judged together, because that is fast.

    First the fewest pieces and the wanted ends on every roll; for lines that no roll can do so, extra length
    to be trimmed off, where the customer has not fixed the ends. A line still stuck is not priced: what more
    courses or seams would do is only offered, because every seam is the customer's to weld.
    """
    wanted = {line.id: _attempts_on_all(line, line.ends or shop.default_ends, shop, FEWEST) for line in lines}
    routes = _judge([attempt for attempts in wanted.values() for attempt in attempts], shop)
    trimmed = [line for line in _stuck(lines, routes) if _may_trim(line, shop)]
    routes = _joined(routes, _judge_all(trimmed, Ends.TRIM, shop, FEWEST))
    routes = _own_trims(lines, routes, shop)
    stuck = _stuck(lines, routes)
    nearest = _with_ways_out([(line, routes.get(line.id, [])) for line in stuck], shop)
    offers = _joined(
        _judge_all(stuck, None, shop, slice(1, MOST_SPLITS)), _longer_and_cut(stuck, nearest, shop)
    )
    return tuple(
        _outcome(
            line,
            nearest.get(line.id) or routes.get(line.id, []),
            offers.get(line.id, []),
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
        _with_trims(line_of[id], route, shop) for id, found in known.items() for route in found if route.ok
    ]
    closer = _judge([attempt for attempt in attempts if attempt], shop)
    return {
        id: [route for route in found if not (closer.get(id) and route.ok and _has_flats(route))]
        + closer.get(id, [])
        for id, found in routes.items()
    }


def _has_flats(route: Route) -> bool:
    lead = [rolling.passes.flat_lead_mm for rolling in route.rollings]
    return route.ends is Ends.TRIM and None not in lead


def _with_trims(line: OrderLine, route: Route, shop: Shop) -> _Attempt | None:
    """Return the same split with the flats of its own plan as trim, and long enough to be held at all."""
    plans = [rolling.passes for rolling in route.rollings]
    lead = max(plan.flat_lead_mm or 0.0 for plan in plans)
    tail = max(plan.flat_tail_mm for plan in plans)
    shortest = min(rolling.blank.girth_mm for rolling in route.rollings)
    least = max(plan.least_length_mm or 0.0 for plan in plans)
    lead = max(lead, least - shortest - tail)
    plan = _develop(line, shop, Ends.TRIM, route.plan.courses, route.plan.seams, (lead, tail))
    return None if plan is None else _Attempt(line, shop.roll(route.roll), Ends.TRIM, plan)


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
        for attempt in _attempts_on_all(line, ends or line.ends or shop.default_ends, shop, which)
    ]
    return _judge(attempts, shop)


def _attempts_on_all(line: OrderLine, ends: Ends, shop: Shop, which: slice) -> list[_Attempt]:
    return [attempt for roll in shop.rolls for attempt in _attempts(line, roll, ends, shop, which)]


def _outcome(
    line: OrderLine, routes: Sequence[Route], offers: Sequence[Route], tried: bool, shop: Shop
) -> LineRoutes:
    if not tried:
        return LineRoutes(line, (), _no_attempt(line, shop))
    able = sorted((route for route in routes if route.ok), key=lambda route: _preference(route, shop))
    if not able:
        working = sorted((route for route in offers if route.ok), key=lambda route: _preference(route, shop))
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
        _Attempt(line, shop.roll(route.roll), route.ends, route.plan)
        for line, routes in stuck
        for route in sorted(routes, key=_nearness)[:MOST_NEAREST]
    ]
    return _judge(attempts, shop, ways_out=True)


def _nearness(route: Route) -> tuple[float, str]:
    """Order by the limit that is exceeded; what is only too short or too large is nearer than any of them."""
    verdict = route.governing.verdict
    return 0.0 if verdict.ok else verdict.used, route.roll


def _preference(route: Route, shop: Shop) -> tuple[int, bool, Decimal, str]:
    """Order by seams first, because somebody has to weld each of them, then by expected cost.

    A roll that is too likely to be too weak comes after all others, whatever it costs.
    """
    risky = route.trouble_chance > shop.risk.most_trouble_chance
    return route.plan.pieces_per_part, risky, route.rough_cost + route.trouble_cost, route.roll


def _attempts(line: OrderLine, roll: Roll, ends: Ends, shop: Shop, which: slice) -> list[_Attempt]:
    trim = trim_length(roll) if ends is Ends.TRIM else 0.0
    grain = line.grain_along or shop.material(line.material).grain_matters
    segments = _least_segments(line, shop)
    splits: set[tuple[int, int]] = set()
    for widest, longest in usable_sizes(line, shop):
        splits.update(
            sensible_splits(
                line.shape,
                line.thickness_mm,
                widest_mm=widest,
                longest_mm=longest,
                roll_length_mm=roll.working_length_mm,
                trim_mm=trim,
                turn=not grain,
                least_seams=segments,
            )
        )
    ordered = sorted(splits, key=lambda split: (split[0] * split[1], split))[which]
    attempts = []
    for courses, seams in ordered:
        plan = _develop(line, shop, ends, courses, seams, (trim, trim))
        if plan is not None:
            attempts.append(_Attempt(line, roll, ends, plan))
    return attempts


def _least_segments(line: OrderLine, shop: Shop) -> int:
    """Return the segments that a steep cone is rolled in by the shop's rule; 1 for everything else."""
    if not isinstance(line.shape, Cone):
        return 1
    return cone_segments(cone_form(line.shape, line.thickness_mm), shop.passes.cone_split_ratio)


def _develop(
    line: OrderLine, shop: Shop, ends: Ends, courses: int, seams: int, trims_mm: tuple[float, float]
) -> BlankPlan | None:
    """Return the blanks of one split, None when nothing would be left of a piece."""
    try:
        return develop(
            line.shape,
            line.thickness_mm,
            shop.material(line.material).density_kg_m3,
            ends=ends,
            courses=courses,
            seams=seams,
            weld_gap_mm=shop.default_weld_gap_mm if line.weld_gap_mm is None else line.weld_gap_mm,
            trim_mm=trims_mm[0],
            trim_tail_mm=trims_mm[1],
            id=line.id,
        )
    except RangeError:
        return None


def trim_length(roll: Roll) -> float:
    """Return the extra length at each end, mm, that covers the flat this roll leaves without a pre-bend.

    The flat ends where the plate touches the bending roll, so it is shorter than the distance of the slide
    from the nip; a roll without slide geometry is taken to stand one top-roll diameter away.
    """
    return roll.slide.offset_mm if roll.slide else roll.top_roll_mm


def usable_sizes(line: OrderLine, shop: Shop) -> tuple[tuple[float, float], ...]:
    """Return usable (width, length) in mm of the plates worth splitting for, none of them inside another."""
    if line.free_issue:
        return ((inf, inf),)
    sizes = {_usable(plate, shop) for plate in stock_for(shop, line.material, line.thickness_mm)}
    usable = [size for size in sizes if min(size) > 0]
    return tuple(
        sorted(
            size
            for size in usable
            if not any(other != size and other[0] >= size[0] and other[1] >= size[1] for other in usable)
        )
    )


def _usable(plate: StockPlate, shop: Shop) -> tuple[float, float]:
    margin = shop.cutting.mill_trim_mm if plate.edge is Edge.MILL else 0.0
    if plate.thickness_mm > shop.cutting.shear_up_to_mm:
        margin = max(margin, shop.cutting.edge_margin_mm)
    across, along = sides_to_grain(plate)
    return across - 2 * margin, along - 2 * margin


def _no_attempt(line: OrderLine, shop: Shop) -> str:
    if not usable_sizes(line, shop):
        return "no plate of this material and thickness in the rack or among the sizes we can buy"
    return "no plate holds the blank, in one piece or in segments"


def _judge(attempts: Sequence[_Attempt], shop: Shop, *, ways_out: bool = False) -> dict[str, list[Route]]:
    """Return a route for every attempt, by line id, each with verdicts, passes, lifts and minutes."""
    routes: dict[str, list[Route]] = {}
    by_roll: dict[str, list[_Attempt]] = {}
    for attempt in attempts:
        by_roll.setdefault(attempt.roll.name, []).append(attempt)
    for roll in shop.rolls:
        for attempt, route in _judge_on(by_roll.get(roll.name, []), roll, shop, ways_out):
            routes.setdefault(attempt.line.id, []).append(route)
    return routes


def _judge_on(
    attempts: Sequence[_Attempt], roll: Roll, shop: Shop, ways_out: bool
) -> Iterable[tuple[_Attempt, Route]]:
    tasks = [
        RollTask.of(
            blank,
            shop.material(attempt.line.material),
            attempt.line.yield_mpa,
            re_round=attempt.line.re_round,
        )
        for attempt in attempts
        for blank in attempt.plan.blanks
    ]
    if not tasks:
        return
    verdicts = assess_many(tasks, roll, shop.passes, ways_out=ways_out)
    plans = plan_many(tasks, roll, shop.passes, verdicts)
    repeats = pass_counts([replace(task, first_off=False) for task in tasks], shop.passes, verdicts)
    found = iter(zip(verdicts, plans, repeats.tolist(), strict=True))
    for attempt in attempts:
        rollings = tuple(
            _rolling(attempt, index, shop, *next(found)) for index in range(len(attempt.plan.blanks))
        )
        problem = physical_problem(rollings, shop, inch=shop.inch)
        cost = _rough_cost(attempt, rollings, shop)
        chance, trouble_cost = trouble(attempt.line, rollings, roll, shop)
        flags = route_flags(rollings, chance, shop)
        yield (
            attempt,
            Route(
                roll.name, attempt.ends, attempt.plan, rollings, cost, problem, flags, chance, trouble_cost
            ),
        )


def _rolling(
    attempt: _Attempt, index: int, shop: Shop, verdict: Verdict, plan: PassPlan, passes_repeat: int
) -> Rolling:
    blank = attempt.plan.blanks[index]
    quantity = blank.per_part * attempt.line.quantity
    lift = choose_lift(blank.weight_kg, blank.thickness_mm, PieceSize.of(blank), shop.lifting)
    task = HandlingTask(
        blank=blank,
        quantity=quantity,
        passes=plan.rolling_passes,
        pre_bend=attempt.ends is Ends.PRE_BEND,
        lift=lift,
        roll_speed_mm_min=attempt.roll.surface_speed_mm_min,
        passes_repeat=passes_repeat,
        re_rolls=plan.re_rolls if attempt.line.re_round else 0,
        tack=attempt.line.seam == "tacked",
        trials=trial_passes(plan.spread, shop.passes),
    )
    return Rolling(blank, quantity, verdict, plan, lift, task, roll_minutes(task, shop.labour))


def _rough_cost(attempt: _Attempt, rollings: Sequence[Rolling], shop: Shop) -> Decimal:
    """Return money for choosing between routes: metal by weight, minutes by the people and the roll."""
    material = shop.material(attempt.line.material)
    kg = sum(rolling.blank.weight_kg * rolling.quantity for rolling in rollings)
    metal = Decimal(0) if attempt.line.free_issue else Decimal(str(kg)) * material.price_per_kg
    work = sum((_hours_cost(rolling, attempt.roll, shop) for rolling in rollings), Decimal(0))
    return metal + work


def _hours_cost(rolling: Rolling, roll: Roll, shop: Shop) -> Decimal:
    hour = roll.rate_per_hour + shop.rates.operator_hour + shop.rates.helper_hour * (rolling.lift.crew - 1)
    return Decimal(str(rolling.minutes.total.likely)) / 60 * hour
