"""What it takes to ship a job by a day: who moves, who is late, set-ups, overtime, money; a question only."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path

from quoting.core import Effort, InputError, first_few
from quoting.ledger import last_plan, ledger_of
from quoting.shop import did_you_mean, load_shop
from scheduler.calendar import day_short
from scheduler.commands.on_ledger.ledger_floor import LedgerFloor
from scheduler.commands.on_ledger.plan_job import read_published
from scheduler.replanning import Floor, Replanned, ReplanRules, published_of, replan

MOST_NAMED = 10


@dataclass(frozen=True, slots=True)
class RushRequest:
    """Which job is to ship by which day, asked at which moment."""

    line: str
    by: date
    shop_dir: Path
    moment: datetime
    effort: Effort = "normal"
    seed: int = 0


def rush_job(request: RushRequest) -> int:
    """Plan with and without the rush and print the difference; nothing is changed. Return the exit code."""
    shop = load_shop(request.shop_dir)
    ledger = ledger_of(request.shop_dir)
    with ledger.reading() as connection:
        known = LedgerFloor(connection, shop)
        published = read_published(last_plan(connection))
        if request.line not in known.jobs:
            raise InputError(
                f"no open job is called {request.line}", would_do=did_you_mean(request.line, known.jobs)
            )
        floor, facts = known.floor(request.moment), known.facts()
    rules = ReplanRules(ledger.settings.move_cost, ledger.settings.frozen_hours, request.effort, request.seed)
    before = replan(floor, shop, published, facts, rules)
    held = published_of(before.week, request.moment, facts)
    changed = {**facts, request.line: f"{facts[request.line]} rush"}
    after = replan(_rushed(floor, request), shop, held, changed, rules)
    print("\n".join(f"{name:<14}{text}" for name, text in rush_rows(request, before, after)))
    return 0


def _rushed(floor: Floor, request: RushRequest) -> Floor:
    jobs = tuple(
        replace(job, line=replace(job.line, due=request.by), must_ship=request.by, hold=False)
        if job.line.id == request.line
        else job
        for job in floor.jobs
    )
    return replace(floor, jobs=jobs)


def rush_rows(request: RushRequest, before: Replanned, after: Replanned) -> list[tuple[str, str]]:
    """Return what the rush does, as rows of a short table."""
    one, two = before.week, after.week
    planned = {line.id for line in two.lines}
    if request.line not in planned:
        return [("rush", f"{request.line} finds no place in the plan")]
    ends = two.finish_of(request.line)
    kept = ends.date() <= request.by
    rows = [("rush", f"{request.line} {'ships' if kept else 'CANNOT ship'} by {day_short(request.by)}")]
    rows.append(("ends", f"{day_short(ends)} {ends:%H:%M}, before {day_short(one.finish_of(request.line))}"))
    moved = [line.line for line in after.moved if line.line != request.line]
    rows.append(("moved", first_few(moved, MOST_NAMED) if moved else "no other job"))
    was_late = {late.line.id: late.days for late in one.late}
    late = [
        f"{late.line.id} by {late.days} d"
        for late in two.late
        if late.days > was_late.get(late.line.id, 0) and late.line.id != request.line
    ]
    rows.append(("late", first_few(late, MOST_NAMED) if late else "nobody else"))
    minutes = two.plan.setup_minutes - one.plan.setup_minutes
    rows.append(("set-ups", f"{minutes:+d} min"))
    rows.append(("overtime", f"{two.plan.cost.overtime - one.plan.cost.overtime:+.2f} {two.currency}"))
    extra = two.plan.total - one.plan.total
    rows.append(("premium", f"{max(extra, Decimal(0)):.2f} {two.currency} pays for it; nothing was changed"))
    return rows
