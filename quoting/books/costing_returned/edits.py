"""What an estimator has changed in a costing book, read back and checked against the result it belongs to."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import Any

from quoting.books.costing import COLUMNS, DRIVER_NAMES, FIRST_ROW, HEAD_ROW, INDEX, SHEET
from quoting.books.costing_returned.added_rows import refuse_amounts, refuse_new_orders, refuse_new_settings
from quoting.books.costing_returned.cells import SAVE_FIRST, Bounds, ReturnedBook, decimal_of
from quoting.books.costing_returned.returned_settings import SETTINGS, ReturnedSettings, most_of
from quoting.core import InputError, Place
from quoting.estimating import Edits, Estimate, LineEdit, LineResult
from quoting.pricing import (
    LINE_FORMULAS,
    CostDrivers,
    line_inputs,
    roll_rate_name,
)
from quoting.shop import Shop

ORDERS = "Orders"
_WORKED_OUT = (*(formula.name for formula in LINE_FORMULAS), "sold", "counts")
_DRIVER_FIELDS = {name: "certificate" if name == "certified" else name for name in DRIVER_NAMES}
CENT = Decimal("0.005")


class ReturnedCosting:
    """A costing book that came back, beside the estimate it was written from."""

    def __init__(self, path: Path, estimate: Estimate, result_id: str) -> None:
        self._book = ReturnedBook(path, (SETTINGS, SHEET, ORDERS))
        self._estimate = estimate
        self._settings = ReturnedSettings(self._book, estimate)
        self._check_pair(result_id)
        refuse_new_settings(self._book, SETTINGS)
        refuse_new_orders(self._book, ORDERS, {order.order.customer for order in estimate.orders})
        self._rows = self._line_rows()

    def edits(self) -> Edits:
        """Return everything that was decided; nothing is left out silently, and nothing is guessed."""
        settings = self._settings.values()
        changes = self._settings.plate_changes()
        lines = {
            id: self._line(row, self._priced[id], settings, changes.get(id, Decimal(0)))
            for id, row in self._rows.items()
        }
        row, column = self._book.named("allowed_by", SETTINGS)
        return Edits(settings, lines, self._book.text(SETTINGS, row, column), self._settings.plate_notes())

    def check(self, revised: Estimate) -> None:
        """Refuse prices under the floor without a reason and a name, and a book that shows other prices."""
        for result in revised.lines:
            if result.price is None:
                continue
            row = self._rows[result.line.id]
            self._check_floor(result, row)
            self._check_shown(result, row)

    @property
    def _priced(self) -> dict[str, LineResult]:
        return {result.line.id: result for result in self._estimate.lines if result.price}

    def _check_pair(self, result_id: str) -> None:
        row, column = self._book.named("result_id", SETTINGS)
        found = self._book.text(SETTINGS, row, column)
        if found != result_id:
            raise InputError(
                "belongs to another result",
                place=self._book.place(SETTINGS, row, column),
                read=found,
                would_do=f"give the record with the id {found}, or the costing book of {result_id}",
            )

    def _line_rows(self) -> dict[str, int]:
        """Return the row of every priced line, wherever the rows were sorted to."""
        self._check_headings()
        rows: dict[str, int] = {}
        for row in range(FIRST_ROW, self._book.rows(SHEET)):
            id = self._book.text(SHEET, row, INDEX["id"])
            if not id and not self._book.formula(SHEET, row, INDEX["unit"]):
                refuse_amounts(self._book, SHEET, row, len(COLUMNS))
                continue
            if id not in self._priced or id in rows:
                problem = "stands twice" if id in rows else "is no line of this result"
                raise InputError(problem, place=self._at(row, "id"), read=id or "nothing")
            rows[id] = row
        for id in self._priced:
            if id not in rows:
                raise InputError(
                    f"the line {id} has no row any more",
                    place=Place(self._book.file, SHEET),
                    would_do='put it back; to leave a line out, type x in its column "Leave out"',
                )
        return rows

    def _check_headings(self) -> None:
        for index, column in enumerate(COLUMNS):
            found = self._book.text(SHEET, HEAD_ROW, index)
            if found != column.heading:
                raise InputError(
                    f'should be the heading "{column.heading}"',
                    place=self._book.place(SHEET, HEAD_ROW, index),
                    read=found or "nothing",
                    would_do="leave the columns where the run has put them",
                )

    def _line(
        self, row: int, result: LineResult, settings: dict[str, Decimal], plate_change: Decimal
    ) -> LineEdit:
        margin = self._book.number(
            SHEET, row, INDEX["margin"], _heading("margin"), known=settings, bounds=Bounds(below=Decimal(1))
        )
        drivers = self._drivers(row, result, settings)
        by_hand = self._book.optional(SHEET, row, INDEX["by_hand"], _heading("by_hand"))
        # Last, because a slip in one of the cells above makes errors of all that is worked out from it.
        for name in _WORKED_OUT:
            self._book.untouched(SHEET, row, INDEX[name], _heading(name))
        if plate_change:
            factor = 1 + plate_change
            drivers = replace(
                drivers, plate_cost=drivers.plate_cost * factor, drop_credit=drivers.drop_credit * factor
            )
        return LineEdit(
            drivers=drivers,
            margin=None if margin == settings["margin"] else margin,
            unit=by_hand,
            reason=self._book.text(SHEET, row, INDEX["why_by_hand"]),
            drop=bool(self._book.text(SHEET, row, INDEX["drop"])),
        )

    def _drivers(self, row: int, result: LineResult, settings: dict[str, Decimal]) -> CostDrivers:
        """Return what the line takes; a cell that was not touched keeps the exact amount behind it."""
        assert result.drivers is not None
        shop = self._estimate.shop
        written = line_inputs(result.drivers, shop.rates, shop.pricing, shop.cutting)
        changed: dict[str, Any] = {}
        for name in DRIVER_NAMES:
            value = self._book.number(
                SHEET, row, INDEX[name], _heading(name), known=settings, bounds=Bounds(most=most_of(name))
            )
            if value != written[name]:
                changed[_DRIVER_FIELDS[name]] = self._driver(row, name, value)
        credit, cost = (
            changed.get(name, getattr(result.drivers, name)) for name in ("drop_credit", "plate_cost")
        )
        if credit > cost and not {"drop_credit", "plate_cost"}.isdisjoint(changed):
            raise InputError(
                "gives more for the drop than the plate costs",
                place=self._at(row, "drop_credit"),
                read=str(credit),
                would_do=f"write {cost:,.2f} or less",
            )
        if not self._book.formula(SHEET, row, INDEX["roll_rate"]) and result.route:
            return replace(result.drivers, **changed)
        return replace(result.drivers, **changed | self._roll_rate(result, shop, settings))

    def _roll_rate(self, result: LineResult, shop: Shop, settings: dict[str, Decimal]) -> dict[str, Decimal]:
        for number, roll in enumerate(shop.rolls, start=1):
            if result.route and roll.name == result.route.roll:
                return {"roll_rate": settings[roll_rate_name(number)]}
        return {}

    def _driver(self, row: int, name: str, value: Decimal) -> Any:
        """Return a changed amount in the type of its field."""
        place = self._at(row, name)
        match name:
            case "quantity":
                raise InputError(
                    "the quantity is the customer's, minutes and plates are worked out for it",
                    place=place,
                    read=str(value),
                    would_do="change it on the order sheet and run again",
                )
            case "crew":
                if value != int(value) or value < 1:
                    raise InputError("must be a whole number of people", place=place, read=str(value))
                return int(value)
            case "certified":
                if value not in (0, 1):
                    raise InputError("must be 1 or 0", place=place, read=str(value))
                return bool(value)
            case (
                "edge_m"
                | "setup_minutes"
                | "rolling_minutes"
                | "crane_minutes"
                | "bench_minutes"
                | "weld_minutes"
            ):
                return float(value)
            case _:
                return value

    def _check_floor(self, result: LineResult, row: int) -> None:
        """Refuse a price that goes, or goes further, under the floor without a reason and a name.

        A line that was under the floor as computed and keeps its price has nothing new to answer for.
        """
        before = self._priced[result.line.id].price
        assert result.price is not None
        assert before is not None
        if not result.price.under_floor or (before.under_floor and result.price.unit >= before.unit):
            return
        if not (result.override and result.override.reason):
            raise InputError(
                f"line {result.line.id} is sold at {result.price.unit:,.2f} each, under its floor of "
                f"{result.price.floor_unit:,.2f}, and no reason is written",
                place=self._at(row, "why_by_hand"),
                would_do="write why, or raise the price",
            )
        if not result.override.by:
            at = self._book.named("allowed_by", SETTINGS)
            raise InputError(
                f"line {result.line.id} is sold under its floor, and nobody has put a name to it",
                place=self._book.place(SETTINGS, *at, "Who allows prices by hand"),
                would_do="write the name of who allows it",
            )

    def _check_shown(self, result: LineResult, row: int) -> None:
        """Refuse a book whose own figures are others: a formula was changed, or it was not worked out."""
        assert result.price is not None
        value = self._book.untouched(SHEET, row, INDEX["extended"], _heading("extended"))
        shown = decimal_of(value)
        words = str(value) if shown is None else f"{shown:,.2f}"
        if value is not None and (shown is None or abs(shown - result.price.extended) > CENT):
            raise InputError(
                f"the book shows {words} where its inputs make {result.price.extended:,.2f}",
                place=self._at(row, "extended"),
                would_do=f"{SAVE_FIRST}; if it stays so, a formula was changed",
            )

    def _at(self, row: int, name: str) -> Place:
        return self._book.place(SHEET, row, INDEX[name], _heading(name))


def _heading(name: str) -> str:
    return COLUMNS[INDEX[name]].heading
