"""Starts a new shop folder: the commented book, a small rack and order sheets to send out."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place
from quoting.shop.book import starter_text
from quoting.shop.forms import starter_data, text_of_tables, write_workbook
from quoting.shop.grades import usual_grades
from quoting.shop.starter.order_sheet import write_order_sheet
from quoting.shop.starter.rack_book import RackLine, write_rack

_EXAMPLES = (
    RackLine("EXAMPLE-1", "A36", 0.25, 60, 120, "trimmed", 4, 0.62, "lb", "H00001"),
    RackLine("EXAMPLE-2", "A36", 0.375, 97, 240, "mill", 1, 0.61, "lb", "H00002"),
    RackLine("EXAMPLE-3", "304/304L", 0.1875, 60, 120, "trimmed", 2, None, "", "H00003"),
    RackLine("EXAMPLE-R1", "A36", 0.25, 30, 64, "trimmed", 1, 40.0, "plate", "", "yes"),
)
_BUYABLE = (
    RackLine("BUY-1", "A36", 0.1875, 60, 120, "trimmed", lead_days=3),
    RackLine("BUY-2", "A36", 0.25, 60, 120, "trimmed", lead_days=3),
    RackLine("BUY-3", "A36", 0.25, 97, 240, "mill", lead_days=4),
    RackLine("BUY-4", "A36", 0.375, 97, 240, "mill", lead_days=4),
    RackLine("BUY-5", "A36", 0.5, 97, 240, "mill", lead_days=5),
    RackLine("BUY-6", "A516-70", 0.5, 97, 240, "mill", lead_days=6),
    RackLine("BUY-7", "304/304L", 0.1875, 60, 120, "trimmed", lead_days=4),
)
_METRIC_EXAMPLES = (
    RackLine("EXAMPLE-1", "S235JR", 6, 1500, 3000, "trimmed", 4, 1.35, "kg", "H00001"),
    RackLine("EXAMPLE-2", "S355J2", 10, 2500, 6000, "mill", 1, 1.45, "kg", "H00002"),
    RackLine("EXAMPLE-3", "1.4301", 5, 1500, 3000, "trimmed", 2, None, "", "H00003"),
    RackLine("EXAMPLE-R1", "S235JR", 6, 800, 1600, "trimmed", 1, 40.0, "plate", "", "yes"),
)
_METRIC_BUYABLE = (
    RackLine("BUY-1", "S235JR", 5, 1500, 3000, "trimmed", lead_days=3),
    RackLine("BUY-2", "S235JR", 6, 1500, 3000, "trimmed", lead_days=3),
    RackLine("BUY-3", "S235JR", 8, 2000, 6000, "mill", lead_days=4),
    RackLine("BUY-4", "S235JR", 10, 2500, 6000, "mill", lead_days=4),
    RackLine("BUY-5", "S355J2", 12, 2500, 6000, "mill", lead_days=5),
    RackLine("BUY-6", "P265GH", 10, 2500, 6000, "mill", lead_days=6),
    RackLine("BUY-7", "1.4301", 5, 1500, 3000, "trimmed", lead_days=4),
)
_NOTE = "Example rows: replace them with your own plates. Prices and heat numbers are made up."
_SHOP = "(your shop's name and address)"


def write_starter(
    directory: Path,
    data: Mapping[str, Any] | None = None,
    *,
    text: bool = False,
    ours: frozenset[str] = frozenset(),
    worked_out: frozenset[str] = frozenset(),
) -> tuple[Path, ...]:
    """Write the book, rack.xlsx and two order sheets into a folder and return their paths.

    The book is shop.xlsx, or shop.toml when `text`; it holds `data`, the starter book's examples without it;
    `ours` names settings that are no examples though they read the same, `worked_out` those that follow from
    others and that the workbook marks so.
    The folder is made when it is not there. Raises InputError, and writes nothing, when one of the files is
    there already or the folder cannot be written to.
    """
    directory = Path(directory)
    grades = usual_grades()
    writers: dict[str, Callable[[Path], object]] = {
        **_book(data, ours, worked_out, text=text),
        "rack.xlsx": lambda path: _write_rack(path, grades, metric=_is_metric(data)),
        "order-sheet.xlsx": lambda path: write_order_sheet(path, materials=grades, shop=_SHOP),
        "order-sheet-mm.xlsx": lambda path: write_order_sheet(path, materials=grades, shop=_SHOP, unit="mm"),
    }
    there = [name for name in ("shop.xlsx", "shop.toml", *writers) if (directory / name).exists()]
    there = list(dict.fromkeys(there))
    if there:
        raise InputError(
            f"would overwrite {', '.join(there)}",
            place=Place(str(directory)),
            would_do="name another folder, or move these files away first",
        )
    try:
        directory.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=".staging-", dir=directory) as staging:
            for name, write in writers.items():
                write(Path(staging) / name)
            return tuple((Path(staging) / name).rename(directory / name) for name in writers)
    except OSError as error:
        raise InputError(
            f"cannot write into this folder ({error.strerror or error})",
            place=Place(str(directory)),
            would_do="name a folder that you may write into",
        ) from error


def _is_metric(data: Mapping[str, Any] | None) -> bool:
    return data is not None and data.get("shop", {}).get("units") == "metric"


def _write_rack(path: Path, grades: Sequence[str], *, metric: bool) -> None:
    rack, buyable = (_METRIC_EXAMPLES, _METRIC_BUYABLE) if metric else (_EXAMPLES, _BUYABLE)
    write_rack(path, rack, buyable, materials=grades, note=_NOTE, unit="mm" if metric else "in")


def _book(
    data: Mapping[str, Any] | None, ours: frozenset[str], worked_out: frozenset[str], *, text: bool
) -> dict[str, Callable[[Path], object]]:
    if not text:
        tables = starter_data() if data is None else data
        return {"shop.xlsx": lambda path: write_workbook(path, tables, ours, worked_out)}
    written = starter_text() if data is None else text_of_tables(data, ours, worked_out)
    return {"shop.toml": lambda path: path.write_text(written, "utf-8")}
