"""Jobs: won lines with the plates promised to them, where each stands, what the scheduler wishes of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Annotated, Any

from pydantic import AfterValidator, Field
from sqlalchemy import Connection, insert, select, update

from quoting.ledger.quotes import LedgerLine
from quoting.ledger.rack_now import CUT, RackNow, note_cut
from quoting.ledger.runs import JOB, keep_run, key_of, run_record
from quoting.ledger.sound import DayText, MomentText, MoneyText, SetDayText, sound
from quoting.ledger.tables import CUSTOMERS, INQUIRIES, JOB_PLATES, JOBS, LINES, PLATES, QUOTES, RUNS
from quoting.record import NestRecord, PlateRecord, PricedLineRecord, RunRecord
from quoting.shop import Shop

STATES = (
    "won",
    "plate ordered",
    "plate in",
    "cut",
    "on the roll",
    "rolled",
    "at the welder",
    "back",
    "done",
    "dropped",
)
"""Where a job stands, in the order it goes through; `dropped` may follow any but `done`."""

CLOSED = ("done", "dropped")
_PROMISED, _FREE = "promised", "free"


def _known_state(state: str) -> str:
    if state not in STATES:
        raise ValueError("no state of a job")
    return state


@dataclass(frozen=True, slots=True)
class LedgerJob:
    """A job as the ledger has it; days and moments are ISO text, empty when there is none.

    `run` is the run that holds what it is made of. `since` is when it got into its state, `roll` the roll it
    is on or was rolled on, `minutes_left` what is left of the rolling.
    """

    key: int
    line: str
    customer: str
    quote: str
    part: str
    price: MoneyText
    run: int
    state: Annotated[str, AfterValidator(_known_state)]
    order_no: str
    order_day: SetDayText
    quantity: Annotated[int, Field(ge=1, lt=10**6)]
    due: DayText
    promised: DayText
    must_ship: DayText
    not_before: MomentText
    pin_roll: str
    pin_day: DayText
    hold: bool
    rank: Annotated[int, Field(ge=0, lt=10**6)] | None
    minutes_left: Annotated[int, Field(ge=0, lt=10**6)] | None
    plate_in: DayText
    roll: str
    since: MomentText

    @property
    def open(self) -> bool:
        """Return whether there is still something to be done."""
        return self.state not in CLOSED


def keep_jobs(
    connection: Connection,
    record: RunRecord,
    lines: Sequence[LedgerLine],
    order_no: str,
    order_day: str,
    promised: Mapping[str, str],
) -> int:
    """Make jobs of won lines whose plates are those of this record's nests; return the record's run.

    `promised` holds the days promised, by line id: each is what the plan works to, unless more time was
    asked for.
    """
    run = keep_run(connection, JOB, record)
    plates = {
        plate.id: key_of(connection.execute(insert(PLATES).values(**_plate(run, nest, plate))))
        for nest in record.nest
        for plate in nest.plates
    }
    own = {line.id: line.plates for line in record.lines if isinstance(line, PricedLineRecord)}
    for line in lines:
        day = promised.get(line.line, "")
        job = key_of(
            connection.execute(
                insert(JOBS).values(
                    line_id=line.key,
                    run_id=run,
                    state=STATES[0],
                    order_no=order_no,
                    order_day=order_day,
                    quantity=line.quantity,
                    due=max(line.due, day) if line.due else day,
                    promised=max(line.due, day) if day and line.due else day,
                    hold=False,
                )
            )
        )
        for name in own.get(line.line, ()):
            connection.execute(insert(JOB_PLATES).values(job_id=job, plate_id=plates[name]))
    return run


def _plate(run: int, nest: NestRecord, plate: PlateRecord) -> dict[str, Any]:
    return {
        "run_id": run,
        "name": plate.id,
        "rack_id": plate.plate,
        "material": nest.material,
        "thickness_mm": nest.thickness_mm,
        "bought": plate.bought,
        "state": _PROMISED,
    }


def jobs_of(connection: Connection, *, closed: bool = False) -> tuple[LedgerJob, ...]:
    """Return the open jobs, with `closed` all of them, in the order they were won."""
    columns = [JOBS.c[name] for name in list(LedgerJob.__dataclass_fields__)[7:]]
    rows = connection.execute(
        select(
            JOBS.c.id,
            LINES.c.line,
            CUSTOMERS.c.name,
            QUOTES.c.number,
            LINES.c.part,
            LINES.c.price,
            JOBS.c.run_id,
            *columns,
        )
        .join(LINES, LINES.c.id == JOBS.c.line_id)
        .join(QUOTES, QUOTES.c.id == LINES.c.quote_id)
        .join(INQUIRIES, INQUIRIES.c.id == QUOTES.c.inquiry_id)
        .join(CUSTOMERS, CUSTOMERS.c.id == INQUIRIES.c.customer_id)
        .order_by(JOBS.c.id)
    ).all()
    found = (sound(LedgerJob, row) for row in rows)
    return tuple(job for job in found if closed or job.open)


def change_job(
    connection: Connection, job: LedgerJob, rack: RackNow | None = None, **values: Any
) -> LedgerJob:
    """Write some fields of a job and return it; its plates follow its state.

    `rack` is the rack's file when plates are cut: until they are out of it, later nests do not see them.
    """
    connection.execute(update(JOBS).where(JOBS.c.id == job.key).values(**values))
    after = replace(job, **values)
    if after.state == "dropped" and job.state != "dropped":
        _release(connection, after)
    elif STATES.index(after.state) >= STATES.index("cut") > STATES.index(job.state):
        mine = select(JOB_PLATES.c.plate_id).where(JOB_PLATES.c.job_id == job.key)
        keys = select(PLATES.c.id).where(PLATES.c.id.in_(mine), PLATES.c.state == _PROMISED)
        note_cut(connection, connection.execute(keys).scalars().all(), rack or RackNow())
    return after


def _release(connection: Connection, job: LedgerJob) -> None:
    """Give back the plates that no other open job is cut from."""
    mine = select(JOB_PLATES.c.plate_id).where(JOB_PLATES.c.job_id == job.key)
    others = (
        select(JOB_PLATES.c.plate_id)
        .join(JOBS, JOBS.c.id == JOB_PLATES.c.job_id)
        .where(JOBS.c.id != job.key, JOBS.c.state.not_in(CLOSED))
    )
    connection.execute(
        update(PLATES)
        .where(PLATES.c.id.in_(mine), PLATES.c.id.not_in(others), PLATES.c.state == _PROMISED)
        .values(state=_FREE)
    )


def promised(connection: Connection, rack: RackNow) -> Counter[str]:
    """Return how many plates of each id of the rack are promised, or cut and not out of the rack's file."""
    rows = connection.execute(
        select(PLATES.c.rack_id, PLATES.c.state, PLATES.c.rack).where(PLATES.c.bought.is_(False))
    ).all()
    return Counter(
        row.rack_id for row in rows if row.state == _PROMISED or (row.state == CUT and rack.may_list(row))
    )


def without_promised(shop: Shop, taken: Mapping[str, int]) -> Shop:
    """Return the shop with the rack as later nests may see it; sizes to buy stay, in any number."""
    if not taken:
        return shop
    kept = []
    for plate in shop.stock:
        if plate.count is None:
            kept.append(plate)
        elif plate.count > taken.get(plate.id, 0):
            kept.append(replace(plate, count=plate.count - taken.get(plate.id, 0)))
    return replace(shop, stock=tuple(kept))


@dataclass(frozen=True, slots=True)
class NestedRun:
    """A run that jobs are cut from: its key, and by plate name how each plate stands.

    A plate that was cut and is out of the rack's file is not in `states`: that file knows of it.
    """

    run: int
    states: Mapping[str, str]


def nested_runs(connection: Connection, rack: RackNow) -> tuple[NestedRun, ...]:
    """Return the runs that jobs were nested in, oldest first."""
    columns = (PLATES.c.run_id, PLATES.c.name, PLATES.c.state, PLATES.c.rack, PLATES.c.rack_id)
    rows = connection.execute(select(*columns).order_by(PLATES.c.id)).all()
    found: dict[int, dict[str, str]] = {}
    for row in rows:
        states = found.setdefault(row.run_id, {})
        if row.state != CUT or rack.may_list(row):
            states[row.name] = row.state
    return tuple(NestedRun(run, states) for run, states in sorted(found.items()))


def drops_given(connection: Connection, run: int) -> int:
    """Return how many ids of drops were given out on the day of a run of jobs before it."""
    day = connection.execute(select(RUNS.c.day).where(RUNS.c.id == run)).scalar_one()
    earlier = connection.execute(
        select(RUNS.c.id).where(RUNS.c.day == day, RUNS.c.kind == JOB, RUNS.c.id < run)
    ).scalars()
    return sum(
        len(plate.drops)
        for one in earlier
        for nest in run_record(connection, one).nest
        for plate in nest.plates
    )
