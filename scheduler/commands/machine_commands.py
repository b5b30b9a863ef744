"""The commands about one roll: what it can do with a grade, and what its own readings say of it."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from scheduler.commands.ending import guarded
from scheduler.commands.options import FORCE, OUT, SHOP, ShortText, options
from scheduler.commands.telling import say


@click.command()
@options(SHOP, OUT)
@click.option("--roll", required=True, type=ShortText(), help="Name of the roll in the shop's book.")
@click.option("--material", required=True, type=ShortText(), help="Grade, by any name the book knows.")
@options(FORCE)
def chart(shop_dir: Path, out_dir: Path, roll: str, material: str, force: bool) -> None:
    """Draw what a roll can do with a material: thickness against width and diameter.

    For example `rollwright chart --shop my-shop --roll "Big roll" --material A36 --out charts`: a picture
    and a table are in charts/.
    """

    def work() -> int:
        from quoting.commands import chart_job  # noqa: PLC0415 - heavy

        return chart_job(shop_dir, roll, material, out_dir, force=force, say=say)

    sys.exit(guarded(work))


@click.command()
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
