"""The main job: quote, schedule, and write everything or nothing; and the scheduling half of it alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import partial
from pathlib import Path
from typing import Literal

from quoting.books import MADE, OutputFolder, spoken
from quoting.commands import (
    PlannedDays,
    Promiser,
    QuoteRequest,
    Say,
    Writer,
    estimated,
    estimators_writers,
    ledger_of_run,
    summary,
    told,
    write_quotes,
    written,
    written_ahead,
)
from quoting.core import Doing, Effort, Sharing, beside, forks, made_ready, one_by_one, remembered_soon
from quoting.estimating import Estimate
from quoting.record import RunRecord, read_record
from quoting.recording import describe, make_record
from quoting.shop import Shop, load_shop
from scheduler.board import write_board
from scheduler.books import write_run_schedule
from scheduler.calendar import next_working_day
from scheduler.commands.week_summary import week_rows
from scheduler.commands.won_alone import won_alone
from scheduler.jobs import plates_to_cut, won_lines
from scheduler.papers import paper_writers
from scheduler.planning import PlanAsked, plan_week
from scheduler.sequence import Aim, compile_beside, compile_search, search_is_compiled
from scheduler.week import WeekPlan, schedule_record
from scheduler.wishes import NO_WISHES, Wishes, read_wishes

AimName = Literal["money", "dates-first"]


@dataclass(frozen=True, slots=True)
class PlanRequest:
    """How the week is planned: from which day, which lines (None: all), wishes, aim, how hard to search.

    `ordered` is the day on which plate is ordered that has to be bought; None: the day of the quote.
    """

    start: date | None = None
    ordered: date | None = None
    won: frozenset[str] | None = None
    wishes: Path | None = None
    aim: AimName = "money"
    effort: Effort = "normal"
    seed: int = 0


def run_job(
    request: QuoteRequest,
    plan: PlanRequest,
    *,
    say: Say,
    promise: Promiser | None = None,
    reader: Sharing = one_by_one,
) -> int:
    """Quote the orders, which `reader` reads, and schedule every priced line; return the exit code."""
    folder = OutputFolder(request.out_dir, force=request.force)
    cold = request.workers > 1 and not search_is_compiled()
    with folder.hold(), ledger_of_run(request) as ledger, _search_made_ready(request.workers, cold) as made:
        wishes = _wishes(plan)
        planner, wait = made
        begun: list[_Planning] = []

        def begin(found: Estimate) -> None:
            first = plan.start or next_working_day(found.today, found.shop)
            begun.append(_begin(describe(found), found.shop, first, plan, wishes, planner))

        # where the search is compiled first, to plan is what takes longest: it waits for the machine code
        found = estimated(request, ledger, say, begin, reader, patient=cold)
        record = make_record(found)
        with written_ahead(folder, estimators_writers(spoken(found)), request.workers) as taking:
            say(begun[0].told)
            wait()
            record = ledger.promised(record, promise, request.today, planner)
            week = begun[0].wait()
            record = replace(record, schedule=schedule_record(week))
            days = replace(_planned_days(week, found.shop), taking=taking)
            code = write_quotes(folder, found, record, request, ledger, days, say=say)
        return 1 if week.unplanned or week.given_up else code


@contextmanager
def _search_made_ready(workers: int, cold: bool) -> Iterator[tuple[Sharing, Callable[[], None]]]:
    """While the orders are quoted have the week's search loaded by the process that will plan, and be copied:
    the copy draws the days to promise.

    Also yields what to wait for before. `cold`: it is the first run of an installation, which compiles the
    search, in two processes.
    """
    with made_ready(compile_search, workers, copies=1) as planner:
        if not cold:
            yield planner, lambda: None
            return
        with beside(compile_beside if forks() else compile_search) as wait:
            yield planner, wait


def schedule_job(
    record_path: Path, shop_dir: Path, out_dir: Path, plan: PlanRequest, *, force: bool = False, say: Say
) -> int:
    """Schedule the won lines of a record; return the exit code."""
    shop = load_shop(shop_dir)
    folder = OutputFolder(out_dir, force=force)
    with folder.hold():
        record = read_record(record_path)
        first = plan.start or next_working_day(record.made.today, shop)
        alone = won_alone(record, plan.won, shop, _wishes(plan), say)
        planning = _begin(alone.record, shop, first, plan, alone.wishes)
        say(planning.told)
        week = planning.wait()
        say(Doing("writing the run schedule", stage="writing", share=0.0))
        record = replace(alone.record, schedule=schedule_record(week))
        writers = _schedule_writers(week, shop) | alone.writers(shop_dir, _cutting(week))
        books = written(folder, writers, record, say, stale=MADE if alone.found else ())
        print(summary(record, folder.directory, told(folder, books), more=[*alone.rows, *week_rows(week)]))
        return 1 if week.unplanned or week.given_up else 0


def _wishes(plan: PlanRequest) -> Wishes:
    """Return the scheduler's wishes; they are read before anything else, so that a slip in them is told at
    once."""
    return read_wishes(plan.wishes) if plan.wishes else NO_WISHES


@dataclass(frozen=True, slots=True)
class _Planning:
    """A week that is being planned: words on it, and what waits for it."""

    told: Doing
    wait: Callable[[], WeekPlan]


def _begin(
    record: RunRecord,
    shop: Shop,
    start: date,
    plan: PlanRequest,
    wishes: Wishes,
    planner: Sharing = one_by_one,
) -> _Planning:
    """Have the planner begin; of the record it takes lines and plates, as they are when prices stand."""
    lines = won_lines(record, plan.won)
    ordered = plan.ordered or record.made.today
    asked = PlanAsked(
        lines,
        plates_to_cut(record, lines, shop, start, ordered),
        shop,
        start,
        wishes=wishes,
        aim=Aim.MONEY if plan.aim == "money" else Aim.DATES_FIRST,
    )
    wait = remembered_soon(partial(plan_week, effort=plan.effort, seed=plan.seed), asked, planner)
    return _Planning(Doing(f"sequencing {len(lines)} lines from {start:%a %d %b %Y}"), wait)


def _planned_days(week: WeekPlan, shop: Shop) -> PlannedDays:
    return PlannedDays(
        ready={line.id: week.finish_of(line.id).date() for line in week.lines},
        cutting=_cutting(week),
        writers=_schedule_writers(week, shop),
        rows=week_rows(week),
    )


def _cutting(week: WeekPlan) -> dict[str, datetime]:
    """Return by plate when the plan cuts it."""
    return {slot.work.plate.id: slot.start for slot in week.slots if slot.work.plate is not None}


def _schedule_writers(week: WeekPlan, shop: Shop) -> dict[str, Writer]:
    day = f"{week.start:%Y-%m-%d}"
    schedule = partial(write_run_schedule, week, inch=shop.inch, paper=shop.paper)
    return {
        f"run-schedule-{day}.xlsx": schedule,
        **paper_writers(week, shop),
        f"board-{day}.html": partial(write_board, week, shop),
    }
