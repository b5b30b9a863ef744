"""The `rollwright` command: all commands together, listed as a newcomer reads them, by what is done when.

What a command asks for and does stands with those of its kind.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import click

from scheduler.commands.actuals_commands import floor, learn, month
from scheduler.commands.ending import own_version
from scheduler.commands.ledger_commands import ledger, lost, plan, renew, rush, won
from scheduler.commands.machine_commands import calibrate, chart
from scheduler.commands.next_step import what_next
from scheduler.commands.quote_commands import quote, run, schedule
from scheduler.commands.record_commands import owner, reprice, why
from scheduler.commands.shop_commands import init, shop
from scheduler.commands.watch_command import watch

SECTIONS: Mapping[str, Mapping[str, str]] = {
    "To start": {
        "init": "start a shop's folder: its book, rack and order sheets",
        "shop": "turn the book into a text and back, weigh its examples",
        "chart": "draw what a roll can do with a material",
        "calibrate": "what your own readings say about a roll",
    },
    "To quote": {
        "quote": "price order sheets and mails",
        "run": "price them and plan the week",
        "watch": "price what is dropped into a folder",
        "why": "say in ten lines why a line has its price",
        "reprice": "your edits in the costing book as the next revision",
        "renew": "price a quote again that ran out",
    },
    "When it is won": {
        "won": "make jobs: plates promised, buy list, cut list",
        "lost": "note what was lost, and why",
        "plan": "plan every open job: run schedule, travellers",
        "rush": "what it takes to ship something sooner",
        "schedule": "plan won lines of a result, without the ledger",
    },
    "What really happened": {
        "floor": "read back what the floor wrote down",
        "learn": "a book proposed from those minutes",
        "month": "the owner's month: quoted, won, delivered, earned",
        "owner": "the owner's page over a folder of results",
        "ledger": "copies of the ledger, one brought back, plain tables",
    },
}
"""Every command under the head that a newcomer would look below; a test finds one that is missing."""


class Sections(click.Group):
    """A group of commands that lists them below heads, each in one line that is not cut off."""

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the commands below their heads."""
        for title, commands in SECTIONS.items():
            with formatter.section(title):
                formatter.write_dl(list(commands.items()))


def _tell_version(context: click.Context, _option: click.Parameter, asked: bool) -> None:
    """Say the version where it is asked for: `--help` would take a seventh more with it looked up."""
    if asked and not context.resilient_parsing:
        click.echo(f"{context.find_root().info_name}, version {own_version()}")
        context.exit()


@click.group(
    cls=Sections, context_settings={"help_option_names": ["-h", "--help"]}, invoke_without_command=True
)
@click.option(
    "--version",
    is_flag=True,
    expose_value=False,
    is_eager=True,
    callback=_tell_version,
    help="Show the version and exit.",
)
@click.pass_context
def main(context: click.Context) -> None:
    """Quote, nest and schedule a week of plate rolling from the customers' order sheets."""
    if context.invoked_subcommand is None:
        click.echo(f"{context.get_help()}\n\n{what_next(Path())}")


_QUOTING = (run, quote, schedule, why, reprice, owner, chart, calibrate)
_SHOP = (init, shop, watch, won, lost, plan, rush, floor, learn, month, renew, ledger)
for _command in (*_QUOTING, *_SHOP):
    main.add_command(_command)
