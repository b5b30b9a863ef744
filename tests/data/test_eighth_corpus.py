"""The eighth corpus, which the reader was not mended by: its sheets are whole."""

from __future__ import annotations

from tests.data.eighth_corpus import sheets


def test_the_corpus_is_whole() -> None:
    found = sheets()
    assert len(found) == 61
    assert sum(len(sheet.parts()) for sheet in found) == 315
