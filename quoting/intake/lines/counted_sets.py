"""Multiplies the pieces of one set by the sets that are ordered, where the sheet says both."""

from __future__ import annotations

import re

from quoting.core import Choice
from quoting.intake.layout import SheetRules
from quoting.intake.row_record import Doubt, Record
from quoting.intake.texts import LARGEST_COUNT

_OTHERWISE = re.compile(
    r"\b(only (for|on|in)|total|in all|for (all|both)|spares?|one (tank|vessel|set|unit))\b"
    r"|\b(tank|vessel|set|unit|silo|module|skid|stack)s?\b[^;]*\bonly\b",
    re.I,
)


def by_sets(record: Record, said: SheetRules) -> None:
    """Set the quantity of a row for all sets, and say how; ask where columns, notes or the row disagree."""
    values = record.values
    one, total, sets = values.get("per_unit"), values.get("quantity"), said.sets
    if values.get("units") or "quantity" in record.doubts:
        return
    if one and total:
        if sets and int(one) * sets != int(total):
            _ask(record, total, str(int(one) * sets), f"{one} per unit, {total} in all, and {sets} units")
        return
    count = one or (total if said.per_set else "")
    if total and not count and sets > 1 and said.in_all:
        record.assumptions.append(f"quantity {total} is for all {sets} units, as the sheet says")
    if not count or not sets or int(count) * sets > LARGEST_COUNT:
        return
    if sets > 1 and any(_OTHERWISE.search(row.text) for row in record.texts):
        _ask(record, count, str(int(count) * sets), f"{count} per unit, {sets} units")
        return
    values["quantity"] = str(int(count) * sets)
    record.assumptions.append(
        f"quantity {values['quantity']}: {count} per unit, {sets} units, as the sheet says"
    )


def _ask(record: Record, one: str, other: str, what: str) -> None:
    place, read = record.where("quantity")
    choices = tuple(Choice(number, (("quantity", number),)) for number in dict.fromkeys((one, other)))
    record.doubt(Doubt("quantity", place, read, f"The sheet says {what}: how many pieces in all?", choices))
