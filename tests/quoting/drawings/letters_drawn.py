"""Which words a paper draws, and how large."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any
from unittest.mock import patch

from quoting.drawings.sketch.pdf_items import Canvas


@contextmanager
def letters_drawn() -> Iterator[list[tuple[str, float]]]:
    """Yield a list that fills with the words that are drawn meanwhile and the mm of their letters."""
    found: list[tuple[str, float]] = []
    plain = Canvas.words

    def words(self: Canvas, x: float, y: float, item: Any, scale: float = 1.0) -> None:
        found.append((item.text, item.mm * scale))
        plain(self, x, y, item, scale)

    with patch.object(Canvas, "words", words):
        yield found
