"""The commands about the shop's ledger; nothing heavy is imported before one of them runs."""

from __future__ import annotations

import sys
from datetime import date, datetime
from pathlib import Path
from typing import Any

import click

from scheduler.commands.ending import guarded
from scheduler.commands.options import (
    EFFORT,
    FORCE,
    OUT,
    SEED,
    SHOP,
    TODAY,
    WORKERS,
    Day,
    Moment,
    ShortText,
    options,
)
from scheduler.commands.telling import QUIET, say

WHAT = click.argument("what", nargs=-1, required=True, type=ShortText(), metavar="QUOTE|CUSTOMER|LINE...")


@click.command()
@options(WHAT, SHOP, OUT)
@click.option(
    "--order", "order_no", default="", type=ShortText(), metavar="NUMBER", help="The customer's order number."
)
@click.option("--order-day", type=Day(), default=None, help="Day of the order.  [default: today]")
@click.option("--expired", is_flag=True, help="Hold the price of a quote whose validity has run out.")
@options(TODAY, EFFORT, SEED, WORKERS, QUIET, FORCE)
def won(today: date | None, **given: Any) -> None:
    """Make jobs of what was won: a quote's number, a customer, or single lines.

    For example `rollwright won 20261130-01 --shop my-shop --out won`; the number stands on the quote. Buy
    list, cut list, labels and the rack afterwards are then in won/; `rollwright plan` schedules the jobs.

    The won lines are nested anew on what is free in the rack; their plates are promised to them, and later
    nests do not see them. Writes the buy list, the cut list and the rack afterwards for these jobs.
    """

    def work() -> int:
        from quoting.ledger_commands import WonRequest, won_job  # noqa: PLC0415 - heavy

        return won_job(WonRequest(today=today or date.today(), **given), say=say)

    sys.exit(guarded(work))


@click.command()
@options(WHAT, SHOP)
@click.option("--reason", default="", type=ShortText(), help="Why: price, date, no need any more ...")
@options(TODAY)
def lost(what: tuple[str, ...], shop_dir: Path, reason: str, today: date | None) -> None:
    """Note that a quote, a customer's quotes or single lines were lost, and why.

    For example `rollwright lost 20261130-02 --shop my-shop --reason price`. It is kept in the shop's folder
    and comes back in the owner's month; no file is written.
    """

    def work() -> int:
        from quoting.ledger_commands import lost_job  # noqa: PLC0415 - heavy

        return lost_job(what, shop_dir, today or date.today(), reason)

    sys.exit(guarded(work))


@click.command()
@click.argument("number", type=ShortText(), metavar="QUOTE")
@options(SHOP, OUT, TODAY, EFFORT, SEED, WORKERS, QUIET, FORCE)
def renew(today: date | None, **given: Any) -> None:
    """Price a quote again with the shop's book and rack of today: its next issue, and what changed.

    For example `rollwright renew 20261130-01 --shop my-shop --out again`: the new quote is in again/, the
    differences are printed.
    """

    def work() -> int:
        from quoting.ledger_commands import RenewRequest, renew_job  # noqa: PLC0415 - heavy
        from scheduler.commands.on_ledger import promiser  # noqa: PLC0415 - heavy

        request = RenewRequest(today=today or date.today(), **given)
        return renew_job(request, say=say, promise=promiser(request.shop_dir, request.seed))

    sys.exit(guarded(work))


@click.group()
def ledger() -> None:
    """The shop's ledger itself: copies, bringing one back, the rack now, plain tables, an earlier result.

    The ledger is the file ledger.db in the shop's folder: quote numbers, what was won, plans, minutes.
    """


@ledger.command("copies")
@options(SHOP)
def copies(shop_dir: Path) -> None:
    """List the dated copies.

    For example `rollwright ledger copies --shop my-shop`; the list is printed, the copies are in
    my-shop/ledger-copies/.
    """

    def work() -> int:
        from quoting.ledger_commands import copies_job  # noqa: PLC0415 - heavy

        return copies_job(shop_dir)

    sys.exit(guarded(work))


@ledger.command("restore")
@click.argument("copy", type=click.Path(path_type=Path), metavar="COPY.db")
@options(SHOP)
def restore(copy: Path, shop_dir: Path) -> None:
    """Bring a dated copy back; quote numbers given out since are not given out again.

    For example `rollwright ledger restore my-shop/ledger-copies/COPY.db --shop my-shop`, a copy that
    `rollwright ledger copies` lists; what was done is printed.
    """

    def work() -> int:
        from quoting.ledger_commands import restore_job  # noqa: PLC0415 - heavy

        return restore_job(copy, shop_dir)

    sys.exit(guarded(work))


@ledger.command("export")
@options(SHOP, OUT, FORCE)
def export(shop_dir: Path, out_dir: Path, force: bool) -> None:
    """Write every table of the ledger as CSV, for a spreadsheet or another program.

    For example `rollwright ledger export --shop my-shop --out tables`: a file a table, in tables/.
    """

    def work() -> int:
        from quoting.ledger_commands import export_job  # noqa: PLC0415 - heavy

        return export_job(shop_dir, out_dir, force=force)

    sys.exit(guarded(work))


@ledger.command("rack")
@options(SHOP, OUT, TODAY, FORCE)
def rack(shop_dir: Path, out_dir: Path, today: date | None, force: bool) -> None:
    """Write the rack as it stands now: what is cut is out, its drops are in, what is promised is named.

    For example `rollwright ledger rack --shop my-shop --out rack`: a rack book is in rack/; to quote from it,
    put it in the place of my-shop/rack.xlsx.
    """

    def work() -> int:
        from quoting.ledger_commands import rack_job  # noqa: PLC0415 - heavy

        return rack_job(shop_dir, out_dir, today or date.today(), force=force)

    sys.exit(guarded(work))


@ledger.command("take")
@click.argument("result", type=click.Path(path_type=Path), metavar="RESULT.json")
@options(SHOP)
def take(result: Path, shop_dir: Path) -> None:
    """Take an earlier run's quotes in, under the ids and numbers they have.

    For example `rollwright ledger take out/result.json --shop my-shop`, after a run with --no-ledger; what
    was taken is printed.
    """

    def work() -> int:
        from quoting.ledger_commands import take_job  # noqa: PLC0415 - heavy

        return take_job(result, shop_dir)

    sys.exit(guarded(work))


FROM = click.option(
    "--from",
    "moment",
    type=Moment(["%Y-%m-%d %H:%M", "%Y-%m-%dT%H:%M"]),
    required=True,
    help='Day and hour to plan from, as "2026-12-01 06:00".',
)


@click.command()
@options(FROM)
@click.option(
    "--book",
    type=click.Path(path_type=Path),
    default=None,
    metavar="JOBS.xlsx",
    help="The jobs book of the last plan with your edits.",
)
@click.option("--try", "attempt", is_flag=True, help="Write the books only: publish nothing, keep no edit.")
@options(SHOP, OUT, EFFORT, SEED, QUIET, FORCE)
def plan(moment: datetime, attempt: bool, **given: Any) -> None:
    """Plan every open job of every quote from a moment on, and publish the plan.

    For example `rollwright plan --from "2026-12-01 06:00" --shop my-shop --out week`: all papers are in
    week/.

    What runs stays; jobs that begin within the frozen hours stay; moving any other published job costs money
    (`[ledger]` in the shop's book). Writes the run schedule with the sheet What changed, and the jobs book,
    in which the scheduler edits: dates, pins, states, machines down, people away, plates expected.
    """

    def work() -> int:
        from scheduler.commands.on_ledger import FloorPlanRequest, plan_job  # noqa: PLC0415 - heavy

        return plan_job(FloorPlanRequest(moment=moment, keep=not attempt, **given), say=say)

    sys.exit(guarded(work))


@click.command()
@click.argument("what", type=ShortText(), metavar="JOB|QUOTE|LINE|ORDERS.xlsx")
@click.option("--by", type=Day(), required=True, help="The day it has to ship, YYYY-MM-DD.")
@options(FROM, SHOP, EFFORT, SEED, QUIET)
def rush(**given: Any) -> None:
    """Ask what it takes to ship a job, a quote, a line of it or an order sheet by a day; nothing is changed.

    For example `rollwright rush A-3 --by 2026-12-04 --from "2026-12-01 06:00" --shop my-shop`; the answer is
    printed.

    Says which jobs move, which become late, the set-ups and overtime more, and the money that pays for it.
    """

    def work() -> int:
        from scheduler.commands.on_ledger import RushRequest, rush_job  # noqa: PLC0415 - heavy

        return rush_job(RushRequest(**given), say=say)

    sys.exit(guarded(work))
