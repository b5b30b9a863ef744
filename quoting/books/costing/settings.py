"""The sheet "Settings": every rate and rule that the prices are built from, each a named cell to change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from quoting.books.costing.costing_sheet import PROTECTION, costing_sheet
from quoting.books.look import Book, BookColumn, BookSheet
from quoting.core import format_stock
from quoting.estimating import Estimate, GroupNest
from quoting.pricing import (
    DROP_OWNERS,
    INPUTS,
    LINE_FORMULAS,
    ORDER_FORMULAS,
    InputName,
    roll_rate_name,
    settings_of,
)
from quoting.recording import result_id
from quoting.shop import Shop

COLUMNS = (
    BookColumn("Setting", 42),
    BookColumn("Value", 13, "fine"),
    BookColumn("Unit", 18, "text inset"),
    BookColumn("Name in the formulas", 24),
    BookColumn("What it does", 62),
)
LABEL, VALUE, UNIT, NAME, NOTE = range(5)

_NOTES = {
    "margin": "A share of the PRICE, on the shop's own work: price = cost / (1 - margin). "
    "The row below says the same as a markup on cost.",
    "floor_margin": "A line sold for less than cost / (1 - floor) is called under floor.",
    "rounding": "The one rounding: unit prices go up to this step, never down.",
    "line_minimum": "Per line, whatever its quantity.",
    "overhead_share": "On the shop's own work only, none on plate or outside work.",
    "setup_hour": "The setter with the roll standing still.",
    "material_markup_share": "A share of the plate's COST, not of its price.",
}
_SHARES = {"share of cost", "share of price"}


@dataclass(frozen=True, slots=True)
class SettingCells:
    """The defined names of the settings: by input name, by roll, and of the plate change by line id."""

    names: Mapping[str, str]
    rolls: Mapping[str, str]
    plate_change: Mapping[str, str] = field(default_factory=dict)


def settings_sheet(book: Book, estimate: Estimate) -> SettingCells:
    """Write the sheet and return the names of its cells."""
    shop = estimate.shop
    says = (
        "Boxed cells are yours to change: every price on the sheet Lines follows. Minutes, allowances and "
        "verdicts do not; change those in the shop's book and run again."
    )
    sheet = costing_sheet(book, estimate, "Settings", COLUMNS, says=says)
    writer = _Writer(book, sheet, shop.rates.currency)
    values = settings_of(shop)
    for heading, owner in (("Rates", "rates"), ("Rules", "rules"), ("Cutting", "cutting")):
        writer.section(heading)
        for given in INPUTS:
            if given.owner == owner:
                _setting(writer, given, values)
    writer.section("Order")
    writer.number("order_minimum", "Least order", "money", values["order_minimum"], _used("order_minimum"))
    tax = shop.pricing.tax_name or "Tax"
    writer.number("tax_share", tax, "share of price", values["tax_share"], _used("tax_share"))
    rolls = _rolls(writer, shop)
    changes = _plate_changes(writer, estimate)
    _this_book(writer, estimate)
    sheet.raw.protect("", PROTECTION)
    sheet.raw.freeze_panes(2, 0)
    return SettingCells({name: name for name in values if name not in rolls.values()}, rolls, changes)


def _setting(writer: _Writer, given: InputName, values: Mapping[str, Decimal]) -> None:
    note = _NOTES.get(given.name, "") or _used(given.name)
    if given.name == "shop_keeps_drop":
        owner = DROP_OWNERS[0] if values[given.name] else DROP_OWNERS[1]
        writer.choice(
            "drop_owner", "Who keeps the drop", owner, DROP_OWNERS, "shop: the drop's value is off the plate."
        )
        formula = f'=IF(drop_owner="{DROP_OWNERS[0]}",1,0)'
        writer.worked_out(
            given.name, given.label, given.unit, formula, values[given.name], "From the row above."
        )
        return
    writer.number(given.name, given.label, given.unit, values[given.name], note)
    if given.name == "margin":
        markup = values["margin"] / (1 - values["margin"])
        writer.worked_out("", "the same as a markup", "share of cost", "=margin/(1-margin)", markup, "")


def _used(name: str) -> str:
    parts = [
        formula.label for formula in (*LINE_FORMULAS, *ORDER_FORMULAS) if f"{{{name}}}" in formula.template
    ]
    return f"In: {', '.join(parts)}." if parts else ""


def _rolls(writer: _Writer, shop: Shop) -> dict[str, str]:
    writer.section("Rolls")
    names = {}
    for number, roll in enumerate(shop.rolls, 1):
        names[roll.name] = roll_rate_name(number)
        note = "In: Rolling, for every line on this roll."
        writer.number(names[roll.name], roll.name, "money/h", roll.rate_per_hour, note)
    return names


def _plate_changes(writer: _Writer, estimate: Estimate) -> dict[str, str]:
    if not estimate.nests:
        return {}
    writer.section("Plate price since the nest")
    note = "What if plate goes up 8 % before they say yes? Type 8 %. Drops move with it."
    writer.number("plate_change", "All plate", "share of price", Decimal(0), note, least=-0.9)
    names: dict[str, str] = {}
    for number, group in enumerate(estimate.nests, 1):
        name = f"plate_change_{number}"
        writer.follows(name, _group_words(group, estimate.shop.inch), "share of price", "=plate_change")
        names |= dict.fromkeys(group.lines, name)
    return names


def _this_book(writer: _Writer, estimate: Estimate) -> None:
    writer.section("This book")
    number = estimate.revision.number if estimate.revision else 1
    writer.fixed("revision", "Revision of the quote", str(number), "")
    note = "The result this book belongs to: reprice notices when the wrong one is given."
    writer.fixed("result_id", "Result", result_id(estimate), note)
    note = "Needed when a line is sold under the floor; stands on the owner's page."
    writer.words("allowed_by", "Who allows prices by hand", note)


def _group_words(group: GroupNest, inch: bool) -> str:
    thickness = format_stock(group.thickness_mm, inch=inch)
    return f"{thickness} {group.material}, now {group.nest.plate_cost:,.2f} of plate"


class _Writer:
    """Writes settings one below the other and gives their cells names."""

    def __init__(self, book: Book, sheet: BookSheet, currency: str) -> None:
        self._book, self._sheet, self._currency = book, sheet, currency
        self._row = 3

    def section(self, heading: str) -> None:
        """Start a block under its own headings."""
        if self._row > 3:
            self._row += 1
        self._sheet.heads(self._row, (BookColumn(heading, 0), *COLUMNS[1:]))
        self._row += 1

    def number(
        self, name: str, label: str, unit: str, value: Decimal, note: str, *, least: float = 0.0
    ) -> None:
        """Write an input that is a number."""
        self._sheet.number(self._row, VALUE, value, f"{_style(unit)} input")
        most = 0.99 if unit == "share of price" else 1e9
        self._check(name, least, most, unit)
        self._frame(name, label, unit, note)

    def follows(self, name: str, label: str, unit: str, formula: str) -> None:
        """Write an input that follows another one until it is written over."""
        self._sheet.formula(self._row, VALUE, formula, 0, f"{_style(unit)} input")
        self._check(name, -0.9, 0.99, unit)
        self._frame(name, label, unit, "Follows the row above until you type over it.")

    def choice(self, name: str, label: str, value: str, choices: tuple[str, ...], note: str) -> None:
        """Write an input that is one of a few words."""
        self._sheet.text(self._row, VALUE, value, "right input")
        self._sheet.raw.data_validation(
            self._row, VALUE, self._row, VALUE, {"validate": "list", "source": list(choices)}
        )
        self._frame(name, label, " or ".join(choices), note)

    def worked_out(self, name: str, label: str, unit: str, formula: str, value: Decimal, note: str) -> None:
        """Write a value that follows from the others."""
        self._sheet.formula(self._row, VALUE, formula, value, _style(unit))
        self._frame(name, label, unit, note)

    def fixed(self, name: str, label: str, value: str, note: str) -> None:
        """Write a text that is not to be changed."""
        self._sheet.text(self._row, VALUE, value, "line right")
        self._frame(name, label, "", note)

    def words(self, name: str, label: str, note: str) -> None:
        """Write an empty input for words."""
        self._sheet.fill(self._row, (VALUE,), "text input")
        self._frame(name, label, "", note)

    def _check(self, name: str, least: float, most: float, unit: str) -> None:
        shown = f"{least:.0%} to {most:.0%}" if unit in _SHARES else f"{least:g} or more"
        self._sheet.raw.data_validation(
            self._row,
            VALUE,
            self._row,
            VALUE,
            {
                "validate": "decimal",
                "criteria": "between",
                "minimum": least,
                "maximum": most,
                "error_title": "This price cannot be built",
                "error_message": f"{name}: {shown}",
            },
        )

    def _frame(self, name: str, label: str, unit: str, note: str) -> None:
        self._sheet.text(self._row, LABEL, label)
        self._sheet.text(self._row, UNIT, unit.replace("money", self._currency), "text inset")
        self._sheet.text(self._row, NAME, name, "quiet")
        self._sheet.text(self._row, NOTE, note, "quiet")
        if name:
            self._book.raw.define_name(name, f"=Settings!$B${self._row + 1}")
        self._row += 1


def _style(unit: str) -> str:
    if unit in _SHARES:
        return "percent"
    return "whole" if unit == "1 or 0" else "fine" if unit == "money/m" else "money"
