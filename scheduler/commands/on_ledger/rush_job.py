"""What it takes to ship work by a day: who moves, who is late, set-ups, overtime, money; a question only.

A day that is proven too soon is said at once, with the proof and the first day that is worth asking for.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date
from decimal import Decimal

from quoting.commands import Say
from quoting.core import first_few
from quoting.ledger import ledger_of
from scheduler.calendar import day_short
from scheduler.commands.on_ledger.rushed import RushFloor, RushRequest, asked_about
from scheduler.replanning import Replanned, ReplanRules, TooSoon, published_of, replan, too_soon

MOST_NAMED = 10


def rush_job(request: RushRequest, *, say: Say) -> int:
    """Plan the work in its turn and rushed, print the difference, change nothing; return the exit code."""
    settings = ledger_of(request.shop_dir).settings
    rules = ReplanRules(settings.move_cost, settings.frozen_hours, request.effort, request.seed)
    with asked_about(request, say) as asked:
        proof = too_soon(asked.rushed(request.by), asked.shop, asked.names, request.by)
        if proof is not None:
            return _told(refused_rows(request, asked.names, proof))
        before = replan(asked.floor, asked.shop, asked.published, asked.facts, rules)
        held = published_of(before.week, request.moment, asked.facts)
        changed = {**asked.facts, **{name: f"{asked.facts.get(name)} rush" for name in asked.names}}
        after = replan(asked.rushed(request.by), asked.shop, held, changed, rules)
    return _told(rush_rows(request, asked, before, after))


def _told(rows: Sequence[tuple[str, str]]) -> int:
    print("\n".join(f"{name:<14}{text}" for name, text in rows))
    return 0


def refused_rows(request: RushRequest, names: Collection[str], proof: TooSoon) -> list[tuple[str, str]]:
    """Return that a day is too soon, why, and which day to ask for, as rows of a short table."""
    rows = [("rush", f"{first_few(sorted(names), MOST_NAMED)} CANNOT ship by {day_short(request.by)}")]
    if proof.alone:
        ends = [f"{line} on {day_short(day)}" for line, day in sorted(proof.alone.items(), key=_by_day)]
        rows.append(("why", "with the shop to itself and all overtime, done at the soonest:"))
        rows.append(("", first_few(ends, MOST_NAMED)))
    if (crowd := proof.crowd) is not None:
        lines = first_few([ship.job for ship in crowd.ships], MOST_NAMED)
        rows.append(
            (
                "why",
                f"{lines} need at least {crowd.needs / 60:.1f} h on {', '.join(crowd.machines)}; "
                f"{crowd.open / 60:.1f} h are open until then, all overtime among them",
            )
        )
    if proof.first is None:
        rows.append(("soonest", "no day within the weeks that are planned ahead"))
    else:
        rows.append(("soonest", f"not before {day_short(proof.first)}: ask again with --by {proof.first}"))
    rows.append(("", "nothing was changed"))
    return rows


def _by_day(item: tuple[str, date]) -> tuple[date, str]:
    return item[1], item[0]


def rush_rows(
    request: RushRequest, asked: RushFloor, before: Replanned, after: Replanned
) -> list[tuple[str, str]]:
    """Return what the rush does, as rows of a short table."""
    one, two = before.week, after.week
    names = sorted(asked.names)
    planned = {line.id for line in two.lines} & {line.id for line in one.lines}
    if lost := [name for name in names if name not in planned]:
        return [("rush", f"{first_few(lost, MOST_NAMED)} finds no place in the plan")]
    ends = max(two.finish_of(name) for name in names)
    kept = ends.date() <= request.by
    told = first_few(names, MOST_NAMED)
    plural = "" if len(names) > 1 else "s"
    rows = [("rush", f"{told} {f'ship{plural}' if kept else 'CANNOT ship'} by {day_short(request.by)}")]
    in_turn = max(one.finish_of(name) for name in names)
    rows.append(("ends", f"{day_short(ends)} {ends:%H:%M}, in its turn {day_short(in_turn)}"))
    moved = [line.line for line in after.moved if line.line not in asked.names]
    rows.append(("moved", first_few(moved, MOST_NAMED) if moved else "no other job"))
    was_late = {late.line.id: late.days for late in one.late}
    late = [
        f"{late.line.id} by {late.days} d"
        for late in two.late
        if late.days > was_late.get(late.line.id, 0) and late.line.id not in asked.names
    ]
    rows.append(("late", first_few(late, MOST_NAMED) if late else "nobody else"))
    minutes = two.plan.setup_minutes - one.plan.setup_minutes
    rows.append(("set-ups", f"{minutes:+d} min"))
    rows.append(("overtime", f"{two.plan.cost.overtime - one.plan.cost.overtime:+.2f} {two.currency}"))
    extra = _of_others(after, asked) - _of_others(before, asked)
    rows.append(("premium", f"{max(extra, Decimal(0)):.2f} {two.currency} pays for it; nothing was changed"))
    return rows


def _of_others(found: Replanned, asked: RushFloor) -> Decimal:
    """Return a plan's money without what the rushed work itself would cost for being late."""
    own = sum((late.cost for late in found.week.late if late.line.id in asked.names), Decimal(0))
    return found.week.plan.total - own
