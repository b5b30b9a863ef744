"""Short ways to write a sheet in a test and read it."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from pathlib import Path

from quoting.core import Order, Question
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.small_shop import TODAY, small_shop

HEAD = ["Item", "Qty", "Dia (in)", "ID/OD", "Thk (in)", "Length", "Material"]
GOOD = ["1", "2", "48", "ID", "1/4", "60", "A36"]


def read_rows(
    folder: Path,
    *rows: Sequence[object],
    head: list[str] | None = None,
    name: str = "order.csv",
    title: str = "",
) -> Order:
    """Write a title, a header and rows as a text sheet and read it."""
    file = folder / name
    with file.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows([*([[title]] if title else []), head or HEAD, *rows])
    return read_orders(file, small_shop(), today=TODAY)


def write_rows(folder: Path, *rows: Sequence[object]) -> Path:
    """Write rows as a text sheet and return the file."""
    file = folder / "order.csv"
    with file.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    return file


def question(order: Order, key: str) -> Question:
    """Return the question with this id."""
    return next(one for one in order.questions if one.id == key)
