"""The `rollwright` command: one function a command, no computing, nothing heavy imported early."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import click

from quoting.core import UNFINISHED
from scheduler.commands.actuals_commands import floor, learn, month
from scheduler.commands.ending import guarded, own_version
from scheduler.commands.ledger_commands import ledger, lost, plan, renew, rush, won
from scheduler.commands.options import (
    EFFORT,
    FORCE,
    OPEN,
    OUT,
    SEED,
    SHOP,
    TODAY,
    WORKERS,
    Day,
    ShortText,
    open_books,
    options,
    say,
)
from scheduler.commands.sections import Sections
from scheduler.commands.shop_commands import init, shop, what_next
from scheduler.commands.watch_command import watch

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
NO_LEDGER = click.option(
    "--no-ledger",
    is_flag=True,
    envvar="ROLLWRIGHT_NO_LEDGER",
    help="Leave the shop's ledger alone: line ids and quote numbers are of this run only.",
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
    FORCE,
)
"""What run and quote ask in common, in the order that help shows it."""


@click.group(
    cls=Sections, context_settings={"help_option_names": ["-h", "--help"]}, invoke_without_command=True
)
@click.version_option(version=own_version())
@click.pass_context
def main(context: click.Context) -> None:
    """Quote, nest and schedule a week of plate rolling from the customers' order sheets."""
    if context.invoked_subcommand is None:
        click.echo(f"{context.get_help()}\n\n{what_next(Path())}")


for _command in (init, shop, watch, won, lost, plan, rush, floor, learn, month, renew, ledger):
    main.add_command(_command)


@main.command()
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
        _get_ready_to_read()
        from scheduler.commands.run_job import run_job  # noqa: PLC0415 - heavy

        plan = _plan_request(start=start, **{name: options.pop(name) for name in ("wishes", "aim")})
        opening = options.pop("open_after")
        request = _quote_request(orders, shop_dir, out_dir, options)
        plan = replace(plan, effort=request.effort, seed=request.seed)
        code = run_job(request, plan, say=say, promise=_promiser(request))
        if opening:
            open_books(out_dir)
        return code

    sys.exit(guarded(work))


@main.command()
@options(ORDERS, SHOP, OUT, *PRICING)
def quote(orders: tuple[Path, ...], shop_dir: Path, out_dir: Path, **options: Any) -> None:
    """Price the order sheets: quotes, replies, questions, costing book and record.

    For example `rollwright quote monday.xlsx mail.eml --shop my-shop --out out`; with the answers filled in,
    the same again with `--answers out/questions-2026-11-30.xlsx --out out2`.
    """

    def work() -> int:
        _get_ready_to_read()
        from quoting.commands import quote_job  # noqa: PLC0415 - heavy

        opening = options.pop("open_after")
        request = _quote_request(orders, shop_dir, out_dir, options)
        code = quote_job(request, say=say, promise=_promiser(request))
        if opening:
            open_books(out_dir)
        return code

    sys.exit(guarded(work))


@main.command()
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
@options(WISHES, AIM, EFFORT, SEED, FORCE)
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
        _get_ready_to_read()
        from scheduler.commands.run_job import schedule_job  # noqa: PLC0415 - heavy

        _settled(record)
        force, won = options.pop("force"), frozenset(options.pop("won")) or None
        plan = _plan_request(start=start, won=won, **options)
        return schedule_job(record, shop_dir, out_dir, plan, force=force, say=say)

    sys.exit(guarded(work))


@main.command()
@click.argument("record", type=click.Path(path_type=Path), metavar="RESULT.json")
@click.argument("line", type=ShortText(), metavar="LINE")
def why(record: Path, line: str) -> None:
    """Say in ten lines why a line has its price; LINE is its id or its number.

    For example `rollwright why out/result.json A-3`.
    """

    def work() -> int:
        from quoting.record import (  # noqa: PLC0415
            find_line,
            read_record,
            what_if_lines,
            why_lines,
        )

        _settled(record)
        found = read_record(record)
        asked = find_line(found, line)
        click.echo("\n".join((*why_lines(found, asked), *what_if_lines(asked))))
        return 0

    sys.exit(guarded(work))


@main.command()
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
        _get_ready_to_read()
        from quoting.commands import RepriceRequest, reprice_job  # noqa: PLC0415 - heavy

        _settled(options["record"])
        request = RepriceRequest(today=today or date.today(), ledger=not no_ledger, **options)
        if request.shop_dir is None or no_ledger:
            return reprice_job(request)
        from scheduler.commands.on_ledger import promiser  # noqa: PLC0415 - only with a ledger

        return reprice_job(request, promise=promiser(request.shop_dir, seed=0))

    sys.exit(guarded(work))


@main.command()
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

    For example `rollwright owner --shop my-shop --out owner`: margin, roll hours and risk, as a workbook.
    """

    def work() -> int:
        from quoting.commands import owner_job  # noqa: PLC0415 - heavy

        if results is not None:
            _settled(results)
        return owner_job(results, shop_dir, out_dir, force=force)

    sys.exit(guarded(work))


@main.command()
@options(SHOP, OUT)
@click.option("--roll", required=True, type=ShortText(), help="Name of the roll in the shop's book.")
@click.option("--material", required=True, type=ShortText(), help="Grade, by any name the book knows.")
@options(FORCE)
def chart(shop_dir: Path, out_dir: Path, roll: str, material: str, force: bool) -> None:
    """Draw what a roll can do with a material: thickness against width and diameter.

    For example `rollwright chart --shop my-shop --roll "Big roll" --material A36 --out charts`: a picture
    and a table.
    """

    def work() -> int:
        from quoting.commands import chart_job  # noqa: PLC0415 - heavy

        return chart_job(shop_dir, roll, material, out_dir, force=force, say=say)

    sys.exit(guarded(work))


@main.command()
@click.argument(
    "readings", type=click.Path(path_type=Path), required=False, default=None, metavar="[READINGS.xlsx]"
)
@options(SHOP)
def calibrate(readings: Path | None, shop_dir: Path) -> None:
    """Propose readout zero and yields from the shop's own recorded rolls; changes nothing.

    For example `rollwright calibrate readings.xlsx --shop my-shop`; what it proposes is printed.
    Without a workbook the readings that the floor wrote down are taken.
    """

    def work() -> int:
        if readings is None:
            from quoting.ledger_commands import readings_job  # noqa: PLC0415 - heavy

            return readings_job(shop_dir)
        from quoting.commands import calibrate_job  # noqa: PLC0415 - heavy

        return calibrate_job(readings, shop_dir)

    sys.exit(guarded(work))


def _settled(where: Path) -> None:
    """Complete what a killed run has left half in place, before a record of it is read."""
    unfinished = list(where.rglob(UNFINISHED)) if where.is_dir() else [where.parent / UNFINISHED]
    for text in unfinished:
        if text.exists():
            from quoting.books import settled  # noqa: PLC0415 - heavy

            settled(text.parent)


def _get_ready_to_read() -> None:
    """Start the process that reads files: it gets ready while this one loads its libraries."""
    from quoting.tables import start_reader  # noqa: PLC0415 - keeps --help quick

    start_reader()


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

    today = options.pop("today") or date.today()
    options["ledger"] = not options.pop("no_ledger")
    return QuoteRequest(orders=orders, shop_dir=shop_dir, out_dir=out_dir, today=today, **options)
