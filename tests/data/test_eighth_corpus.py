"""The eighth corpus: its sheets are whole, and nothing in them is priced silently otherwise than expected."""

from __future__ import annotations

from tests.benchmarks.intake_reader import counts
from tests.data.eighth_corpus import sheets


def test_the_corpus_is_whole() -> None:
    found = sheets()
    assert len(found) == 61
    assert sum(len(sheet.parts()) for sheet in found) == 315


def test_nothing_of_the_corpus_is_silent() -> None:
    found = counts("eighth_corpus", rows=False)
    assert found["silent wrong"] == 0
    assert found["missed"] == 0
