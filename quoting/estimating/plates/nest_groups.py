"""The plate of a run: every group of one material and thickness nested, and what of it each line takes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from quoting.core import Doing, Effort, Hands, Sharing, format_stock, heaviest_first
from quoting.estimating.plates.plate_shares import PlateShare, by_weight, own_plate, share_costs
from quoting.estimating.plates.stocking import RoutedLine, nest_problems
from quoting.estimating.result import GroupNest
from quoting.nesting import Nest, NestProblem, nest
from quoting.shop import Shop


@dataclass(frozen=True, slots=True)
class NestedGroups:
    """The nests of a run, each line's share of them, and why lines could not be nested."""

    groups: tuple[GroupNest, ...]
    shares: Mapping[str, PlateShare]
    left_out: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class _NestTask:
    """One group of plate to be nested: the problem, whose line each piece is, and how hard to search."""

    problem: NestProblem
    line_of: Mapping[str, str]
    effort: Effort
    seed: int


GroupFound = tuple[NestProblem, Nest, dict[str, str]]
"""A group as it was nested, its nest, and why lines were left out of it."""


def nest_groups(
    able: Sequence[RoutedLine],
    shop: Shop,
    today: date,
    search: tuple[Effort, int],
    hands: Hands,
) -> NestedGroups:
    """Return all groups nested; a line of which a blank finds no plate is left out."""
    line_of = {blank.id: item.line.id for item in able for blank in item.route.plan.blanks}
    left_out: dict[str, str] = {}
    groups: list[GroupNest] = []
    shares: dict[str, PlateShare] = {}
    problems = nest_problems(able, shop, today)

    def tell(number: int, problem: NestProblem) -> None:
        thickness = format_stock(problem.thickness_mm, inch=shop.inch)
        said = f"nesting {problem.material} {thickness} ({number} of {len(problems)})"
        hands.say(Doing(said, stage="nesting", share=(number - 1) / len(problems)))

    nested = nest_each([(one, line_of) for one in problems], search, hands.share_out, tell)
    for kept, found, dropped in nested:
        left_out |= dropped
        if found.cut_plates:
            lines = tuple(dict.fromkeys(line_of[piece.id] for piece in kept.pieces))
            groups.append(GroupNest(kept.material, kept.thickness_mm, kept, found, lines))
            shares |= share_costs(kept, found, line_of, shop)
    for item in able:
        if item.line.free_issue:
            shares[item.line.id] = own_plate(item, shop)
    return NestedGroups(tuple(groups), shares, left_out)


def nest_each(
    groups: Sequence[tuple[NestProblem, Mapping[str, str]]],
    search: tuple[Effort, int],
    share_out: Sharing,
    tell: Callable[[int, NestProblem], None] = lambda _number, _problem: None,
) -> list[GroupFound]:
    """Return the nest of each group of plate, given with the lines of its pieces, by ids; in their order.

    `tell` hears of each group that is waited for, with its number from 1.
    """
    tasks = [
        _NestTask(problem, {piece.id: line_of[piece.id] for piece in problem.pieces}, *search)
        for problem, line_of in groups
    ]
    return heaviest_first(
        share_out,
        _nest_group,
        tasks,
        lambda task: len(task.line_of),
        lambda number, task: tell(number, task.problem),
    )


def _nest_group(task: _NestTask) -> GroupFound:
    problem, line_of = task.problem, task.line_of
    dropped: dict[str, str] = {}
    while True:
        found = nest(problem, effort=task.effort, seed=task.seed)
        if not found.unplaced:
            return problem, found, dropped
        dropped |= {line_of[piece.piece]: piece.text for piece in found.unplaced}
        kept = tuple(piece for piece in problem.pieces if line_of[piece.id] not in dropped)
        problem = replace(problem, pieces=kept)


def all_by_weight(able: Sequence[RoutedLine], shop: Shop) -> NestedGroups:
    """Return each line's plate by the weight of its blanks, nothing nested."""
    return NestedGroups((), {item.line.id: by_weight(item, shop) for item in able}, {})
