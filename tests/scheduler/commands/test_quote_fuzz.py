"""Damaged workbooks on the whole command: each run ends with a message, all of its files or none."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.scheduler.commands.fuzz_command import fuzz_quotes

ORDERS = Path(__file__).parents[2] / "data" / "orders"


@pytest.mark.slow
def test_no_damaged_workbook_brings_a_traceback_or_a_half_written_output() -> None:
    tracebacks, halves, codes = fuzz_quotes(random.Random(11), 50, ORDERS)
    assert tracebacks == []
    assert halves == []
    assert codes[1] > 10  # a good part of them is read, and gets as far as the books
