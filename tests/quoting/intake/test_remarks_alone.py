"""Remarks beside a clear line: those that change it are asked about or said, most of the others ask nothing.

`tests/data/texts_alone/remarks.json` was written by somebody who had not seen the reader, in eight languages,
with what a good estimator would do beside each; invented.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.quoting.intake.test_words_of_any_language import read

DATA = Path(__file__).parents[2] / "data" / "texts_alone"
REMARKS = json.loads((DATA / "remarks.json").read_text(encoding="utf-8"))
CHANGES = [one["text"] for one in REMARKS if one["expect"] == "changes"]
HARMLESS = [one["text"] for one in REMARKS if one["expect"] == "harmless"]
HARMLESS_PRICED = 99
SAID = ("not in the price", "is read as", "passed on", "unless the line", "not read as")
"""What a line says of work, a price or a date that was not taken."""


@pytest.mark.parametrize("text", CHANGES)
def test_what_changes_a_line_is_asked_or_said(tmp_path: Path, text: str) -> None:
    order = read(tmp_path, text)
    assert not order.lines or any(word in said for said in order.lines[0].assumptions for word in SAID)


def test_most_harmless_remarks_ask_nothing(tmp_path: Path) -> None:
    assert sum(bool(read(tmp_path, text).lines) for text in HARMLESS) >= HARMLESS_PRICED


@pytest.mark.parametrize(
    ("text", "asks"), [("dlvy to gate 3, ask for stores", False), ("deliver only 1 piece", True)]
)
def test_an_errand_that_counts_parts_is_none(tmp_path: Path, text: str, asks: bool) -> None:
    assert (not read(tmp_path, text).lines) is asks
