"""The rows about the planned week in the short table at the end of a run."""

from __future__ import annotations

from quoting.commands import LONGEST_LIST
from quoting.core import first_few
from scheduler.books import USEFUL_GAP
from scheduler.cures import best_words
from scheduler.sequence import Aim, Saving
from scheduler.week import WeekPlan


def week_rows(week: WeekPlan) -> list[tuple[str, str]]:
    """Return the rows about the planned week: name and text."""
    last = f", last finish {week.last_finish:%a %d %b %H:%M}" if week.last_finish else ""
    rows = [("roll hours", f"{week.roll_minutes / 60:.1f} with set-ups{last}")]
    for saving in week.savings[:1]:
        rows.append(("against hand", f"{saving.name}, the best by hand: {_saved(saving, week.currency)}"))
    of_what = "" if week.aim is Aim.MONEY else "late money "
    proven = "proven best" if week.plan.proven else f"within {week.gap:.0%} of the bound"
    if not week.plan.proven and week.gap > USEFUL_GAP:
        proven = "not proven, no useful bound"
    cost = f"{week.plan.total:.2f} {week.currency} of set-ups, lateness, overtime and dearer rolls"
    rows.append(("plan", f"{cost}, {of_what}{proven}"))
    late = [f"{late.line.id} by {late.days} d" for late in week.late]
    rows.append(("late jobs", first_few(late, LONGEST_LIST) if late else "none"))
    rows += [
        ("", f"{late.line.id}: {words}") for late in week.late if (words := best_words(late, week.currency))
    ]
    rows += [("" if k else "notes", note) for k, note in enumerate(week.notes)]
    if week.fullest:
        rows.append(("holds back", week.fullest))
    if week.unplanned:
        rows.append(("not planned", first_few([item.line.id for item in week.unplanned], LONGEST_LIST)))
    return rows


def _saved(saving: Saving, currency: str) -> str:
    """Return what the plan saves in set-ups, and in all its money, against a plain order."""
    minutes = f"{abs(saving.setup_minutes)} set-up min {'saved' if saving.setup_minutes >= 0 else 'more'}"
    money = f"{abs(saving.money):,.2f} {currency} {'saved' if saving.money >= 0 else 'more'}"
    return f"{minutes}, {money} in all"
