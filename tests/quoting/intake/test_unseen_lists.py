"""Lists that were opened late or never (`tests/data/texts_alone/unseen`): what is read of them is counted.

Tables, mails and cells have been looked into since; before that 272 of 393 rows of tables, 184 of 302 lines
of mails, 49 of 62 data sheets and 200 of 250 cells were read as they are meant.
None is priced as another part than it is, and no cell that should be asked about is priced.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from quoting.core import Order
from tests.quoting.intake import test_statements_alone as statements
from tests.quoting.intake.test_mails_alone import _graded
from tests.quoting.intake.test_sizes_alone import ordered, wrong
from tests.quoting.intake.test_tables_alone import graded

_UNSEEN = Path(__file__).parents[2] / "data" / "texts_alone" / "unseen"
pytestmark = pytest.mark.slow


def _list(name: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads((_UNSEEN / f"{name}.json").read_text(encoding="utf-8"))
    return found


def test_cells_of_a_whole_part(tmp_path: Path) -> None:
    found: Counter[str] = Counter()
    for one in _list("sizes"):
        line = ordered(tmp_path, one)
        if isinstance(one["want"], str):
            found["fine" if line is None else "priced"] += 1
        elif line is not None:
            found["wrong" if wrong(one["want"], line) else "fine"] += 1
    assert (found["wrong"], found["priced"]) == (0, 0)
    assert found["fine"] >= 223


def test_tables(tmp_path: Path) -> None:
    found = sum((graded(table, tmp_path / "order.xlsx") for table in _list("tables")), Counter[str]())
    assert found["wrong"] == found["missed"] == 0
    assert found["fine"] >= 334


@pytest.mark.parametrize(("kind", "least"), [("mail", 256), ("datasheet", 53)])
def test_mails_and_data_sheets(kind: str, least: int, tmp_path: Path) -> None:
    texts = [text for text in _list("mails") if text["kind"] == kind]
    found = sum((_graded(text, tmp_path / "order.xlsx") for text in texts), Counter[str]())
    assert found["wrong"] == 0
    assert found["fine"] >= least


def test_titles_notes_headings_and_remarks(tmp_path: Path) -> None:
    found: Counter[str] = Counter()
    plain: dict[str, Order] = {}
    for one in _list("terms"):
        if one["lang"] not in plain:
            clear = statements._read(tmp_path, statements._sheet({**one, "where": "note"}, ""))
            assert clear is not None
            plain[one["lang"]] = clear
        order = statements._read(tmp_path, statements._sheet(one, one["text"]))
        found[statements._grade(one, order, plain[one["lang"]])] += 1
    assert found["ask silent"] == 0
    assert found["none needless"] <= 15
    assert found["none fine"] >= 109
