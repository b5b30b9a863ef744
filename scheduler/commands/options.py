"""What several commands share: their options, what comes before files are read and after they are written."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import date, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from quoting.core import (
    MOST_WORKERS,
    UNFINISHED,
    FromRoom,
    Sharing,
    cores,
    forks,
    made_ready,
    on_one_line,
)

if TYPE_CHECKING:
    from quoting.intake import SheetsAsked

FIRST_DAY, LAST_DAY = date(2000, 1, 1), date(2099, 12, 31)
EFFORTS = ("quick", "normal", "thorough")

Command = TypeVar("Command", bound=Callable[..., Any])


class Day(click.ParamType[date]):
    """A calendar day as YYYY-MM-DD."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """Return the day that a text says."""
        try:
            day = value if isinstance(value, date) else date.fromisoformat(value)
        except ValueError:
            self.fail(f'"{value}" is no date; write it as 2026-11-30', param, ctx)
        _check_day(day, self, param, ctx)
        return day


class Moment(click.DateTime):
    """A calendar day and an hour, as a job shop can plan from."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> datetime:
        """Return the moment that a text says."""
        moment: datetime = super().convert(value, param, ctx)
        _check_day(moment.date(), self, param, ctx)
        return moment


def _check_day(
    day: date, kind: click.ParamType[Any], param: click.Parameter | None, ctx: click.Context | None
) -> None:
    if not FIRST_DAY <= day <= LAST_DAY:
        kind.fail(f"{day} is no day to plan on; give one from {FIRST_DAY} to {LAST_DAY}", param, ctx)


class ShortText(click.ParamType[str]):
    """A few words that are kept and printed: on one line, no longer than a person types."""

    name = "text"
    most = 200

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Return the words; letters that no text can hold become blanks."""
        words = " ".join(on_one_line(str(value), self.most + 1).split())
        if len(words) > self.most:
            self.fail(f"is longer than {self.most} letters", param, ctx)
        return words


SHOP = click.option(
    "--shop",
    "shop_dir",
    required=True,
    type=click.Path(path_type=Path),
    help="The shop's folder, as `rollwright init` made it.",
)
OUT = click.option(
    "--out", "out_dir", required=True, type=click.Path(path_type=Path), help="Folder for what is made."
)
FORCE = click.option("--force", is_flag=True, help="Replace files of an earlier run in the output folder.")
EFFORT = click.option(
    "--effort", type=click.Choice(EFFORTS), default="normal", show_default=True, help="How hard to search."
)
SEED = click.option(
    "--seed",
    type=click.IntRange(0, 2**31 - 1),
    default=0,
    show_default=True,
    help="Same seed, same result.",
)
NO_LEDGER = click.option(
    "--no-ledger",
    is_flag=True,
    envvar="ROLLWRIGHT_NO_LEDGER",
    help="Leave the shop's ledger alone: line ids and quote numbers are of this run only.",
)
WORKERS = click.option(
    "--workers",
    type=click.IntRange(1, MOST_WORKERS),
    default=cores,
    show_default="one a core",
    envvar="ROLLWRIGHT_WORKERS",
    help="Processes that work at a time; what comes out is the same with any number.",
)
TODAY = click.option(
    "--today", type=Day(), default=None, help="Day to quote on, YYYY-MM-DD.  [default: the calendar's]"
)

OPEN = click.option(
    "--open", "open_after", is_flag=True, help="Open the books that matter when all is written."
)
_FIRST = ("questions-*.xlsx", "run-schedule-*.xlsx", "quote-*.pdf", "costing-*.xlsx")
_MOST = 4


def options(*decorators: Callable[[Command], Command]) -> Callable[[Command], Command]:
    """Return what gives a command these options, in the order they are named."""

    def decorate(command: Command) -> Command:
        for decorator in reversed(decorators):
            command = decorator(command)
        return command

    return decorate


def settled_at(where: Path) -> None:
    """Complete what a killed run has left half in place, before a record of it is read."""
    unfinished = list(where.rglob(UNFINISHED)) if where.is_dir() else [where.parent / UNFINISHED]
    for text in unfinished:
        if text.exists():
            from quoting.books import settled  # noqa: PLC0415 - heavy

            settled(text.parent)


def get_ready_to_read() -> None:
    """Start the process that reads files: it gets ready while this one loads its libraries."""
    from quoting.tables import start_reader  # noqa: PLC0415 - keeps --help quick

    start_reader()


@contextmanager
def reading_beside(orders: tuple[Path, ...], shop_dir: Path, given: Mapping[str, Any]) -> Iterator[Sharing]:
    """Yield what reads order sheets: a process of its own, which begins while this one loads its libraries.

    Where nothing but the sheets and the shop's folder counts it has read them before it is asked.
    """
    workers: int = given["workers"]
    asked: SheetsAsked | None = None
    if given["no_ledger"] and not given["customer"] and not given["answers"]:
        asked = {
            "orders": orders,
            "shop_dir": shop_dir,
            "today": given["today"],
            "answers": (),
            "customer": "",
            "language": given["language"],
            "prefixes": None,
        }
    if asked is None or workers < 2 or not forks():
        get_ready_to_read()
    with made_ready(partial(_read_ahead, asked), workers) as reader:
        yield reader


def _read_ahead(asked: SheetsAsked | None) -> None:
    get_ready_to_read()  # its process gets ready while this one loads the reader of orders
    FromRoom("quoting.intake.for_run", "read_ahead")(asked)


def open_books(folder: Path) -> None:
    """Open at most four books of a folder, questions first; where nothing can open them that is told."""
    books = [path for pattern in _FIRST for path in sorted(folder.glob(pattern))][:_MOST]
    for book in books:
        try:
            opened = click.launch(str(book)) == 0
        except OSError:
            opened = False
        if not opened:
            click.echo(f"no program here opened {book.name}; it is in {folder}", err=True)
            return
