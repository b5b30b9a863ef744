"""The owner's month book over the ledger."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from functools import partial
from pathlib import Path

from quoting.books import OutputFolder, write_month
from quoting.hindsight import SET_ASIDE, LearnRules, MonthFigures, learn, month_figures
from quoting.ledger import Ledger, ledger_of
from quoting.ledger_commands.gather import Past
from quoting.ledger_commands.month_facts import month_facts
from quoting.shop import load_shop


@dataclass(frozen=True, slots=True)
class MonthRequest:
    """Which month (any day of it), as of which day, and where the book goes."""

    shop_dir: Path
    out_dir: Path
    today: date
    month: date
    force: bool = False


def month_job(request: MonthRequest) -> int:
    """Write the month book and print its first lines; return the exit code."""
    shop = load_shop(request.shop_dir)
    folder = OutputFolder(request.out_dir, force=request.force)
    ledger = ledger_of(request.shop_dir)
    with ledger.writing("month") as connection:
        past = Past(connection, shop)
        facts = replace(month_facts(past, request.today), beyond=_beyond(past, request, ledger))
        found = month_figures(facts, request.month)
        name = f"month-{request.month:%Y-%m}.xlsx"
        folder.write({name: partial(write_month, found, request.today)}, complete=connection.commit)
    print("\n".join([*_rows(found), f"files in    {folder.directory}", f"            {name}"]))
    return 0


def _beyond(past: Past, request: MonthRequest, ledger: Ledger) -> dict[str, float]:
    """Return the minutes of the month's lots beyond the book by step, most first; of lots that fit others."""
    lots, settings = past.lots(), ledger.settings
    learnt = learn(lots, LearnRules(request.today, settings.learning_spread, settings.half_life_days))
    mine = [
        lot
        for lot, weight in zip(lots, learnt.weights, strict=True)
        if weight >= SET_ASIDE and (lot.day.year, lot.day.month) == (request.month.year, request.month.month)
    ]
    return {place.words(past.shop): minutes for place, minutes in learnt.beyond(mine).items()}


def _rows(found: MonthFigures) -> list[str]:
    money = found.facts.currency
    rows = [
        f"quoted      {_sum([line.price for line in found.quoted])} {money} in {len(found.quoted)} lines",
        f"won         {_sum([line.price for line in found.won])} {money} in {len(found.won)} lines",
        f"delivered   {_sum([job.price for job in found.delivered])} {money} in {len(found.delivered)} jobs, "
        f"{len(found.told)} with their minutes",
    ]
    if found.told:
        price, quoted, real = (
            sum((getattr(job, name) for job in found.told), Decimal(0))
            for name in ("price", "quoted_margin", "real_margin")
        )
        rows.append(f"margin      {quoted / price:.1%} quoted, {real / price:.1%} made")
        worst, lost = next(iter(found.steps.items()))
        rows.append(f"lost        {worst} {lost:,.2f}" if lost > 0 else "lost        nothing")
    rows.append(f"late        {len(found.late)} of {found.in_time.of} jobs with a date")
    return rows


def _sum(values: list[Decimal]) -> str:
    return f"{sum(values, Decimal(0)):,.2f}"
