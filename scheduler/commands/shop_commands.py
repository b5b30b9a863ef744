"""The commands about the shop's own book: starting one, turning it into its other form."""

from __future__ import annotations

import sys
from collections.abc import Callable
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import click

from quoting.core import InputError
from scheduler.commands.ending import guarded
from scheduler.commands.options import FORCE, OUT, SHOP, TODAY, options
from scheduler.commands.telling import say


@click.command()
@click.argument("directory", type=click.Path(path_type=Path), metavar="DIR")
@click.option("--metric", is_flag=True, help="Sizes in mm, kg and MPa, paper A4.")
@click.option("--text", is_flag=True, help="The book as a commented text, shop.toml, in place of a workbook.")
@click.option("--ask", is_flag=True, help="Ask a dozen questions first; what is not asked stays an example.")
def init(directory: Path, metric: bool, text: bool, ask: bool) -> None:
    """Start a shop's folder: the book to fill in, a small stock rack, order sheets to send out.

    For example `rollwright init my-shop` writes my-shop/shop.xlsx, rack.xlsx and two order sheets.
    """

    def work() -> int:
        from quoting.shop import (  # noqa: PLC0415 - heavy
            ANSWERED,
            WORKED_OUT,
            metric_data,
            starter_data,
            write_starter,
        )

        examples = metric_data(starter_data()) if metric else None
        data = _interview() if ask else examples
        none: frozenset[str] = frozenset()
        ours, worked_out = (ANSWERED, WORKED_OUT) if ask else (none, none)
        paths = write_starter(directory, data, text=text, ours=ours, worked_out=worked_out)
        for path in paths:
            click.echo(f"wrote {path}")
        click.echo(_next_steps(directory, paths[0], asked=ask))
        return 0

    sys.exit(guarded(work))


@click.group()
def shop() -> None:
    """The shop's book itself: turning the workbook into a text and back, weighing its example figures."""


@shop.command("convert")
@options(SHOP)
def convert(shop_dir: Path) -> None:
    """Turn shop.xlsx into shop.toml, or shop.toml into shop.xlsx; the one before is kept beside it.

    For example `rollwright shop convert --shop my-shop`.
    """

    def work() -> int:
        from quoting.shop import convert_book  # noqa: PLC0415 - heavy

        made, kept = convert_book(shop_dir)
        click.echo(f"wrote {made}; the book before is {kept.name}")
        return 0

    sys.exit(guarded(work))


@shop.command("weigh")
@options(SHOP, OUT, TODAY, FORCE)
def weigh(shop_dir: Path, out_dir: Path, today: date | None, force: bool) -> None:
    """Say whether the book is sound, and which of its example figures matter most, in money.

    For example `rollwright shop weigh --shop my-shop --out weighed`. The last quotes of the ledger, or an
    invented mixed order, are priced with each example low and high; the book in weighed/ ranks them, with a
    picture and how to find each figure in about an hour on the floor. Nothing in the shop's folder changes.
    """

    def work() -> int:
        from quoting.ledger_commands import WeighRequest, weigh_job  # noqa: PLC0415 - heavy

        return weigh_job(WeighRequest(shop_dir, out_dir, today or date.today(), force), say=say)

    sys.exit(guarded(work))


def _interview() -> dict[str, Any]:
    from quoting.shop import (  # noqa: PLC0415 - heavy
        ABOUT_SHOP,
        MOST_ROLLS,
        check_roll,
        checked_answer,
        data_of_answers,
        roll_of_answer,
        roll_question,
    )

    answers: dict[str, str] = {}
    for asked in ABOUT_SHOP:
        answers[asked.name] = _until_taken(asked.words, asked.default, partial(checked_answer, asked))
    rolls: list[Any] = []

    def roll(text: str) -> Any:
        if rolls and not text.strip():
            return None
        found = roll_of_answer(text, answers["units"])
        check_roll(found)
        return found

    while len(rolls) < MOST_ROLLS:
        found = _until_taken(roll_question(len(rolls) + 1, answers["units"]), "", roll)
        if found is None:
            break
        rolls.append(found)
    return data_of_answers(answers, rolls)


def _until_taken(words: str, default: str, take: Callable[..., Any]) -> Any:
    """Ask until the answer can be used; what is wrong with one is told."""
    while True:
        text = click.prompt(words, default=default, show_default=bool(default))
        try:
            return take(text)
        except InputError as error:
            click.echo(f"  {error}", err=True)


def _next_steps(directory: Path, book: Path, *, asked: bool) -> str:
    first = (
        f"open {book}: what you answered is in it, the rest is marked as an example"
        if asked
        else f"open {book} and fill in the sheet Start here, then Rolls"
        if book.suffix == ".xlsx"
        else f"open {book} in an editor and put your own figures in, the [[roll]] blocks first"
    )
    return "\n".join(
        (
            "",
            "Next:",
            f"  1. {first}",
            f"  2. put your plates into {directory / 'rack.xlsx'}",
            f"  3. rollwright quote ORDERS.xlsx --shop {directory} --out out",
        )
    )
