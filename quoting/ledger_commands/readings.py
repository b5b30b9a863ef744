"""What the floor's readings say of a roll's readout and of its plate: fed to `calibrate` by themselves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import pi
from pathlib import Path

from sqlalchemy import Connection

from quoting.commands import proposal
from quoting.core import InputError, RangeError
from quoting.forming import RecordedRoll, calibrate
from quoting.ledger import FloorReport, ledger_of
from quoting.ledger_commands.gather import Past, route_on
from quoting.shop import Shop, load_shop


def readings_job(shop_dir: Path) -> int:
    """Print what the readings in the ledger propose for each roll; return the exit code."""
    shop = load_shop(shop_dir)
    with ledger_of(shop_dir).reading() as connection:
        rows = reading_rows(connection, shop)
    if not rows:
        raise InputError(
            "the floor has written down no reading with its girth or diameter",
            would_do="fill in the boxes g and h or i of a floor book, or give a workbook of readings",
        )
    print("\n".join(rows))
    return 0


def reading_rows(connection: Connection, shop: Shop) -> list[str]:
    """Return for each roll with readings what they propose, or how many more are needed."""
    found = recorded_rolls(Past(connection, shop))
    rows = []
    for roll, records in found.items():
        try:
            told = calibrate(records, shop.roll(roll), shop.passes.flat_after_pre_bend_t)
        except RangeError as error:
            rows.append(f"{roll}: {error}")
            continue
        rows.append(proposal(roll, told, shop))
    return rows


def recorded_rolls(past: Past) -> Mapping[str, tuple[RecordedRoll, ...]]:
    """Return the floor's readings by roll: the last position and the radius that came out, of round parts."""
    found: dict[str, list[RecordedRoll]] = {}
    for report in past.reports:
        for record in _record(past, report):
            found.setdefault(report.machine, []).append(record)
    return {roll: tuple(records) for roll, records in found.items()}


def _record(past: Past, report: FloorReport) -> Iterator[RecordedRoll]:
    job = past.jobs.get(report.line)
    result = past.result(job.run, job.line) if job else None
    if result is None or report.readout is None or report.kind != "roll":
        return
    if not any(roll.name == report.machine for roll in past.shop.rolls):
        return
    blank = route_on(result, report.machine).rollings[0].blank
    thickness = result.line.thickness_mm
    if report.diameter is not None:
        radius = (report.diameter + thickness) / 2
    elif report.girth is not None and blank.arc_deg >= 360:
        radius = (report.girth / pi - thickness) / 2
    else:
        return
    if blank.cone is not None or radius <= thickness:
        return
    yield RecordedRoll(
        thickness_mm=thickness,
        width_mm=blank.width_mm,
        material=past.shop.material(result.line.material),
        readout_mm=report.readout,
        mean_radius_mm=radius,
        where=report.cells.get("readout", report.task),
    )
