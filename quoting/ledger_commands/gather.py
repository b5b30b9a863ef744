"""From the ledger to what hindsight reckons with: each report beside what the book says of the same work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from functools import partial

from sqlalchemy import Connection

from quoting.core import Arc, Cone, Place
from quoting.estimating import Estimate, LineResult, Route, cutting_minutes_of, plate_name
from quoting.hindsight import (
    BookPlace,
    LotDone,
    QuotedResult,
    cutting_by_setting,
    rolling_by_setting,
    setup_by_setting,
)
from quoting.labour import roll_minutes
from quoting.ledger import FloorReport, LedgerJob, LedgerLine, jobs_of, reports_of, run_record
from quoting.nesting import CutPlate, CuttingRule
from quoting.recording import unpack
from quoting.shop import LabourSteps, Shop


@dataclass(slots=True)
class Past:
    """The ledger's jobs and reports; estimates are unpacked when they are first asked for, each once."""

    connection: Connection
    shop: Shop
    jobs: dict[str, LedgerJob] = field(init=False)
    reports: tuple[FloorReport, ...] = field(init=False)
    _estimates: dict[int, Estimate | None] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self.jobs = {job.line: job for job in jobs_of(self.connection, closed=True)}
        self.reports = reports_of(self.connection)

    def estimate(self, run: int) -> Estimate | None:
        """Return the estimate behind a run, None when its record has none."""
        if run not in self._estimates:
            record = run_record(self.connection, run)
            self._estimates[run] = unpack(record.archive, Place("the ledger")) if record.archive else None
        return self._estimates[run]

    def result(self, run: int, line: str) -> LineResult | None:
        """Return what was worked out for a line in a run."""
        found = self.estimate(run)
        return next((one for one in found.lines if one.line.id == line), None) if found else None

    def quoted(self, lines: tuple[LedgerLine, ...]) -> Iterator[QuotedResult]:
        """Yield ledger lines with what was worked out for them."""
        for line in lines:
            result = self.result(line.run, line.line)
            if result is not None and result.drivers is not None:
                yield QuotedResult(result, line.customer, line.quote, line.state, Decimal(line.price))

    def lots(self) -> tuple[LotDone, ...]:
        """Return every figure of minutes that the floor wrote down and the book can be held against."""
        return tuple(lot for report in self.reports for lot in self._lots(report) if lot.planned > 0)

    def _lots(self, report: FloorReport) -> Iterator[LotDone]:
        day = date.fromisoformat(report.day)
        if report.kind == "cut":
            parts = self._cut(report)
            if report.run is not None and parts:
                yield LotDone(
                    report.task, "cut", day, report.run, parts, report.cells.get("run", ""),
                    roll=report.machine, crew=report.by.casefold(),
                )  # fmt: skip
            return
        job = self.jobs.get(report.line)
        result = self.result(job.run, job.line) if job else None
        if job is None or result is None or not any(r.name == report.machine for r in self.shop.rolls):
            return
        family = self.shop.material(result.line.material).family.value
        plain = _plain_lot(report, day, job, result, family)
        counts = report.planned.counts if report.planned else {}
        setup = setup_by_setting(counts, self.shop.setups)
        run, low, high = self._run(report, result)
        if report.good is not None:
            plain = replace(plain, good=report.good, scrap=report.scrap or 0)
        if report.setup is not None and setup:
            cell = report.cells.get("setup", "")
            yield replace(plain, kind="set-up", took=report.setup, by_setting=setup, cell=cell)
        if report.run is not None:
            cell = report.cells.get("run", "")
            yield replace(plain, kind="run", took=report.run, by_setting=run, cell=cell, low=low, high=high)
        elif report.both is not None and setup:
            both = {place: setup.get(place, 0) + run.get(place, 0) for place in (*setup, *run)}
            cell = report.cells.get("both", "")
            yield replace(plain, kind="both", took=report.both, by_setting=both, cell=cell)

    def _run(self, report: FloorReport, result: LineResult) -> tuple[dict[BookPlace, float], float, float]:
        """Return the book's minutes of a report's pieces by setting, with their low and high in all."""
        route = route_on(result, report.machine)
        again = report.kind == "re-round"
        tasks = [rolling.task for rolling in route.rollings]
        parts = rolling_by_setting(tasks, report.machine, self.shop, re_round=again)
        whole = sum(task.quantity for task in tasks)
        share = pieces_of(report, whole) / whole
        bands = [roll_minutes(task, self.shop.labour) for task in tasks]
        low = sum(band.total.low for band in bands) * share if not again else 0.0
        high = sum(band.total.high for band in bands) * share if not again else 0.0
        return {place: minutes * share for place, minutes in parts.items()}, low, high

    def _cut(self, report: FloorReport) -> dict[BookPlace, float]:
        name, _, run = report.task.removesuffix(")").rpartition(" (")
        found = self.estimate(int(run)) if run.isdigit() else None
        for group in found.nests if found else ():
            for cut in group.nest.cut_plates:
                if plate_name(cut) == name:
                    return cutting_by_setting(partial(self._cutting, group.problem.cutting, cut), self.shop)
        return {}

    def _cutting(self, rule: CuttingRule, cut: CutPlate, steps: LabourSteps) -> float:
        return cutting_minutes_of(rule, cut, replace(self.shop, labour=steps))


def route_on(result: LineResult, roll: str) -> Route:
    """Return a line's route on a roll, the quoted one where it was not worked out for that roll."""
    assert result.routes
    return next((route for route in result.routes if route.roll == roll and route.ok), result.routes[0])


def pieces_of(report: FloorReport, whole: int) -> int:
    """Return how many blanks a report is about: those written down, else those planned."""
    told = (report.good or 0) + (report.scrap or 0)
    planned = report.planned.pieces if report.planned else whole
    return told or planned or whole


def shape_words(result: LineResult) -> str:
    """Return the kind of part."""
    match result.line.shape:
        case Cone():
            return "cone"
        case Arc():
            return "arc"
        case _:
            return "cylinder"


def _plain_lot(report: FloorReport, day: date, job: LedgerJob, result: LineResult, family: str) -> LotDone:
    route = result.routes[0]
    return LotDone(
        task=report.task,
        kind="",
        day=day,
        took=0.0,
        by_setting={},
        cell="",
        line=report.line,
        customer=job.customer,
        roll=report.machine,
        crew=report.by.casefold(),
        shape=shape_words(result),
        family=family,
        thickness_mm=result.line.thickness_mm,
        weight_kg=max(rolling.blank.weight_kg for rolling in route.rollings),
    )
