"""The commands on what a run has left: why a price, the next revision of it, the owner's page."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import Any

import click

from scheduler.commands.ending import guarded
from scheduler.commands.options import (
    FORCE,
    NO_LEDGER,
    OUT,
    TODAY,
    ShortText,
    get_ready_to_read,
    options,
    settled_at,
)


@click.command()
@click.argument("record", type=click.Path(path_type=Path), metavar="RESULT.json")
@click.argument("line", type=ShortText(), metavar="LINE")
def why(record: Path, line: str) -> None:
    """Say in ten lines why a line has its price; LINE is its id or its number.

    For example `rollwright why out/result.json A-3`; they are printed.
    """

    def work() -> int:
        from quoting.record import (  # noqa: PLC0415
            find_line,
            read_record,
            what_if_lines,
            why_lines,
        )

        settled_at(record)
        found = read_record(record)
        asked = find_line(found, line)
        click.echo("\n".join((*why_lines(found, asked), *what_if_lines(asked))))
        return 0

    sys.exit(guarded(work))


@click.command()
@click.argument("costing", type=click.Path(path_type=Path), metavar="COSTING.xlsx")
@click.option(
    "--record",
    required=True,
    type=click.Path(path_type=Path),
    help="The result.json of the run that wrote the costing book.",
)
@click.option(
    "--shop",
    "shop_dir",
    type=click.Path(path_type=Path),
    default=None,
    help="The shop's folder: its ledger takes the revision as the next issue; its rates of today are told.",
)
@options(NO_LEDGER, OUT, TODAY, FORCE)
def reprice(today: date | None, no_ledger: bool, **options: Any) -> None:
    """Write the next revision of the quotes from a costing book that was changed and saved.

    For example `rollwright reprice out/costing-2026-11-30.xlsx --record out/result.json --out rev2`: change
    the boxed cells, save, and the revised quotes are in rev2/. With --shop they are the quotes' next issue.
    """

    def work() -> int:
        get_ready_to_read()
        from quoting.commands import RepriceRequest, reprice_job  # noqa: PLC0415 - heavy

        settled_at(options["record"])
        request = RepriceRequest(today=today or date.today(), ledger=not no_ledger, **options)
        if request.shop_dir is None or no_ledger:
            return reprice_job(request)
        from scheduler.commands.on_ledger import promiser  # noqa: PLC0415 - only with a ledger

        return reprice_job(request, promise=promiser(request.shop_dir, seed=0))

    sys.exit(guarded(work))


@click.command()
@click.argument("results", type=click.Path(path_type=Path), metavar="RESULTS_DIR", required=False)
@click.option(
    "--shop",
    "shop_dir",
    type=click.Path(path_type=Path),
    default=None,
    help="The shop's folder: everything that its ledger says went out, each quote as last issued.",
)
@options(OUT, FORCE)
def owner(results: Path | None, shop_dir: Path | None, out_dir: Path, force: bool) -> None:
    """Write the owner's page over all results in a folder and the folders in it, or over the shop's ledger.

    For example `rollwright owner --shop my-shop --out owner`: margin, roll hours and risk, as a workbook in
    owner/.
    """

    def work() -> int:
        from quoting.commands import owner_job  # noqa: PLC0415 - heavy

        if results is not None:
            settled_at(results)
        return owner_job(results, shop_dir, out_dir, force=force)

    sys.exit(guarded(work))
