"""Whole sheets as customers of many countries write them: which rows are priced, which asked about."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import pytest

from quoting.core import State
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY
from tests.quoting.intake.sheets import write_rows

SHORT = {State.PRICED: "p", State.QUESTION: "a", State.NO_QUOTE: "n"}


def _sheets() -> dict[str, tuple[str, list[list[str]]]]:
    """Return the sheets by their names: what is expected of each row that is a part, and the cells."""
    text = files("tests.data").joinpath("orders_of_many_senders.txt").read_text(encoding="utf-8")
    found = {}
    for block in text.split("\n== ")[1:]:
        head, *lines = block.splitlines()
        name, expected = head.split()
        found[name] = expected, [[cell.strip() for cell in line.split("|")] for line in lines]
    return found


SHEETS = _sheets()


@pytest.mark.parametrize("name", SHEETS)
def test_the_rows_of_a_sheet(tmp_path: Path, name: str) -> None:
    expected, rows = SHEETS[name]
    order = read_orders(write_rows(tmp_path, *rows), grading_shop(), today=TODAY)
    told = "".join(SHORT.get(row.state, "") for row in order.rows)
    assert told == expected, [question.text for question in order.questions if question.blocking]
