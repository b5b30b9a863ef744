"""The main job and its halves: read, estimate, schedule, and write everything or nothing."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any, Literal

from quoting.books.cutting import MADE, cutting_writers
from quoting.books.output import OutputFolder, files_words
from quoting.customer_files import CustomerFiles, offers
from quoting.errors import RollwrightError
from quoting.estimate import estimate
from quoting.intake import not_taken, read_all, read_answers, with_answers
from quoting.parts import State
from quoting.record import make_record
from quoting.record_file import read_record
from quoting.result import Estimate
from quoting.risk import with_risk
from quoting.sensitivity import with_sensitivities
from quoting.shop import Shop, load_shop
from scheduler.quote_files import Writer, quote_writers, record_writer
from scheduler.summary import summary
from scheduler.week import WeekPlan
from scheduler.wishes import NO_WISHES, Wishes
from scheduler.wishes_file import read_wishes
from scheduler.won import plates_to_cut, won_lines
from scheduler.working_time import next_working_day

Say = Callable[[str], None]
Effort = Literal["quick", "normal", "thorough"]
AimName = Literal["money", "dates-first"]

RECORD_NAME = "result.json"


@dataclass(frozen=True, slots=True)
class Request:
    """What the user asked for: files in, folder out, the day, and how hard to search."""

    orders: tuple[Path, ...]
    shop_dir: Path
    out_dir: Path
    today: date
    answers: tuple[Path, ...] = ()
    customer: str = ""
    effort: Effort = "normal"
    seed: int = 0
    wishes: Path | None = None
    aim: AimName = "money"
    sensitivities: bool = False
    force: bool = False


def run_job(request: Request, *, start: date | None, say: Say) -> int:
    """Quote the orders and schedule every priced line; return the exit code."""
    folder = OutputFolder(request.out_dir, force=request.force)
    with folder.hold():
        wishes = _wishes(request)
        found = _estimate(request, say)
        record = make_record(found)
        first = start or next_working_day(found.today, found.shop)
        week = _plan(record, found.shop, first, request, wishes, say)
        writers = quote_writers(found, _promises(week)) | _schedule_writers(week, found.shop)
        writers |= cutting_writers(found, request.shop_dir, _cutting_starts(week))
        return _finish(folder, writers, found, record, week, request, say)


def quote_job(request: Request, *, say: Say) -> int:
    """Quote the orders; return the exit code."""
    folder = OutputFolder(request.out_dir, force=request.force)
    with folder.hold():
        found = _estimate(request, say)
        writers = quote_writers(found, {}) | cutting_writers(found, request.shop_dir)
        return _finish(folder, writers, found, make_record(found), None, request, say)


def schedule_job(
    record_path: Path,
    shop_dir: Path,
    out_dir: Path,
    *,
    start: date | None,
    won: Sequence[str] = (),
    effort: Effort = "normal",
    seed: int = 0,
    wishes: Path | None = None,
    aim: AimName = "money",
    force: bool = False,
    say: Say,
) -> int:
    """Schedule the won lines of a record; return the exit code."""
    shop = load_shop(shop_dir)
    folder = OutputFolder(out_dir, force=force)
    with folder.hold():
        record = read_record(record_path)
        first = start or next_working_day(date.fromisoformat(record["made"]["today"]), shop)
        search: dict[str, Any] = {"effort": effort, "seed": seed, "wishes": wishes, "aim": aim}
        request = Request((), shop_dir, out_dir, first, force=force, **search)
        week = _plan(record, shop, first, request, _wishes(request), say, set(won) or None)
        return _finish_schedule(folder, record, week, shop, say)


def _estimate(request: Request, say: Say) -> Estimate:
    shop = load_shop(request.shop_dir)
    say(f"reading {len(request.orders)} order sheet{'s' if len(request.orders) != 1 else ''}")
    answers = {id: text for path in request.answers for id, text in read_answers(path).items()}
    if request.customer:
        files = CustomerFiles(request.shop_dir, request.customer)
        orders = files.read(request.orders, shop, today=request.today, answers=answers)
        _tell(files.notes, say)
    else:
        read = read_all(request.orders, shop, today=request.today)
        orders = tuple(with_answers(order, answers, shop) for order in read)
        _tell(offers(request.shop_dir, orders), say)
    if lost := not_taken(orders, answers):
        say(f"answers that fit no question of these sheets: {', '.join(lost)}")
    found = estimate(orders, shop, today=request.today, effort=request.effort, seed=request.seed, say=say)
    say("drawing what could go otherwise")
    found = with_risk(found)
    return with_sensitivities(found, say=say) if request.sensitivities else found


def _wishes(request: Request) -> Wishes:
    """Return the scheduler's wishes; they are read before anything else, so that a slip in them is told at
    once."""
    return read_wishes(request.wishes) if request.wishes else NO_WISHES


def _plan(
    record: Mapping[str, Any],
    shop: Shop,
    start: date,
    request: Request,
    wishes: Wishes,
    say: Say,
    won: set[str] | None = None,
) -> WeekPlan:
    from scheduler.plan_week import plan_week  # noqa: PLC0415 - the solver is slow to import
    from scheduler.sequence import Aim  # noqa: PLC0415

    lines = won_lines(record, won)
    say(f"sequencing {len(lines)} lines from {start:%a %d %b %Y}")
    return plan_week(
        lines,
        plates_to_cut(record, lines),
        shop,
        start,
        effort=request.effort,
        seed=request.seed,
        wishes=wishes,
        aim=Aim.MONEY if request.aim == "money" else Aim.DATES_FIRST,
    )


def _promises(week: WeekPlan) -> dict[str, date]:
    return {line.id: week.finish_of(line.id).date() for line in week.lines}


def _cutting_starts(week: WeekPlan) -> dict[str, datetime]:
    return {slot.work.plate.id: slot.start for slot in week.slots if slot.work.plate is not None}


def _schedule_writers(week: WeekPlan, shop: Shop) -> dict[str, Writer]:
    from scheduler.books import write_run_schedule  # noqa: PLC0415 - only when there is a schedule

    return {
        f"run-schedule-{week.start:%Y-%m-%d}.xlsx": lambda path: write_run_schedule(
            week, path, inch=shop.inch, paper=shop.paper
        )
    }


def _finish(
    folder: OutputFolder,
    writers: dict[str, Writer],
    found: Estimate,
    record: dict[str, Any],
    week: WeekPlan | None,
    request: Request,
    say: Say,
) -> int:
    say("writing the books")
    _add_schedule(record, week)
    books = _written(folder, writers, record, say, stale=MADE)
    if request.customer:
        _remember(request, found, say)
    print(summary(record, week, folder.directory, books))
    done = all(row.state in {State.PRICED, State.IGNORED} for order in found.orders for row in order.rows)
    return 0 if done else 1


def _finish_schedule(
    folder: OutputFolder, record: dict[str, Any], week: WeekPlan, shop: Shop, say: Say
) -> int:
    say("writing the run schedule")
    _add_schedule(record, week)
    writers = _schedule_writers(week, shop)
    print(summary(record, week, folder.directory, _written(folder, writers, record, say)))
    return 1 if week.unplanned else 0


def _written(
    folder: OutputFolder,
    writers: dict[str, Writer],
    record: dict[str, Any],
    say: Say,
    *,
    stale: Sequence[str] = (),
) -> list[str]:
    """Write all files, the record last; return the names of the books as they came to be."""
    *books, _ = folder.write(writers | {RECORD_NAME: record_writer(record)}, stale=stale)
    _tell(folder.notes, say)
    return files_words([path.relative_to(folder.directory).as_posix() for path in books])


def _remember(request: Request, found: Estimate, say: Say) -> None:
    """Keep what was learnt of the customer; the books are out by now, so a failure is only told."""
    files = CustomerFiles(request.shop_dir, request.customer)
    try:
        files.keep(request.orders, [order.order for order in found.orders], request.today)
    except RollwrightError as error:
        say(f"nothing was kept of {request.customer}: {error}")
    _tell(files.notes, say)


def _tell(notes: list[str], say: Say) -> None:
    for note in notes:
        say(note)


def _add_schedule(record: dict[str, Any], week: WeekPlan | None) -> None:
    if week is not None:
        from scheduler.record import schedule_record  # noqa: PLC0415 - only when there is a schedule

        record["schedule"] = schedule_record(week)
