"""A quote after the order came: only what was won, on plates for that alone, at the prices as quoted."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from functools import partial

from quoting.core import Doing, InputError, first_few
from quoting.estimating.plates import RoutedLine, nest_problems, plate_name, share_costs
from quoting.estimating.result import Estimate, GroupNest, OrderEstimate
from quoting.nesting import Nest, NestProblem, nest, still_cut
from quoting.pricing import total_order
from quoting.shop import Shop, StockPlate


@dataclass(frozen=True, slots=True)
class WonOnly:
    """The estimate of the won lines alone.

    `anew` counts the kinds of plate, of `kinds`, that were nested anew without the others; `saved` is what
    that costs less than the plates as quoted. `names` gives the new name of each plate that is cut as quoted.
    """

    estimate: Estimate
    kinds: int = 0
    anew: int = 0
    saved: Decimal = Decimal(0)
    names: Mapping[str, str] = field(default_factory=dict)


def won_only(
    quoted: Estimate,
    won: Collection[str],
    shop: Shop,
    cut: Collection[str] = (),
    say: Callable[[str], None] = lambda _: None,
) -> WonOnly:
    """Return the estimate with the won lines only: prices as quoted, plates of the shop's rack of now.

    A kind of plate of which every line was won stays as quoted. Else its won blanks stay on the plates as
    quoted, or are nested anew on what the rack holds now where that is cheaper. `cut` names plates that have
    been cut: their kind stays as quoted. Raises InputError where the blanks find no plate.
    """
    shop = replace(quoted.shop, stock=_with_cut_plates(quoted, shop, cut))
    results = {one.line.id: one for one in quoted.lines if one.line.id in won and one.route is not None}
    routed = [RoutedLine(one.line, one.route) for one in results.values() if one.route is not None]
    line_of = {blank.id: item.line.id for item in routed for blank in item.route.plan.blanks}
    before = {(group.material, round(group.thickness_mm, 1)): group for group in quoted.nests}
    kinds: list[_Kind] = []
    for problem in nest_problems(routed, shop, quoted.today):
        thickness = f"{problem.thickness_mm:.1f} mm"
        say(Doing(f"nesting {problem.material} {thickness} of the won lines", stage="nesting"))
        group = before.get((problem.material, round(problem.thickness_mm, 1)))
        kinds.append(_kind(problem, group, quoted, _stays(group, won, cut), line_of))
    plates = {
        line: share.plates
        for kind in kinds
        for line, share in share_costs(kind.group.problem, kind.group.nest, line_of, shop).items()
    }
    orders = tuple(one for order in quoted.orders if (one := _order(order, won, plates, shop)).lines)
    groups = tuple(kind.group for kind in kinds)
    return WonOnly(
        estimate=replace(quoted, shop=shop, orders=orders, nests=groups, worth={}, won_of=_priced(quoted)),
        kinds=len(kinds),
        anew=sum(kind.anew for kind in kinds),
        saved=sum((kind.saved for kind in kinds), Decimal(0)),
        names={old: new for kind in kinds for old, new in kind.names.items()},
    )


@dataclass(frozen=True, slots=True)
class _Kind:
    """One kind of plate: its nest, whether that is made anew, what it saves, and new names of plates."""

    group: GroupNest
    anew: bool
    saved: Decimal
    names: Mapping[str, str]


def _kind(
    problem: NestProblem, group: GroupNest | None, quoted: Estimate, stays: bool, line_of: Mapping[str, str]
) -> _Kind:
    if group is not None and group.problem == problem:
        return _Kind(group, False, Decimal(0), {})
    kept = still_cut(problem, group.nest) if group else None
    new = None if stays and kept is not None else _anew(problem, quoted)
    lines = tuple(dict.fromkeys(line_of[piece.id] for piece in problem.pieces))
    taken = partial(GroupNest, problem.material, problem.thickness_mm, problem, lines=lines)
    if kept is not None and (new is None or kept.nest.cost <= new.cost):
        names = {f"{id} #{old}": f"{id} #{copy}" for (id, old), copy in kept.copies.items()}
        bound = min(new.bound, kept.nest.cost) if new is not None else Decimal(0)
        return _Kind(taken(nest=replace(kept.nest, bound=bound)), False, Decimal(0), names)
    if new is None:
        kind = f"{problem.material} {problem.thickness_mm:.1f} mm"
        raise InputError(
            f"the blanks of {first_few(lines, 5)} find no plate: {kind}",
            would_do="put plates or sizes to buy into the rack, or leave these lines out",
        )
    return _Kind(taken(nest=new), True, kept.nest.cost - new.cost if kept else Decimal(0), {})


def _stays(group: GroupNest | None, won: Collection[str], cut: Collection[str]) -> bool:
    """Return whether a kind of plate stays as quoted: all of it was won, or some of it has been cut."""
    return group is not None and (set(group.lines) <= set(won) or _has_been_cut(group, cut))


def _anew(problem: NestProblem, quoted: Estimate) -> Nest | None:
    effort = quoted.effort if quoted.effort in ("quick", "normal", "thorough") else "normal"
    found = nest(problem, effort=effort, seed=quoted.seed)  # type: ignore[arg-type]
    return None if found.unplaced else found


def _priced(quoted: Estimate) -> int:
    return sum(one.price is not None for one in quoted.lines)


def _has_been_cut(group: GroupNest, cut: Collection[str]) -> bool:
    return any(plate_name(one) in cut for one in group.nest.cut_plates)


def _with_cut_plates(quoted: Estimate, shop: Shop, cut: Collection[str]) -> tuple[StockPlate, ...]:
    """Return the rack of now with the plates that were in it when it was quoted and have been cut since."""
    here = {plate.id for plate in shop.stock}
    gone = {
        one.plate
        for group in quoted.nests
        if _has_been_cut(group, cut)
        for one in group.nest.cut_plates
        if one.plate not in here
    }
    return (*shop.stock, *(replace(plate, row=None) for plate in quoted.shop.stock if plate.id in gone))


def _order(
    order: OrderEstimate, won: Collection[str], plates: Mapping[str, tuple[str, ...]], shop: Shop
) -> OrderEstimate:
    lines = tuple(
        replace(one, plates=plates.get(one.line.id, one.plates)) for one in order.lines if one.line.id in won
    )
    cells = {one.line.place.cell for one in lines}
    asked = replace(
        order.order,
        lines=tuple(one.line for one in lines),
        rows=tuple(row for row in order.order.rows if row.place.cell in cells),
        questions=(),
        drafts=(),
        answers=(),
    )
    prices = [one.price for one in lines if one.price is not None]
    return OrderEstimate(asked, lines, (), total_order(prices, shop.pricing))
