"""The fourteenth corpus: its sheets are whole and can be written as files."""

from __future__ import annotations

from pathlib import Path

from tests.data.blind_sheets import LEVELS
from tests.data.sheet_writer import CORPORA, corpus, write_sheet

NAME = "fourteenth_corpus"


def test_the_corpus_is_whole() -> None:
    found = corpus(NAME)
    assert NAME in CORPORA
    assert len({sheet.name for sheet in found}) == len(found) == 50
    assert sum(len(sheet.parts()) for sheet in found) == 212
    assert all((Path(__file__).parent / NAME / f"{level}.json").is_file() for level in LEVELS)


def test_every_part_stands_at_a_row_that_says_something() -> None:
    for sheet in corpus(NAME):
        rows = {tab.name: tab.rows for tab in sheet.tabs}
        for part in sheet.parts():
            assert any(rows[part.tab][part.first - 1].cells), (sheet.name, part)


def test_every_sheet_can_be_written(tmp_path: Path) -> None:
    assert all(write_sheet(sheet, tmp_path).stat().st_size for sheet in corpus(NAME))
