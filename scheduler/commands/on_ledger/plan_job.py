"""All open jobs planned from a moment on: edits read, planned against the last plan, and published."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from quoting.books import OutputFolder, files_words
from quoting.commands import Say, Writer
from quoting.core import Doing, Effort, InputError, first_few
from quoting.ledger import STATES, damaged, jobs_of, keep_plan, last_plan, ledger_of
from quoting.shop import Shop, load_shop
from scheduler.books import not_told_words, write_run_schedule
from scheduler.commands.on_ledger.floor_job import floor_writers
from scheduler.commands.on_ledger.ledger_floor import LedgerFloor
from scheduler.commands.week_summary import week_rows
from scheduler.floorbook import floor_tasks
from scheduler.jobsbook import JobsBook, not_kept, read_jobs_book, write_jobs_book
from scheduler.papers import paper_writers
from scheduler.replanning import Published, PublishedWork, Replanned, ReplanRules, published_of, replan

MOST_NAMED = 8


@dataclass(frozen=True, slots=True)
class FloorPlanRequest:
    """From which moment the floor is planned, with which edited jobs book; `keep` publishes the plan."""

    shop_dir: Path
    out_dir: Path
    moment: datetime
    book: Path | None = None
    effort: Effort = "normal"
    seed: int = 0
    keep: bool = True
    force: bool = False


def plan_job(request: FloorPlanRequest, *, say: Say) -> int:
    """Plan the floor, write its books and publish the plan, or change nothing; return the exit code."""
    shop = load_shop(request.shop_dir)
    ledger = ledger_of(request.shop_dir)
    folder = OutputFolder(request.out_dir, force=request.force)
    with folder.hold(), ledger.writing("plan") as connection:
        if not jobs_of(connection):
            raise InputError("there is no open job", would_do="note what was won with `rollwright won`")
        floor = LedgerFloor(connection, shop)
        if request.book is not None:
            edited = read_jobs_book(request.book, floor.rules())
            changed = floor.take(edited, request.moment, ledger.rack_now(shop))
            say(f"{changed} jobs changed by {request.book.name}")
            floor = LedgerFloor(connection, shop)
        published = read_published(last_plan(connection))
        rules = ReplanRules(
            ledger.settings.move_cost, ledger.settings.frozen_hours, request.effort, request.seed
        )
        say(Doing(f"planning {len(floor.jobs)} open jobs from {request.moment:%a %d %b %H:%M}"))
        found = replan(floor.floor(request.moment), shop, published, floor.facts(), rules)
        now = published_of(found.week, request.moment, floor.facts())
        keep_plan(
            connection,
            datetime.now().isoformat(" ", "seconds"),
            request.moment.isoformat(" ", "minutes"),
            str(found.week.plan.total),
            _written(now) | {"tasks": [asdict(task) for task in floor_tasks(found.week, shop)]},
        )
        book = floor.book(now)
        writers = _writers(found, book, request, shop)
        if request.keep:
            writers |= _papers(found, request, shop) | floor_writers(connection, shop)
            paths = folder.write(writers, complete=connection.commit)
        else:
            paths = folder.write(writers)
            connection.rollback()
    names = files_words([path.relative_to(folder.directory).as_posix() for path in paths])
    missed = not_kept(book)
    rows = [*change_rows(found), *(("not kept", text) for text in missed), *week_rows(found.week)]
    rows.append(("files in", str(folder.directory)))
    rows += [("", name) for name in names]
    print("\n".join(f"{name:<14}{text}" for name, text in rows))
    return 1 if found.week.unplanned or missed else 0


def _papers(found: Replanned, request: FloorPlanRequest, shop: Shop) -> dict[str, Writer]:
    """Return travellers and week sheets: the floor writes into their boxes what the floor book asks."""
    day, stamp = f"{found.week.start:%Y-%m-%d}", f"{request.moment:%Y-%m-%d-%H%M}"
    return {name.replace(day, stamp): write for name, write in paper_writers(found.week, shop).items()}


def _writers(found: Replanned, book: JobsBook, request: FloorPlanRequest, shop: Shop) -> dict[str, Writer]:
    stamp = f"{request.moment:%Y-%m-%d-%H%M}"

    def schedule(path: Path) -> None:
        write_run_schedule(found.week, path, inch=shop.inch, paper=shop.paper, replanned=found)

    def jobs(path: Path) -> None:
        write_jobs_book(
            book,
            path,
            shop=shop.name,
            paper=shop.paper,
            rolls=[roll.name for roll in shop.rolls],
            states=STATES,
            day=request.moment.date(),
        )

    return {f"run-schedule-{stamp}.xlsx": schedule, f"jobs-{stamp}.xlsx": jobs}


def change_rows(found: Replanned) -> list[tuple[str, str]]:
    """Return what is different from the published plan, as rows of a short table."""
    kept = found.stability
    if kept is None:
        return [("jobs", f"{len(found.week.lines)} planned, nothing was published before")]
    rows = [
        (
            "kept",
            f"{kept.jobs - kept.forced - kept.moved} of {kept.jobs - kept.forced} jobs that nothing forces "
            f"keep roll and day; {kept.forced} are forced",
        ),
        (
            "money",
            f"{found.week.plan.total:.2f}, {found.extra_share:+.1%} against planning from scratch "
            f"({found.scratch:.2f})",
        ),
    ]
    if found.not_told:
        rows.append(("not told", not_told_words(found.not_told)))
    for one in found.moved[:MOST_NAMED]:
        rows.append(
            (
                "moved",
                f"{one.line}: {one.was_on} {one.was_at:%a %d} -> {one.now_on} {one.now_at:%a %d}, {one.why}",
            )
        )
    if len(found.moved) > MOST_NAMED:
        rows.append(("", f"and {len(found.moved) - MOST_NAMED} more, on the sheet What changed"))
    if found.new:
        rows.append(("new", first_few(found.new, MOST_NAMED)))
    if found.gone:
        rows.append(("gone", first_few(found.gone, MOST_NAMED)))
    return rows


def _written(plan: Published) -> dict[str, Any]:
    return {
        "moment": plan.moment.isoformat(),
        "works": {
            name: [work.line, work.kind, work.machine, work.start.isoformat(), work.end.isoformat()]
            for name, work in plan.works.items()
        },
        "overtime": sorted([machine, start.isoformat()] for machine, start in plan.overtime),
        "facts": dict(plan.facts),
    }


def read_published(plan: Mapping[str, Any] | None) -> Published | None:
    """Return a published plan from the values that the ledger keeps."""
    if plan is None:
        return None
    moment = datetime.fromisoformat
    try:
        return Published(
            moment(plan["moment"]),
            {
                name: PublishedWork(str(line), str(kind), str(machine), moment(start), moment(end))
                for name, (line, kind, machine, start, end) in plan["works"].items()
            },
            frozenset((str(machine), moment(start)) for machine, start in plan["overtime"]),
            {str(line): str(fact) for line, fact in plan["facts"].items()},
        )
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise damaged("the published plan cannot be read", error) from error
