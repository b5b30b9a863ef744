"""The owner's month book over the ledger."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import partial
from pathlib import Path

from quoting.books import OutputFolder, write_month
from quoting.hindsight import MonthFigures, month_figures
from quoting.ledger import ledger_of
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
    with ledger_of(request.shop_dir).writing("month") as connection:
        found = month_figures(month_facts(Past(connection, shop), request.today), request.month)
        name = f"month-{request.month:%Y-%m}.xlsx"
        folder.write({name: partial(write_month, found, request.today)}, complete=connection.commit)
    print("\n".join([*_rows(found), f"files in    {folder.directory}", f"            {name}"]))
    return 0


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
