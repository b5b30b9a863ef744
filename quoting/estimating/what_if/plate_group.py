"""The lines that share plates, nested again with each change in turn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from quoting.estimating.costing import at_quantity, cost_drivers, price_of
from quoting.estimating.plates import PlateShare, RoutedLine, nest_problems, own_plate, share_costs
from quoting.estimating.result import LineResult, Sensitivity
from quoting.estimating.routes import LineRoutes
from quoting.estimating.what_if.changes import basis_words, dearer_plate, one_more
from quoting.nesting import nest
from quoting.pricing import LinePrice
from quoting.shop import Shop


@dataclass(frozen=True, slots=True)
class _Trial:
    """The line and route of a changed line, and its share of the plates."""

    item: RoutedLine
    share: PlateShare


class PlateGroup:
    """The lines that share plates, and what each change does to some of them.

    `asked` are the ids of those lines; of `switched`, the routes with the other basis, only theirs are kept.
    """

    def __init__(
        self,
        results: Sequence[LineResult],
        asked: Sequence[str],
        shop: Shop,
        seed: int,
        plate_rise: Decimal,
        switched: Mapping[str, LineRoutes],
        layouts: int | None,
    ) -> None:
        self._shop, self._seed, self._rise = shop, seed, plate_rise
        self._asked = [result for result in results if result.line.id in set(asked)]
        self._switched = {line: switched[line] for line in asked if line in switched}
        self._layouts = layouts
        self._items = {result.line.id: _routed(result) for result in results}
        self.name = (
            f"{results[0].line.material}, {len(asked)} line{'s' * (len(asked) > 1)}" if results else ""
        )

    @property
    def work(self) -> int:
        """Return a measure of the work: each line nests all pieces of its group again."""
        pieces = sum(rolling.quantity for item in self._items.values() for rolling in item.route.rollings)
        return len(self._asked) * pieces

    def sensitivities(self) -> dict[str, tuple[Sensitivity, ...]]:
        """Return the changes of every line that was asked for, by its id."""
        items = self._items.values()
        usual = self._shares(items, self._shop, layouts=None)
        dearer = self._shares(items, dearer_plate(self._shop, self._rise), layouts=None)
        base = usual if self._layouts is None else self._shares(items, self._shop, self._layouts)
        found = {}
        for result in self._asked:
            changes = (
                self._plate(result, usual, dearer),
                self._pass(result, base),
                self._basis(result, base),
                self._double(result, base),
            )
            found[result.line.id] = tuple(change for change in changes if change)
        return found

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
            item.route, rollings=tuple(one_more(rolling, self._shop) for rolling in item.route.rollings)
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
