"""The short table at the end of a run."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

from quoting.words import first_few
from scheduler.cure_words import best_words
from scheduler.sequence import Aim, Saving
from scheduler.week import WeekPlan

LONGEST_LIST = 6


def summary(record: Mapping[str, Any], week: WeekPlan | None, directory: Path, files: Sequence[str]) -> str:
    """Return what was priced, what waits, what cannot be done, plates to buy, hours, late jobs and files."""
    rows = [("note", warning) for warning in record["made"]["warnings"]]
    rows += [
        *_orders(record),
        *_plates(record),
        *(week_rows(week) if week else ()),
        ("files in", str(directory)),
    ]
    rows += [("", name) for name in files]
    width = max(len(name) for name, _ in rows)
    return "\n".join(f"{name:<{width}}  {text}" for name, text in rows)


def _orders(record: Mapping[str, Any]) -> list[tuple[str, str]]:
    currency = record["made"]["currency"]
    rows = []
    for order in record["orders"]:
        counts = order["rows"]
        total = Decimal(order["total"]["total"])
        rows.append(
            (
                order["customer"],
                f"{counts['priced']} priced, {counts['question']} with questions, "
                f"{counts['no-quote']} no-quote, {counts['ignored']} rows that are no lines; "
                f"{total:,.2f} {currency}",
            )
        )
    for state, name in (("question", "waiting for answers"), ("no-quote", "cannot be done")):
        lines = [line["id"] for line in record["lines"] if line["state"] == state]
        if lines:
            rows.append((name, first_few(lines, LONGEST_LIST)))
    return rows


def _plates(record: Mapping[str, Any]) -> list[tuple[str, str]]:
    plates = [plate for group in record["nest"] for plate in group["plates"]]
    if not plates:
        return []
    bought = Counter(plate["plate"] for plate in plates if plate["bought"])
    rows = [
        (
            "plates",
            f"{len(plates)} cut, {sum(bought.values())} of them to buy, "
            f"{sum(plate['remnant'] for plate in plates)} remnants used",
        )
    ]
    if bought:
        rows.append(
            (
                "to buy",
                first_few([f"{count} x {name}" for name, count in sorted(bought.items())], LONGEST_LIST),
            )
        )
    return rows


def week_rows(week: WeekPlan) -> list[tuple[str, str]]:
    """Return the rows about the planned week: name and text."""
    last = f", last finish {week.last_finish:%a %d %b %H:%M}" if week.last_finish else ""
    rows = [("roll hours", f"{week.roll_minutes / 60:.1f} with set-ups{last}")]
    for saving in week.savings:
        rows.append((f"against {saving.name}", _saved(saving, week.currency)))
    of_what = "" if week.aim is Aim.MONEY else "late money "
    proven = "proven best" if week.plan.proven else f"within {week.gap:.0%} of the bound"
    cost = f"{week.plan.total:.2f} {week.currency} of set-ups, lateness, overtime and dearer rolls"
    rows.append(("plan", f"{cost}, {of_what}{proven}"))
    late = [f"{late.line.id} by {late.days} d" for late in week.late]
    rows.append(("late jobs", first_few(late, LONGEST_LIST) if late else "none"))
    rows += [
        ("", f"{late.line.id}: {words}") for late in week.late if (words := best_words(late, week.currency))
    ]
    rows += [("" if k else "notes", note) for k, note in enumerate(week.notes)]
    if week.unplanned:
        rows.append(("not planned", first_few([item.line.id for item in week.unplanned], LONGEST_LIST)))
    return rows


def _saved(saving: Saving, currency: str) -> str:
    """Return what the plan saves in set-ups, and in all its money, against a plain order."""
    minutes = f"{abs(saving.setup_minutes)} set-up min {'saved' if saving.setup_minutes >= 0 else 'more'}"
    money = f"{abs(saving.money):,.2f} {currency} {'saved' if saving.money >= 0 else 'more'}"
    return f"{minutes}, {money} in all"
