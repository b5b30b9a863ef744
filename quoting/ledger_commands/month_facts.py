"""From the ledger to the facts of a month: jobs as quoted and as they went, lines as they ended."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from decimal import Decimal

from quoting.estimating import Estimate, LineResult, price_of
from quoting.hindsight import JobDone, LineDecided, MonthFacts, PlateLeft
from quoting.ledger import (
    FloorReport,
    FloorTask,
    LedgerJob,
    LedgerLine,
    first_seen,
    first_tasks,
    line_days,
    lines_of,
    note_event,
    plates_by_job,
    run_record,
    typed_plate_days,
)
from quoting.ledger_commands.gather import Past, shape_words
from quoting.record import PricedLineRecord
from quoting.shop import Shop, hours_a_week

RACK = "rack"
_LONGER = 1.25
"""From this many times the planned minutes on, they are told as a reason of being late."""
_CENT = Decimal("0.01")


def month_facts(past: Past, today: date) -> MonthFacts:
    """Return what the ledger knows of jobs, lines, plate and rack; plates seen first today are noted so."""
    shop, connection = past.shop, past.connection
    lines = lines_of(connection)
    quoted = {line.line: line for line in lines}
    plates = _PlateDays(plates_by_job(connection), first_tasks(connection), typed_plate_days(connection))
    jobs = [
        done
        for job in past.jobs.values()
        if (done := _Job(past, job, quoted[job.line], plates).done()) is not None
    ]
    return MonthFacts(
        shop=shop.name,
        currency=shop.rates.currency,
        paper=shop.paper,
        jobs=tuple(jobs),
        lines=tuple(_decided(past, lines)),
        rack=_rack(past, today),
        hours_a_week={roll.name: hours_a_week(shop.working_time) for roll in shop.rolls},
        plate_used=_plate_used(past, [job.line for job in jobs]),
    )


@dataclass(frozen=True, slots=True)
class _PlateDays:
    """The plates of every job, when each was first planned to be cut, the day typed for it to be in."""

    by_job: Mapping[str, tuple[str, ...]]
    first: Mapping[str, FloorTask]
    typed: Mapping[str, str]


class _Job:
    """One job with its reports and what it was quoted at."""

    def __init__(self, past: Past, job: LedgerJob, line: LedgerLine, plates: _PlateDays) -> None:
        self.past, self.job, self.line, self.plates = past, job, line, plates
        self.reports = [one for one in past.reports if one.line == job.line]

    def done(self) -> JobDone | None:
        """Return the job as it went, None when it is not finished or nothing was worked out for it."""
        quoted = self.past.result(self.line.run, self.line.line)
        estimate = self.past.estimate(self.line.run)
        if quoted is None or estimate is None or quoted.drivers is None or quoted.price is None:
            return None
        if not self._finished(quoted):
            return None
        timed = [one for one in self.reports if one.timed]
        setup, run = (sum(one[at] for one in map(_apart, timed)) for at in (0, 1))
        told = bool(timed) and len(timed) == len(self.reports)
        lost = self._lost(quoted, estimate, setup, run) if told else {}
        cost = quoted.price.parts.cost
        day = max((one.day for one in self.reports), default=self.job.since[:10])
        finished = date.fromisoformat(day) if day else None
        due = date.fromisoformat(self.job.due) if self.job.due else None
        planned = [one.planned for one in timed if one.planned]
        return JobDone(
            line=self.job.line,
            customer=self.job.customer,
            quote=self.job.quote,
            part=f"{self.job.quantity} × {self.job.part}",
            shape=shape_words(quoted),
            roll=self.job.roll or (self.reports[0].machine if self.reports else quoted.routes[0].roll),
            price=Decimal(self.job.price),
            quoted_cost=cost,
            real_cost=cost + sum(lost.values(), Decimal(0)),
            lost=lost,
            planned_setup=sum(task.setup for task in planned),
            planned_run=sum(task.run for task in planned),
            setup=setup,
            run=run,
            finished=finished,
            due=due,
            why_late=self._why(due) if finished and due and finished > due else "",
            scrapped=sum(one.scrap or 0 for one in self.reports),
            told=told,
        )

    def _finished(self, quoted: LineResult) -> bool:
        return self.job.state == "done" or (self.job.state == "rolled" and not quoted.line.re_round)

    def _lost(self, quoted: LineResult, estimate: Estimate, setup: float, run: float) -> dict[str, Decimal]:
        """Return by step how much dearer the job was than quoted, one thing changed at a time."""
        drivers, shop = quoted.drivers, estimate.shop
        assert drivers is not None
        crane = drivers.crane_minutes * run / drivers.rolling_minutes if drivers.rolling_minutes else 0.0
        made = self.past.result(self.job.run, self.job.line)
        plate = made.drivers if made and made.drivers else drivers
        pieces = sum(rolling.quantity for rolling in quoted.routes[0].rollings)
        scrapped = sum(one.scrap or 0 for one in self.reports)
        net = plate.plate_cost - plate.drop_credit
        ways = {
            "set-up": replace(drivers, setup_minutes=setup),
            "rolling": replace(drivers, rolling_minutes=run, crane_minutes=crane),
            "plate": replace(drivers, plate_cost=plate.plate_cost, drop_credit=plate.drop_credit),
            "scrap": replace(drivers, plate_cost=drivers.plate_cost + _money(net * scrapped / pieces)),
            "cutting": replace(drivers, cutting_cost=max(Decimal(0), plate.cutting_cost + self._cut(shop))),
        }
        base = price_of(drivers, shop).parts.cost
        return {step: price_of(way, shop).parts.cost - base for step, way in ways.items()}

    def _cut(self, shop: Shop) -> Decimal:
        """Return what cutting took longer than planned, the job's share of its plates by head."""
        by_job = self.plates.by_job
        extra = 0.0
        for report in self.past.reports:
            if report.kind != "cut" or report.run is None or report.planned is None:
                continue
            owners = [line for line, plates in by_job.items() if report.task in plates]
            if self.job.line in owners:
                extra += (report.run - report.planned.run) / len(owners)
        return _money(shop.cutting.rate_per_hour * Decimal(str(round(extra, 4))) / 60)

    def _why(self, due: date | None) -> str:
        """Return why a job was late, as far as papers tell: remarks, the plan itself, longer minutes."""
        reasons = [one.remark for one in self.reports if one.remark][:1] + self._plate_late()
        for one in self.reports:
            task = one.planned
            if task is None:
                continue
            ends = datetime.fromisoformat(task.start) + timedelta(minutes=task.setup + task.run)
            if due and ends.date() > due:
                reasons.append(f"planned late, for {ends:%d %b}")
            elif one.day > task.start[:10]:
                reasons.append(f"planned for {ends:%d %b}, rolled on {date.fromisoformat(one.day):%d %b}")
            took, planned = sum(_apart(one)) if one.timed else 0.0, task.setup + task.run
            if planned and took > _LONGER * planned:
                reasons.append(f"took {took:.0f} min where {planned:.0f} were planned")
        return "; ".join(dict.fromkeys(reasons)) or "nobody wrote down why"

    def _plate_late(self) -> list[str]:
        """Return that a plate came later than the first plan cuts it; the day is that of the jobs book."""
        for plate in self.plates.by_job.get(self.job.line, ()):
            first = self.plates.first.get(plate)
            came = self.job.plate_in or self.plates.typed.get(plate, "")
            if first is not None and came > first.start[:10]:
                came_on, cut_on = date.fromisoformat(came), date.fromisoformat(first.start[:10])
                return [f"its plate came on {came_on:%d %b}, first planned to be cut on {cut_on:%d %b}"]
        return []


def _apart(report: FloorReport) -> tuple[float, float]:
    """Return set-up and running minutes; a total is split as it was planned."""
    if report.run is not None:
        return report.setup or 0.0, report.run
    task = report.planned
    whole = (task.setup + task.run) if task else 0.0
    share = task.setup / whole if task and whole else 0.0
    both = report.both or 0.0
    return both * share, both * (1 - share)


def _money(value: Decimal) -> Decimal:
    return value.quantize(_CENT)


def _decided(past: Past, lines: Sequence[LedgerLine]) -> Iterator[LineDecided]:
    days = line_days(past.connection)
    by_run: dict[int, list[LedgerLine]] = defaultdict(list)
    for line in lines:
        if line.state != "left out":
            by_run[line.run].append(line)
    for run, some in by_run.items():
        known = {
            one.id: one for one in run_record(past.connection, run).lines if isinstance(one, PricedLineRecord)
        }
        for line in some:
            record, when = known.get(line.line), days.get(line.line)
            if record is not None and when is not None:
                yield LineDecided(
                    line.line, line.customer, line.part, line.quantity, Decimal(line.price),
                    float(record.price.margin), record.shape.kind, record.material, line.state,
                    date.fromisoformat(when.quoted[:10]),
                    date.fromisoformat(when.decided[:10]) if when.decided else None,
                    when.reason, record.drivers.setup_minutes + record.drivers.rolling_minutes,
                    record.verdict.roll,
                )  # fmt: skip


def _rack(past: Past, today: date) -> tuple[PlateLeft, ...]:
    """Return the rack with the day each plate was first seen here."""
    seen = first_seen(past.connection, RACK)
    found = []
    for plate in past.shop.stock:
        if plate.count is None:
            continue
        if plate.id not in seen:
            note_event(past.connection, today.isoformat(), RACK, plate.id)
        since = date.fromisoformat(seen.get(plate.id, today.isoformat())[:10])
        value = plate.price * plate.count
        found.append(PlateLeft(plate.id, plate.material, plate.count, value, plate.remnant, since))
    return tuple(found)


def _plate_used(past: Past, lines: Sequence[str]) -> dict[str, tuple[float, float]]:
    """Return by material the area that became parts and the whole area, m2, of the plates of these jobs."""
    found: dict[str, tuple[float, float]] = {}
    runs = {past.jobs[line].run for line in lines}
    by_job = plates_by_job(past.connection)
    mine = {plate for line in lines for plate in by_job.get(line, ())}
    for run in runs:
        for nest in run_record(past.connection, run).nest:
            for plate in nest.plates:
                if f"{plate.id} ({run})" in mine:
                    area = plate.width_mm * plate.length_mm / 1e6
                    used, whole = found.get(nest.material, (0.0, 0.0))
                    found[nest.material] = (used + plate.yield_share * area, whole + area)
    return found
