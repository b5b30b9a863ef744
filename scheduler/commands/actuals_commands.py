"""The commands about what really happened; nothing heavy is imported before one of them runs."""

from __future__ import annotations

import sys
from datetime import date, datetime
from pathlib import Path
from typing import Any

import click

from scheduler.commands.ending import guarded
from scheduler.commands.options import FORCE, OUT, SHOP, TODAY, Moment, options


@click.command()
@click.argument("books", nargs=-1, type=click.Path(path_type=Path), metavar="[FLOOR.xlsx]...")
@options(SHOP)
@click.option(
    "--out", "out_dir", type=click.Path(path_type=Path), default=None, help="Folder for a new floor book."
)
@click.option("--days", type=click.IntRange(1, 366), default=7, show_default=True, help="Days of a new book.")
@options(FORCE)
def floor(books: tuple[Path, ...], **given: Any) -> None:
    """Read back what the floor wrote down: minutes, pieces, readings; jobs move by it.

    For example `rollwright floor week/floor-2026-12-01-0600.xlsx --shop my-shop`, the book that plan wrote;
    what was taken is printed and kept in the shop's folder.

    A book may be partly filled and given again: nothing counts twice, a row that cannot be is told by its
    cell and every other is taken. Without a book, a new one of the plan published last is written to --out.
    """

    def work() -> int:
        from scheduler.commands.on_ledger import FloorRequest, floor_job  # noqa: PLC0415 - heavy

        return floor_job(FloorRequest(books=books, **given))

    sys.exit(guarded(work))


@click.command()
@options(SHOP, OUT, TODAY)
@click.option(
    "--apply", is_flag=True, help="Put the proposed book in the old one's place; that is kept, dated."
)
@options(FORCE)
def learn(today: date | None, **given: Any) -> None:
    """Propose a shop's book from the minutes that the floor wrote down; changes nothing without --apply.

    For example `rollwright learn --shop my-shop --out learnt`.

    Writes into learnt/ the proposed book, and a workbook with each changed setting, old and new, the jobs
    behind it, what it would have done to quotes, how far the book is off by kind of job, and what was set
    aside.
    """

    def work() -> int:
        from quoting.ledger_commands import LearnRequest, learn_job  # noqa: PLC0415 - heavy

        return learn_job(LearnRequest(today=today or date.today(), **given))

    sys.exit(guarded(work))


@click.command()
@options(SHOP, OUT, TODAY)
@click.option("--month", "month_", type=Moment(["%Y-%m"]), default=None, help="YYYY-MM.  [default: today's]")
@options(FORCE)
def month(today: date | None, month_: datetime | None, **given: Any) -> None:
    """Write the owner's month book: what was quoted, won and delivered, and what was made of it.

    For example `rollwright month --shop my-shop --out month --month 2026-11`; the book is in month/.

    Margin quoted and made by job, customer, shape, roll and week with the step that lost it, roll hours, late
    jobs and why, plate, rack, and how often quotes are won. Each figure goes down to its jobs and lines.
    """

    def work() -> int:
        from quoting.ledger_commands import MonthRequest, month_job  # noqa: PLC0415 - heavy

        day = today or date.today()
        return month_job(MonthRequest(today=day, month=month_.date() if month_ else day, **given))

    sys.exit(guarded(work))
