"""What is to be rushed, as jobs on the floor: an open job, a quote or lines of one, an order sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path

from sqlalchemy import Connection

from quoting.commands import QuoteRequest, Say, estimated, ledger_of_run, promises_in
from quoting.core import Effort, InputError
from quoting.ledger import OPEN, chosen, last_plan, ledger_of, lines_of, run_record
from quoting.record import RunRecord
from quoting.recording import make_record
from quoting.shop import Shop, load_shop
from scheduler.commands.on_ledger.ledger_floor import LedgerFloor, own_names
from scheduler.commands.on_ledger.plan_job import read_published
from scheduler.jobs import plates_to_cut, won_lines
from scheduler.replanning import Floor, FloorJob, Published


@dataclass(frozen=True, slots=True)
class RushRequest:
    """What is to ship by which day, asked at which moment: a job, a quote, a line of it, an order sheet."""

    what: str
    by: date
    shop_dir: Path
    moment: datetime
    effort: Effort = "normal"
    seed: int = 0


@dataclass(frozen=True, slots=True)
class RushFloor:
    """The floor with what is asked about in its turn, the names of that, and what was published last."""

    floor: Floor
    names: frozenset[str]
    published: Published | None
    facts: dict[str, str]
    shop: Shop

    def rushed(self, by: date) -> Floor:
        """Return the floor on which what is asked about has to ship by a day."""
        jobs = tuple(
            replace(job, line=replace(job.line, due=by), must_ship=by, hold=False)
            if job.line.id in self.names
            else job
            for job in self.floor.jobs
        )
        return replace(self.floor, jobs=jobs)


@contextmanager
def asked_about(request: RushRequest, say: Say) -> Iterator[RushFloor]:
    """Yield the floor with what is to be rushed on it; the ledger is as it was afterwards.

    Raises InputError when it is no open job, no open quote or line, and no file.
    """
    shop = load_shop(request.shop_dir)
    sheet = Path(request.what)
    if sheet.is_file():
        quote = QuoteRequest(
            (sheet,), request.shop_dir, Path(), request.moment.date(), effort=request.effort, ledger=True
        )
        with ledger_of_run(quote) as run:  # nothing is committed
            assert run.connection is not None
            record = make_record(estimated(quote, run, say))
            yield _with_lines(run.connection, request, shop, [(0, record, None)])
        return
    with ledger_of(request.shop_dir).reading() as connection:
        known = LedgerFloor(connection, shop)
        if request.what in known.jobs:
            published = read_published(last_plan(connection))
            yield RushFloor(
                known.floor(request.moment), frozenset([request.what]), published, known.facts(), shop
            )
            return
        lines = [line for line in chosen(lines_of(connection), [request.what]) if line.state == OPEN]
        if not lines:
            raise InputError(f"{request.what} is neither an open job nor open in a quote")
        runs = [
            (run, run_record(connection, run), [line.line for line in lines if line.run == run])
            for run in dict.fromkeys(line.run for line in lines)
        ]
        yield _with_lines(connection, request, shop, runs)


def _with_lines(
    connection: Connection,
    request: RushRequest,
    shop: Shop,
    runs: Sequence[tuple[int, RunRecord, list[str] | None]],
) -> RushFloor:
    """Return the floor with lines that are no jobs yet, each due on the day promised, ordered now."""
    known = LedgerFloor(connection, shop)
    floor = known.floor(request.moment)
    jobs, plates = list(floor.jobs), list(floor.plates)
    names: set[str] = set()
    today = request.moment.date()
    for run, record, wanted in runs:
        days = promises_in(record)
        lines = won_lines(record, wanted)
        names |= {line.id for line in lines}
        for line in lines:
            due = days[line.id].safe if line.id in days else line.due
            jobs.append(FloorJob(own_names(replace(line, due=due), run), "won"))
        plates += [
            replace(plate, id=f"{plate.id} ({run})")
            for plate in plates_to_cut(record, lines, shop, today, today)
        ]
    published = read_published(last_plan(connection))
    return RushFloor(
        replace(floor, jobs=tuple(jobs), plates=tuple(plates)),
        frozenset(names),
        published,
        known.facts(),
        shop,
    )
