"""The sixth corpus: its sheets are whole, and nothing in them is priced silently otherwise than expected."""

from __future__ import annotations

from tests.benchmarks.intake_reader import counts
from tests.data.sixth_corpus import sheets


def test_the_corpus_is_whole() -> None:
    found = sheets()
    assert len(found) == 83
    assert sum(len(sheet.parts()) for sheet in found) == 458


def test_nothing_of_the_corpus_is_silent() -> None:
    found = counts("sixth_corpus", rows=False)
    assert found["silent wrong"] == 0
    assert found["missed"] == 0
