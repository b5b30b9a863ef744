"""The settings of a costing book that came back: rates, shares, who keeps drops, how plate prices moved."""

from __future__ import annotations

from decimal import Decimal

from quoting.books.costing_returned.cells import MOST_AMOUNT, Bounds, ReturnedBook
from quoting.core import InputError
from quoting.estimating import Change, Estimate
from quoting.pricing import DROP_OWNERS, KEEPS_DROP, settings_of

SETTINGS = "Settings"
_MARGINS = {"margin", "floor_margin", "tax_share"}
_MOST = {
    "crew": Decimal(20),
    "rounding": Decimal(10_000),
    **dict.fromkeys(("setup_minutes", "rolling_minutes", "crane_minutes", "edge_m"), Decimal(100_000)),
    **dict.fromkeys(("bench_minutes", "weld_minutes"), Decimal(100_000)),
}
"""What is far beyond any job; other amounts may be up to a thousand million."""


class ReturnedSettings:
    """The sheet of settings, beside the estimate it was written from."""

    def __init__(self, book: ReturnedBook, estimate: Estimate) -> None:
        self._book, self._estimate = book, estimate

    def values(self) -> dict[str, Decimal]:
        """Return every setting by name."""
        values: dict[str, Decimal] = {}
        for name in settings_of(self._estimate.shop):
            if name == KEEPS_DROP:
                values[name] = self._drop_owner()
                continue
            row, column = self._book.named(name, SETTINGS)
            bounds = Bounds(below=Decimal(1) if name in _MARGINS else None, most=most_of(name))
            values[name] = self._book.number(SETTINGS, row, column, name, bounds=bounds)
            if name == "rounding" and not values[name]:
                raise InputError("must be more than 0", place=self._book.place(SETTINGS, row, column, name))
        return values

    def _drop_owner(self) -> Decimal:
        row, column = self._book.named("drop_owner", SETTINGS)
        owner = self._book.text(SETTINGS, row, column)
        if owner not in DROP_OWNERS:
            place = self._book.place(SETTINGS, row, column, "drop_owner")
            raise InputError(f"must be {' or '.join(DROP_OWNERS)}", place=place, read=owner or "nothing")
        return Decimal(int(owner == DROP_OWNERS[0]))

    def plate_changes(self) -> dict[str, Decimal]:
        """Return by line how much its plate has gone up or down since the nest."""
        found: dict[str, Decimal] = {}
        if not self._estimate.nests:
            return found
        every = {"plate_change": self._change("plate_change", {})}
        for number, group in enumerate(self._estimate.nests, 1):
            found |= dict.fromkeys(group.lines, self._change(f"plate_change_{number}", every))
        return found

    def _change(self, name: str, known: dict[str, Decimal]) -> Decimal:
        row, column = self._book.named(name, SETTINGS)
        bounds = Bounds(least=Decimal("-0.9"), most=Decimal(10))
        return self._book.number(SETTINGS, row, column, name, known=known, bounds=bounds)

    def plate_notes(self) -> tuple[Change, ...]:
        """Return how plate prices moved, group by group, in words."""
        by_line = self.plate_changes()
        notes = []
        for group in self._estimate.nests:
            change = by_line.get(group.lines[0], Decimal(0)) if group.lines else Decimal(0)
            if change:
                what = f"plate price of {group.material}, {group.thickness_mm:g} mm"
                notes.append(Change(what, "as nested", f"{change:+.1%}"))
        return tuple(notes)


def most_of(name: str) -> Decimal:
    """Return the most that a setting or an amount of a line can sensibly be."""
    if name in _MOST:
        return _MOST[name]
    return Decimal(3) if name.endswith("_share") else MOST_AMOUNT
