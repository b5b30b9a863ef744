"""The seventh corpus: its sheets are whole, and no line is priced silently otherwise than expected."""

from __future__ import annotations

from tests.benchmarks.intake_reader import counts
from tests.data.seventh_corpus import sheets


def test_the_corpus_is_whole() -> None:
    found = sheets()
    assert len(found) == 62
    assert sum(len(sheet.parts()) for sheet in found) == 310


def test_nothing_of_the_corpus_is_silent() -> None:
    found = counts("seventh_corpus", rows=False)
    assert found["silent wrong"] == 0
    assert found["missed"] == 0
