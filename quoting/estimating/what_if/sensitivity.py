"""What a change would do to a line's price, worked out by running the line, and its plates, again.

Plates are nested again together with the other lines that share them, once as they are and once with the
change, both with the same search: the difference is the change's own and not that of a longer search.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from quoting.core import Sharing, heaviest_first, one_by_one
from quoting.estimating.result import Estimate, LineResult, OrderEstimate, Sensitivity
from quoting.estimating.routes import LineRoutes, route_lines
from quoting.estimating.what_if.changes import other_basis
from quoting.estimating.what_if.merging import best_merge
from quoting.estimating.what_if.plate_group import PlateGroup
from quoting.shop import Shop

PLATE_RISE = Decimal("0.08")
"""The rise that estimators are asked about: what if plate goes up 8 % before they say yes?"""

MOST_SEARCHED = 60
"""Lines of a run up to which every what-if gets the quick search, so that it is what a run with it makes."""

WHAT_IF_LAYOUTS = 4
"""Layouts compared for each nest beyond that, none improved. 300 lines take 8 s of processor time so, with
the quick search 54 s; the prices are 0.1 % (for twice the quantity 0.5 %) apart in the median."""

LINES_AT_A_TIME = 25
"""Lines of one group of plate whose changes are worked out together: one task for a core."""

Progress = Callable[[str, float], None]
"""Told what is worked on, and the share of all work that is done."""


def with_sensitivities(
    estimate: Estimate,
    *,
    plate_rise: Decimal = PLATE_RISE,
    progress: Progress = lambda _words, _share: None,
    share_out: Sharing = one_by_one,
) -> Estimate:
    """Return the estimate with what each change would do to each priced line.

    Only the nest of the group that a change touches is run again; about two nests a line. Groups of plate are
    independent, so `share_out` may have several cores work at them.
    """
    priced = [result for result in estimate.lines if result.price and result.drivers and result.route]
    switched = _switched(priced, estimate.shop)
    layouts = None if len(priced) <= MOST_SEARCHED else WHAT_IF_LAYOUTS
    runs = [
        PlateGroup(group, lines, estimate.shop, estimate.seed, plate_rise, switched, layouts)
        for group in _groups(priced, estimate)
        for lines in _batches([result.line.id for result in group])
    ]
    whole, done = sum(run.work for run in runs), 0

    def tell(number: int, run: PlateGroup) -> None:
        nonlocal done
        progress(f"what if: {run.name} ({number} of {len(runs)})", done / whole)
        done += run.work

    changed = heaviest_first(share_out, PlateGroup.sensitivities, runs, lambda run: run.work, tell)
    found = {line: changes for one in changed for line, changes in one.items()}
    merged = {
        result.line.id: best_merge(result, order.lines, estimate.shop)
        for order in estimate.orders
        for result in order.lines
        if result.line.id in found
    }
    return replace(estimate, orders=tuple(_with(order, found, merged) for order in estimate.orders))


def _with(
    order: OrderEstimate,
    found: Mapping[str, tuple[Sensitivity, ...]],
    merged: Mapping[str, Sensitivity | None],
) -> OrderEstimate:
    def of(result: LineResult) -> tuple[Sensitivity, ...]:
        merge = merged.get(result.line.id)
        return (*found.get(result.line.id, ()), *((merge,) if merge else ()))

    return replace(order, lines=tuple(replace(result, sensitivities=of(result)) for result in order.lines))


def _groups(priced: Sequence[LineResult], estimate: Estimate) -> Iterable[list[LineResult]]:
    by_id = {result.line.id: result for result in priced}
    nested = {line for group in estimate.nests for line in group.lines}
    for group in estimate.nests:
        yield [by_id[line] for line in group.lines if line in by_id]
    for result in priced:
        if result.line.id not in nested:
            yield [result]


def _batches(lines: Sequence[str]) -> Iterable[Sequence[str]]:
    return (lines[start : start + LINES_AT_A_TIME] for start in range(0, len(lines), LINES_AT_A_TIME))


def _switched(priced: Sequence[LineResult], shop: Shop) -> dict[str, LineRoutes]:
    """Return the routes of every line with its other basis, judged together because that is fast."""
    lines = []
    for result in priced:
        shape = other_basis(result.line.shape)
        if shape is not None:
            lines.append(replace(result.line, shape=shape))
    return {found.line.id: found for found in route_lines(lines, shop)}
