"""A long table of the PDF is what the library makes of all its rows at once, page for page."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from reportlab.platypus import SimpleDocTemplate, Spacer

from quoting.books.quote import long_table
from quoting.books.quote.pdf_type import type_for


def _written(path: Path, lines: int, above: float) -> bytes:
    make = type_for("")
    rows: list[list[Any]] = [
        [make.say("Line", "head"), make.say("What", "head"), make.say("Price", "head right")]
    ]
    notes = []
    for line in range(lines):
        what = f"part {line}, " + "rolled and welded, " * (line * 7 % 11)
        rows.append([make.say(str(line), "text"), make.say(what, "text"), make.say("1,000.00", "right")])
        if line % 3:
            notes.append(len(rows))
            rows.append([make.say("", "text"), make.say("a note " * (line % 5), "quiet"), ""])
    table = make.table(rows, (20, 120, 40), head=True, rules=True, notes=notes, notes_from=1)
    SimpleDocTemplate(str(path), invariant=1).build([Spacer(1, above), table, make.say("after", "text")])
    return path.read_bytes()


@pytest.mark.parametrize("lines", [5, 20, 47, 400])
@pytest.mark.parametrize("above", [0.0, 333.0, 610.0])
def test_all_rows_are_laid_out_as_at_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, lines: int, above: float
) -> None:
    found = _written(tmp_path / "parts.pdf", lines, above)
    monkeypatch.setattr(long_table, "_FEW", 100_000)
    assert found == _written(tmp_path / "once.pdf", lines, above)
