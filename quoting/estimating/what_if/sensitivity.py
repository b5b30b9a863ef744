"""What a change would do to a line's price, worked out by running the line, and its plates, again.

Plates are nested again together with the other lines that share them, once as they are and once with the
change, both with the same search: the difference is the change's own and not that of a longer search.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.core import Arc, Basis, Shape
from quoting.estimating.costing import at_quantity, cost_drivers, price_of
from quoting.estimating.result import Estimate, LineResult, OrderEstimate, Rolling, Sensitivity
from quoting.estimating.routes import LineRoutes, route_lines
from quoting.estimating.stocking import PlateShare, RoutedLine, nest_problems, own_plate, share_costs
from quoting.estimating.what_if.merging import best_merge
from quoting.labour import roll_minutes
from quoting.nesting import nest
from quoting.pricing import LinePrice
from quoting.shop import Shop

PLATE_RISE = Decimal("0.08")
"""The rise that estimators are asked about: what if plate goes up 8 % before they say yes?"""

MOST_SEARCHED = 60
"""Lines of a run up to which every what-if gets the quick search, so that it is what a run with it makes."""

WHAT_IF_LAYOUTS = 4
"""Layouts compared for each nest beyond that, none improved. 300 lines take 8 s of processor time so, with
the quick search 54 s; the prices are 0.1 % (for twice the quantity 0.5 %) apart in the median."""

OTHER_BASIS = {Basis.INSIDE: Basis.OUTSIDE, Basis.OUTSIDE: Basis.INSIDE}
_SHORT = {Basis.INSIDE: "ID", Basis.OUTSIDE: "OD"}
_SHORT_RADIUS = {Basis.INSIDE: "IR", Basis.OUTSIDE: "OR"}


Progress = Callable[[str, float], None]
"""Told what is worked on, and the share of all work that is done."""


def with_sensitivities(
    estimate: Estimate, *, plate_rise: Decimal = PLATE_RISE, progress: Progress = lambda _words, _share: None
) -> Estimate:
    """Return the estimate with what each change would do to each priced line.

    Only the nest of the group that a change touches is run again; about two nests a line.
    """
    priced = [result for result in estimate.lines if result.price and result.drivers and result.route]
    switched = _switched(priced, estimate.shop)
    layouts = None if len(priced) <= MOST_SEARCHED else WHAT_IF_LAYOUTS
    runs = [
        _Group(group, estimate.shop, estimate.seed, plate_rise, switched, layouts)
        for group in _groups(priced, estimate)
    ]
    found: dict[str, tuple[Sensitivity, ...]] = {}
    whole, done = sum(run.work for run in runs), 0
    for number, run in enumerate(runs, 1):
        words = f"what if: {run.name} ({number} of {len(runs)})"
        progress(words, done / whole)
        for share, result, changes in run.sensitivities():
            progress(words, (done + share * run.work) / whole)
            found[result.line.id] = changes
        done += run.work
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


def other_basis(shape: Shape) -> Shape | None:
    """Return the part with its diameter taken the other way, None when it is a mean diameter."""
    basis = OTHER_BASIS.get(shape.basis)
    return replace(shape, basis=basis) if basis else None


def basis_words(shape: Shape) -> str:
    """Return how a part's diameter is taken, as the trade abbreviates it: `OD`, or `OR` for a radius.

    >>> from quoting.core.order import Basis, Cylinder
    >>> basis_words(Cylinder(600, Basis.OUTSIDE, 900))
    'OD'
    """
    return (_SHORT_RADIUS if isinstance(shape, Arc) else _SHORT).get(shape.basis, "mean")


def _switched(priced: Sequence[LineResult], shop: Shop) -> dict[str, LineRoutes]:
    """Return the routes of every line with its other basis, judged together because that is fast."""
    lines = []
    for result in priced:
        shape = other_basis(result.line.shape)
        if shape is not None:
            lines.append(replace(result.line, shape=shape))
    return {found.line.id: found for found in route_lines(lines, shop)}


@dataclass(frozen=True, slots=True)
class _Trial:
    """The line and route of a changed line, and its share of the plates."""

    item: RoutedLine
    share: PlateShare


class _Group:
    """The lines that share plates, and what each change does to each of them."""

    def __init__(
        self,
        results: Sequence[LineResult],
        shop: Shop,
        seed: int,
        plate_rise: Decimal,
        switched: Mapping[str, LineRoutes],
        layouts: int | None,
    ) -> None:
        self._results, self._shop, self._seed = results, shop, seed
        self._rise, self._switched = plate_rise, switched
        self._layouts = layouts
        self._items = {result.line.id: _routed(result) for result in results}
        self.name = (
            f"{results[0].line.material}, {len(results)} line{'s' * (len(results) > 1)}" if results else ""
        )

    @property
    def work(self) -> int:
        """Return a measure of the work: each line nests all pieces of its group again."""
        pieces = sum(rolling.quantity for item in self._items.values() for rolling in item.route.rollings)
        return len(self._results) * pieces

    def sensitivities(self) -> Iterator[tuple[float, LineResult, tuple[Sensitivity, ...]]]:
        """Yield the changes of every line of the group, with the share of the group that is done."""
        items = self._items.values()
        usual = self._shares(items, self._shop, layouts=None)
        dearer = self._shares(items, dearer_plate(self._shop, self._rise), layouts=None)
        base = usual if self._layouts is None else self._shares(items, self._shop, self._layouts)
        for number, result in enumerate(self._results, 1):
            changes = (
                self._plate(result, usual, dearer),
                self._pass(result, base),
                self._basis(result, base),
                self._double(result, base),
            )
            yield number / len(self._results), result, tuple(change for change in changes if change)

    def _shares(
        self, items: Iterable[RoutedLine], shop: Shop, layouts: int | None
    ) -> dict[str, PlateShare] | str:
        """Return each line's share of the plates nested anew, or why they cannot be nested."""
        items = list(items)
        line_of = {blank.id: item.line.id for item in items for blank in item.route.plan.blanks}
        shares = {item.line.id: own_plate(item, shop) for item in items if item.line.free_issue}
        for problem in nest_problems(items, shop):
            found = nest(problem, layouts=layouts, seed=self._seed)
            if found.unplaced:
                return found.unplaced[0].text
            shares |= share_costs(problem, found, line_of, shop)
        return shares

    def _price(self, item: RoutedLine, share: PlateShare) -> LinePrice:
        return price_of(cost_drivers(item.line, item.route, share, self._shop), self._shop)

    def _against(
        self,
        result: LineResult,
        kind: str,
        change: str,
        base: dict[str, PlateShare] | str,
        trial: _Trial | str,
    ) -> Sensitivity:
        """Return the change of the quoted price by the difference of two runs that differ in it alone."""
        if isinstance(base, str) or isinstance(trial, str):
            return Sensitivity(kind, change, problem=trial if isinstance(trial, str) else str(base))
        assert result.price is not None
        before = self._price(self._items[result.line.id], base[result.line.id])
        after = self._price(trial.item, trial.share)
        if after.quantity != before.quantity:
            unit = result.price.unit + after.unit - before.unit
            return Sensitivity(kind, change, unit, unit * after.quantity, after.unit - before.unit)
        extended = result.price.extended + after.extended - before.extended
        unit = result.price.unit + after.unit - before.unit
        return Sensitivity(kind, change, unit, extended, after.extended - before.extended)

    def _plate(
        self,
        result: LineResult,
        base: dict[str, PlateShare] | str,
        dearer: dict[str, PlateShare] | str,
    ) -> Sensitivity | None:
        if result.line.free_issue:
            return None
        item = self._items[result.line.id]
        trial = dearer if isinstance(dearer, str) else _Trial(item, dearer[result.line.id])
        return self._against(result, "plate", f"plate {self._rise:+.0%}", base, trial)

    def _pass(self, result: LineResult, base: dict[str, PlateShare] | str) -> Sensitivity:
        item = self._items[result.line.id]
        route = replace(
            item.route, rollings=tuple(_one_more(rolling, self._shop) for rolling in item.route.rollings)
        )
        share = PlateShare() if isinstance(base, str) else base[result.line.id]
        trial = _Trial(RoutedLine(item.line, route), share)
        return self._against(result, "pass", "one more pass on every piece", base, trial)

    def _basis(self, result: LineResult, base: dict[str, PlateShare] | str) -> Sensitivity | None:
        found = self._switched.get(result.line.id)
        if found is None:
            return None
        change = f"{basis_words(found.line.shape)} instead of {basis_words(result.line.shape)}"
        if not found.ok:
            why = found.routes[0].governing.verdict.reason if found.routes else found.problem
            return Sensitivity("basis", change, problem=why)
        return self._against(
            result, "basis", change, base, self._with(RoutedLine(found.line, found.routes[0]))
        )

    def _double(self, result: LineResult, base: dict[str, PlateShare] | str) -> Sensitivity:
        item = self._items[result.line.id]
        quantity = 2 * item.line.quantity
        trial = self._with(RoutedLine(*at_quantity(item.line, item.route, quantity, self._shop)))
        return self._against(
            result, "quantity", f"{quantity:,} instead of {item.line.quantity:,}", base, trial
        )

    def _with(self, item: RoutedLine) -> _Trial | str:
        """Return the line's share when the group is nested with it changed."""
        shares = self._shares((self._items | {item.line.id: item}).values(), self._shop, self._layouts)
        return shares if isinstance(shares, str) else _Trial(item, shares[item.line.id])


def _routed(result: LineResult) -> RoutedLine:
    assert result.route is not None
    return RoutedLine(result.line, result.route)


def dearer_plate(shop: Shop, rise: Decimal) -> Shop:
    """Return the shop with every plate price moved by a share: 0.08 is 8 per cent up."""
    factor = 1 + rise
    return replace(
        shop,
        stock=tuple(replace(plate, price=plate.price * factor) for plate in shop.stock),
        materials=tuple(
            replace(material, price_per_kg=material.price_per_kg * factor) for material in shop.materials
        ),
    )


def _one_more(rolling: Rolling, shop: Shop) -> Rolling:
    task = rolling.task
    repeat = None if task.passes_repeat is None else task.passes_repeat + 1
    more = replace(task, passes=task.passes + 1, passes_repeat=repeat)
    return replace(rolling, task=more, minutes=roll_minutes(more, shop.labour))
