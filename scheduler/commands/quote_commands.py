"""The commands that price order sheets, and those that plan a week from what was priced."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import click

from scheduler.commands.ending import guarded
from scheduler.commands.options import (
    EFFORT,
    FORCE,
    NO_LEDGER,
    OPEN,
    OUT,
    SEED,
    SHOP,
    TODAY,
    WORKERS,
    Day,
    ShortText,
    get_ready_to_read,
    open_books,
    options,
    reading_beside,
    settled_at,
)
from scheduler.commands.telling import QUIET, say

AIMS = ("money", "dates-first")
ORDERS = click.argument(
    "orders", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="ORDERS..."
)
SENSITIVITIES = click.option(
    "--sensitivities",
    is_flag=True,
    help="Also work out what dearer plate, one more pass, ID for OD, a merge or twice as many would change.",
)
ALONE = click.option(
    "--alone",
    is_flag=True,
    help="Price each order as if it were the only one; the cut list still shares plates.",
)
ANSWERS = click.option(
    "--answers",
    multiple=True,
    type=click.Path(path_type=Path),
    help="Filled-in questions book of an earlier run; give it once a book.",
)
CUSTOMER = click.option(
    "--customer",
    default="",
    type=ShortText(),
    metavar="NAME",
    help="All sheets are of this customer: use and keep its columns and answers in the shop's folder.",
)
LANGUAGE = click.option(
    "--language",
    type=click.Choice(("en", "de", "es", "fr")),
    default=None,
    callback=lambda _context, _option, value: value or "",
    help="Language of quotes and mails.  [default: what the customer's file says, else English]",
)
WISHES = click.option(
    "--wishes",
    type=click.Path(path_type=Path),
    default=None,
    metavar="FILE.toml",
    help="The scheduler's wishes: pins and must-ship dates; `schedule --help` shows an example.",
)
AIM = click.option(
    "--aim",
    type=click.Choice(AIMS),
    default="money",
    show_default=True,
    help="The least money, or the least late money first and the rest after it.",
)
START = click.option(
    "--start",
    type=Day(),
    default=None,
    help="First day of the schedule, YYYY-MM-DD.  [default: next working day]",
)
PRICING = (
    TODAY,
    CUSTOMER,
    ANSWERS,
    EFFORT,
    SEED,
    SENSITIVITIES,
    ALONE,
    NO_LEDGER,
    LANGUAGE,
    WORKERS,
    OPEN,
    QUIET,
    FORCE,
)
"""What run and quote ask in common, in the order that help shows it."""


@click.command()
@options(ORDERS, SHOP, OUT, START, WISHES, AIM, *PRICING)
def run(orders: tuple[Path, ...], shop_dir: Path, out_dir: Path, start: date | None, **options: Any) -> None:
    """Do the main job: price the order sheets and schedule everything that was priced.

    For example `rollwright run monday.xlsx --shop my-shop --out out` writes into out/ a quote, a reply and
    open questions for each customer, the costing book, cutting papers, the run schedule with travellers and
    the board.

    Exit code 0: every line was priced; 1: some lines need answers or cannot be done; 2: unusable input;
    70: a fault of the program; 74: cannot write; 130: stopped.
    """

    def work() -> int:
        options["today"] = options["today"] or date.today()
        opening = options.pop("open_after")
        with reading_beside(orders, shop_dir, options) as reader:
            from scheduler.commands.run_job import run_job  # noqa: PLC0415 - heavy

            plan = _plan_request(start=start, **{name: options.pop(name) for name in ("wishes", "aim")})
            request = _quote_request(orders, shop_dir, out_dir, options)
            plan = replace(plan, effort=request.effort, seed=request.seed)
            code = run_job(request, plan, say=say, promise=_promiser(request), reader=reader)
        if opening:
            open_books(out_dir)
        return code

    sys.exit(guarded(work))


@click.command()
@options(ORDERS, SHOP, OUT, *PRICING)
def quote(orders: tuple[Path, ...], shop_dir: Path, out_dir: Path, **options: Any) -> None:
    """Price the order sheets: quotes, replies, questions, costing book and record.

    For example `rollwright quote monday.xlsx mail.eml --shop my-shop --out out` writes them all into out/;
    with the answers filled in, the same again with `--answers out/questions-2026-11-30.xlsx --out out2`.
    """

    def work() -> int:
        options["today"] = options["today"] or date.today()
        opening = options.pop("open_after")
        with reading_beside(orders, shop_dir, options) as reader:
            from quoting.commands import quote_job  # noqa: PLC0415 - heavy

            request = _quote_request(orders, shop_dir, out_dir, options)
            code = quote_job(request, say=say, promise=_promiser(request), reader=reader)
        if opening:
            open_books(out_dir)
        return code

    sys.exit(guarded(work))


@click.command()
@click.argument("record", type=click.Path(path_type=Path), metavar="RESULT.json")
@options(SHOP, OUT, START)
@click.option(
    "--won",
    multiple=True,
    type=ShortText(),
    metavar="LINE",
    help="Only these lines were won; give it once a line.",
)
@click.option(
    "--ordered",
    type=Day(),
    default=None,
    help="Day the plates are ordered, YYYY-MM-DD: lead days count from it.  [default: day of the quote]",
)
@options(WISHES, AIM, EFFORT, SEED, QUIET, FORCE)
def schedule(record: Path, shop_dir: Path, out_dir: Path, start: date | None, **options: Any) -> None:
    """Schedule the won lines of an earlier quote on the rolls.

    For example `rollwright schedule out/result.json --shop my-shop --out week --won A-1 --won A-2` writes the
    run schedule, travellers and the board into week/.

    A file of wishes, times in shop time; every pin names a line and any of the other keys:

    \b
    [[pin]]
    line = "A-1"
    roll = "Heavy 10 ft"             # rolled there
    start = "2026-12-01 08:00"       # begins at exactly that minute
    not_before = "2026-12-01 08:00"  # begins no sooner
    before = "A-2"                   # has been rolled when that line begins
    running = true                   # on its roll now: comes first there, no set-up
    minutes_left = 45                # with running: what is still to be rolled
    lot = 2                          # of a line that is split: the second lot

    \b
    [[must_ship]]
    line = "A-4"
    date = 2026-12-04                # done by the end of that day

    \b
    [[split]]
    line = "A-6"
    first = 3                        # in two lots: 3 parts, the others apart

    \b
    [[keep_whole]]
    line = "A-7"                     # never in two lots

    \b
    [[cut]]
    plate = "P-104 #1"               # has been cut

    Wishes that cannot all be kept are named, one of them is given up, and the rest is planned.
    """

    def work() -> int:
        get_ready_to_read()
        from scheduler.commands.run_job import schedule_job  # noqa: PLC0415 - heavy

        settled_at(record)
        force, won = options.pop("force"), frozenset(options.pop("won")) or None
        plan = _plan_request(start=start, won=won, **options)
        return schedule_job(record, shop_dir, out_dir, plan, force=force, say=say)

    sys.exit(guarded(work))


def _promiser(request: Any) -> Any:
    """Return what works out the days to promise; without a ledger nothing of it is loaded."""
    if not request.ledger:
        return None
    from scheduler.commands.on_ledger import promiser  # noqa: PLC0415 - heavy

    return promiser(request.shop_dir, request.seed)


def _plan_request(**options: Any) -> Any:
    from scheduler.commands.run_job import PlanRequest  # noqa: PLC0415 - heavy

    return PlanRequest(**options)


def _quote_request(orders: tuple[Path, ...], shop_dir: Path, out_dir: Path, options: dict[str, Any]) -> Any:
    from quoting.commands import QuoteRequest  # noqa: PLC0415 - heavy

    options["ledger"] = not options.pop("no_ledger")
    return QuoteRequest(orders=orders, shop_dir=shop_dir, out_dir=out_dir, **options)
