"""A cure of a late line in the words of a scheduler: what comes of it, what it costs, whom it hurts."""

from __future__ import annotations

from decimal import Decimal

from quoting.core import first_few
from scheduler.calendar import hours_words
from scheduler.week import Cure, Late

LEAST_SHOWN = Decimal("0.005")
MOST_NAMED = 4

KINDS = {
    "order": "putting it ahead",
    "overtime": "overtime",
    "Saturday": "a Saturday",
    "wish": "dropping a wish",
    "roll": "another roll",
    "plate": "plate sooner",
    "split": "two lots",
}
"""What was tried, by kind."""


def outcome_words(cure: Cure) -> str:
    """Return whether the line is then on time, or by how much it is less late."""
    if cure.on_time:
        return "on time"
    return f"{hours_words(cure.less_late)} less late, still {hours_words(cure.late)}"


def price_words(cure: Cure, currency: str) -> str:
    """Return what the whole plan then costs more or less."""
    if abs(cure.money) < LEAST_SHOWN:
        words = "costs nothing"
    else:
        verb = "costs" if cure.money > 0 else "saves"
        words = f"{verb} {abs(cure.money):,.2f} {currency}"
    return f"{words}, sooner plate not counted" if cure.kind == "plate" else words


def others_words(cure: Cure) -> str:
    """Return which other lines get late or later, and how many move to a later day in time."""
    told = [
        f"{later.line} late by {hours_words(later.after)}"
        if not later.before
        else f"{later.line} {hours_words(later.after - later.before)} later still"
        for later in cure.later
    ]
    names = first_few(told, MOST_NAMED)
    moved = len(cure.moved)
    days = f"{moved} other{'s' if moved > 1 else ''} a day or more later, in time" if moved else ""
    return "; ".join(part for part in (names, days) if part) or "no other line suffers"


def best_words(late: Late, currency: str) -> str:
    """Return the first cure in one sentence, or that none was found; empty for a line not looked into."""
    if not late.tried:
        return ""
    if not late.cures:
        return f"no change tried cures it ({tried_words(late)})"
    cure = late.cures[0]
    hurt = f"; {others_words(cure)}" if cure.later else ""
    return f"{cure.do}: {outcome_words(cure)}, {price_words(cure, currency)}{hurt}"


def tried_words(late: Late) -> str:
    """Return the kinds of change that were tried."""
    return "tried: " + ", ".join(KINDS[kind] for kind in late.tried)
