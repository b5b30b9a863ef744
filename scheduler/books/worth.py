"""What a plan is worth, in plain words: its money, the bound, and what is left between the two."""

from __future__ import annotations

from decimal import Decimal
from statistics import mean

from scheduler.sequence import Aim, Plan, Saving
from scheduler.week import WeekPlan

USEFUL_GAP = 0.25
"""From this share of the money on a bound is no measure of the plan any more."""

LEAST_SHOWN = Decimal("0.005")
"""Parts of the money under half a cent are not named."""


def money_words(amount: Decimal, currency: str) -> str:
    """Return an amount with its currency.

    >>> money_words(Decimal("1234.5"), "USD")
    '1,234.50 USD'
    """
    return f"{amount:,.2f} {currency}"


def cost_words(plan: Plan, currency: str) -> str:
    """Return what the plan costs and what that is made of."""
    cost = plan.cost
    named = (
        ("set-up", cost.setup),
        ("lateness", cost.lateness),
        ("overtime", cost.overtime),
        ("unfinished work", cost.wip),
        ("dearer rolls", cost.running),
    )
    parts = [f"{name} {amount:,.2f}" for name, amount in named if amount >= LEAST_SHOWN]
    told = f" = {' + '.join(parts)}" if len(parts) > 1 else f", all of it {parts[0]}" if parts else ""
    return f"This order costs {money_words(plan.total, currency)}{told}."


def proof_words(week: WeekPlan) -> str:
    """Return how far from the best the plan can be at most."""
    plan, currency = week.plan, week.currency
    if week.aim is Aim.DATES_FIRST:
        return _dates_words(week)
    if plan.proven:
        return "Proven best: no order of these jobs costs less."
    left = plan.total - plan.bound
    if plan.gap > USEFUL_GAP:
        return (
            f"Not proven best, and no useful bound is known: no order can cost less than "
            f"{money_words(plan.bound, currency)}, but lateness from waiting in a queue is not in that."
        )
    return (
        f"Not proven best. No order can cost less than {money_words(plan.bound, currency)}, so at most "
        f"{left:,.2f} ({plan.gap:.0%} of the cost) could still be saved."
    )


def _dates_words(week: WeekPlan) -> str:
    aim = "Aim: dates first, then set-ups and the rest. "
    if week.plan.proven:
        return aim + "Proven best in dates: no order of these jobs has less late money."
    left = week.goal - week.plan.bound
    if week.gap > USEFUL_GAP:
        return (
            f"{aim}Not proven best in dates, and no useful bound is known: no order can have less late money "
            f"than {money_words(week.plan.bound, week.currency)}, but lateness from waiting in a queue is "
            "not in that."
        )
    return (
        f"{aim}Not proven best in dates. No order can have less late money than "
        f"{money_words(week.plan.bound, week.currency)}, so of the {week.goal:,.2f} here at most {left:,.2f} "
        f"({week.gap:.0%}) could still be saved."
    )


def slack_words(week: WeekPlan) -> str:
    """Return how long before their due days the lines end that keep them; empty where none has a date."""
    late = {item.line.id for item in week.late}
    kept = {line.id: line.due for line in week.lines if line.due and line.id not in late}
    spare = [(due - week.finish_of(name).date()).days for name, due in kept.items()]
    if not spare:
        return ""
    if len(spare) == 1:
        return f"Slack: the line that keeps its date ends {spare[0]} days before it."
    last = spare.count(0)
    told = f", {last} of them on the due day itself" if last else ""
    return (
        f"Slack: the {len(spare)} lines that keep their dates end {mean(spare):.1f} days before them "
        f"on average{told}. Of plans that cost the same the one with more slack is taken."
    )


def saving_words(saving: Saving, currency: str) -> str:
    """Return in one line what the plan saves against the best order by hand, also when that is little."""
    minutes = saving.setup_minutes
    told = f"{abs(minutes)} set-up minutes {'saved' if minutes >= 0 else 'more'}"
    money = f"{money_words(abs(saving.money), currency)} {'saved' if saving.money >= 0 else 'more'}"
    return f"Against {saving.name}, the best by hand: {told}, {money} in all."
