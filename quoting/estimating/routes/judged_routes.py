"""Attempts judged together on each roll: verdicts, passes, lifts, minutes and what they roughly cost."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from decimal import Decimal

from quoting.core import Ends
from quoting.estimating.judging import physical_problem, route_flags, trouble
from quoting.estimating.result import Rolling, Route
from quoting.estimating.routes.attempts import Attempt
from quoting.forming import PassPlan, RollTask, Verdict, assess_many, pass_counts, plan_many
from quoting.labour import HandlingTask, PieceSize, choose_lift, roll_minutes, trial_passes
from quoting.shop import Roll, Shop


def judge_attempts(
    attempts: Sequence[Attempt], shop: Shop, *, ways_out: bool = False
) -> dict[str, list[Route]]:
    """Return a route for every attempt, by line id, each with verdicts, passes, lifts and minutes."""
    routes: dict[str, list[Route]] = {}
    by_roll: dict[str, list[Attempt]] = {}
    for attempt in attempts:
        by_roll.setdefault(attempt.roll.name, []).append(attempt)
    for roll in shop.rolls:
        for attempt, route in _judge_on(by_roll.get(roll.name, []), roll, shop, ways_out):
            routes.setdefault(attempt.line.id, []).append(route)
    return routes


def _judge_on(
    attempts: Sequence[Attempt], roll: Roll, shop: Shop, ways_out: bool
) -> Iterable[tuple[Attempt, Route]]:
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
        flags = route_flags(attempt.line, rollings, chance, shop)
        yield (
            attempt,
            Route(
                roll.name, attempt.ends, attempt.plan, rollings, cost, problem, flags, chance, trouble_cost
            ),
        )


def _rolling(
    attempt: Attempt, index: int, shop: Shop, verdict: Verdict, plan: PassPlan, passes_repeat: int
) -> Rolling:
    blank = attempt.plan.blanks[index]
    quantity = blank.per_part * attempt.line.quantity
    lift = choose_lift(blank.weight_kg, blank.thickness_mm, PieceSize.of(blank), shop.lifting, inch=shop.inch)
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
        inch=shop.inch,
    )
    return Rolling(blank, quantity, verdict, plan, lift, task, roll_minutes(task, shop.labour))


def _rough_cost(attempt: Attempt, rollings: Sequence[Rolling], shop: Shop) -> Decimal:
    """Return money for choosing between routes: metal by weight, minutes by the people and the roll."""
    material = shop.material(attempt.line.material)
    kg = sum(rolling.blank.weight_kg * rolling.quantity for rolling in rollings)
    metal = Decimal(0) if attempt.line.free_issue else Decimal(str(kg)) * material.price_per_kg
    work = sum((_hours_cost(rolling, attempt.roll, shop) for rolling in rollings), Decimal(0))
    return metal + work


def _hours_cost(rolling: Rolling, roll: Roll, shop: Shop) -> Decimal:
    hour = roll.rate_per_hour + shop.rates.operator_hour + shop.rates.helper_hour * (rolling.lift.crew - 1)
    return Decimal(str(rolling.minutes.total.likely)) / 60 * hour
