"""The command that watches a folder and quotes what is dropped there."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import click

from scheduler.commands.ending import fault_words, guarded
from scheduler.commands.options import OUT, SHOP, TODAY, options
from scheduler.commands.telling import say


@click.command()
@click.argument("inbox", type=click.Path(path_type=Path), metavar="INBOX")
@options(SHOP, OUT, TODAY)
@click.option("--once", is_flag=True, help="Quote what lies in the inbox now, then end.")
@click.option(
    "--wait",
    type=click.FloatRange(0.05, 3600),
    default=3.0,
    show_default=True,
    help="Seconds that a file must have been left alone before it is read; more for a slow share.",
)
@click.option(
    "--no-ledger",
    is_flag=True,
    envvar="ROLLWRIGHT_NO_LEDGER",
    help="Leave the shop's ledger alone: quote numbers are of one run only.",
)
def watch(
    inbox: Path, shop_dir: Path, out_dir: Path, today: date | None, once: bool, wait: float, no_ledger: bool
) -> None:
    """Quote every order sheet that is dropped into the folder INBOX, until Ctrl-C.

    For example `rollwright watch inbox --shop my-shop --out quotes`. Each file gets a folder of its own in
    quotes/ with its quote, questions, the file as it came, and note.html, which says what was priced, asked
    and declined. A file that cannot be read goes to quotes/could-not-read/ with a note; one that was quoted
    before goes to quotes/came-again/. Nothing is sent to anybody.
    """

    def work() -> int:
        from quoting.inbox import WatchRequest, watch_job  # noqa: PLC0415 - heavy

        request = WatchRequest(inbox, shop_dir, out_dir, today, wait, once, ledger=not no_ledger)
        return watch_job(request, say=say, fault=fault_words)

    sys.exit(guarded(work))
